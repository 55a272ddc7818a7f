import type { Range } from '../finding.ts';
import type { RowPlace, SeriesItem, Value, WalkStep } from '../text/document.ts';
import type { Sequence } from '../text/sequence.ts';
import type { BlockName, VocabularyEntry } from '../vocabulary/vocabulary.ts';

/** A value with the place it is written at; `statement` is the whole statement's range. */
export interface Given<T> {
  readonly value: T;
  readonly range: Range;
  readonly statement: Range;
}

/** An angle as written; edeg and slot become radians with the machine's poles and slots. */
export interface Angle {
  readonly amount: number;
  readonly unit: 'deg' | 'edeg' | 'slot';
}

/** One length for the only gap, or two, inner and outer. Meters. */
export interface GapLengths {
  readonly first: number;
  readonly second: number | null;
}

/** A value for all layers (null) or for the layers named, from 0. */
export interface PerLayers<T> {
  readonly layers: readonly number[] | null;
  readonly value: T;
}

export interface MachineSpecification {
  readonly range: Range;
  readonly slots?: Given<number>;
  readonly poles?: Given<number>;
  readonly phases?: Given<{ readonly count: number; readonly apart: Angle | null }>;
  readonly gap?: Given<'inner' | 'outer' | 'both'>;
  /** Diameter of the inner end of the stator, m. */
  readonly bore?: Given<number>;
  /** Diameter of its outer end, m. */
  readonly outside?: Given<number>;
  /** Length of the iron along the axis, m. */
  readonly stack?: Given<number>;
  /** Share of the stack that is iron. */
  readonly stackFactor?: Given<number>;
  /** Along the radius, behind the slots, m. */
  readonly yokeHeight?: Given<number>;
  /** Along the radius, m. */
  readonly airGap?: Given<GapLengths>;
  /** Along the radius, m. */
  readonly magnetHeight?: Given<GapLengths>;
  /** Relative to that of the vacuum. */
  readonly magnetPermeability?: Given<number>;
  readonly carter?: Given<boolean>;
  /** Revolutions per second. */
  readonly speed?: Given<number>;
  /** Electrical, Hz. */
  readonly frequency?: Given<number>;
  /** Of the fundamental, one pole, Wb. */
  readonly flux?: Given<number>;
  /** Rms, of a terminal, A. */
  readonly current?: Given<number>;
  /** By which the phase current leads the EMF: positive weakens the field. */
  readonly currentAngle?: Given<Angle>;
  /** Along the axes of the rotor, without end winding, H. */
  readonly dInductance?: Given<number>;
  /** As that of the d axis, H. */
  readonly qInductance?: Given<number>;
  /** Rms, between line terminals, V. */
  readonly voltage?: Given<number>;
  /** Of the winding, for its resistance, degC. */
  readonly windingTemperature?: Given<number>;
  /** Of what cools the bar ends, and of the core without one of its own, degC. */
  readonly endTemperature?: Given<number>;
  /** At which the core is held, degC. */
  readonly coreTemperature?: Given<number>;
  /** Heat capacity of a core that the bars heat, J/K. */
  readonly coreHeat?: Given<number>;
  /** Of that core to its coolant, W/K. */
  readonly coreCooling?: Given<number>;
  /** Of what cools that core, degC. */
  readonly coolantTemperature?: Given<number>;
  readonly driveEnd?: Given<'connection' | 'far'>;
  /** Total over the stack; no steps: continuous. */
  readonly rotorSkew?: Given<{ readonly angle: Angle; readonly steps: number | null }>;
  /** Harmonics of the field of the rotor, relative to its fundamental. */
  readonly rotorField: readonly Given<{ readonly harmonic: number; readonly relative: number }>[];
  /** Harmonics of the phase current, relative to its fundamental. */
  readonly currentHarmonics: readonly Given<{ readonly harmonic: number; readonly relative: number }>[];
  /** Ripple of the phase current, Hz, relative to its fundamental. */
  readonly currentRipples: readonly Given<{ readonly frequency: number; readonly relative: number }>[];
}

/** Insulation between two layers of a slot; layers as written, from 0. */
export interface SeparatorSpecification {
  readonly layers: readonly [number, number];
  readonly thickness: number;
}

/** Peaks of an alternating field at the bars, T. */
export interface BarField {
  readonly radial: number;
  readonly tangential: number;
}

export interface SlotSpecification {
  readonly range: Range;
  /** The layers in slots of this kind, from 0; empty for all. */
  readonly layers: readonly { readonly layer: number; readonly range: Range }[];
  /** Across the slot, m. */
  readonly width?: Given<number>;
  /** Along the radius, from the opening to the closed end, m. */
  readonly depth?: Given<number>;
  /** Across the opening, m. */
  readonly opening?: Given<number>;
  /** Along the radius, m. */
  readonly openingHeight?: Given<number>;
  /** Along the radius, m. */
  readonly wedge?: Given<number>;
  /** Thickness on each wall, m. */
  readonly liner?: Given<number>;
  /** Insulation between two layers, each with its thickness. */
  readonly separators: readonly Given<SeparatorSpecification>[];
  /** W/(m K). */
  readonly sideConductance?: Given<number>;
  /** Peaks of the field of the rotor at the bars, T. */
  readonly barField?: Given<BarField>;
}

export interface BarSpecification {
  readonly range: Range;
  /** Across the slot, without coating, m. */
  readonly width: readonly Given<PerLayers<number>>[];
  /** Along the radius, without coating, m. */
  readonly height: readonly Given<PerLayers<number>>[];
  /** Parallel strands one above another in a bar. */
  readonly strands: readonly Given<PerLayers<number>>[];
  /** Radius of the corners, m. */
  readonly corner?: Given<number>;
  /** Thickness on each face, m. */
  readonly coating?: Given<number>;
  readonly metal?: Given<'copper' | 'aluminium'>;
  readonly form?: Given<'hairpin' | 'straight'>;
  /** Of the end winding, W/(m K). */
  readonly endConductance?: Given<number>;
  /** Axial part beyond the stack, m. */
  readonly endStraight?: Given<number>;
  /** Least distance between the coatings of neighboring bar ends, m. */
  readonly endClearance?: Given<number>;
  /** Axial part at the tip, m. */
  readonly jointStraight?: Given<number>;
  /** Inner radius of edgewise bends, and of those out of the layer where it is written. */
  readonly bendRadius?: Given<number>;
  /** Inner radius of bends out of the layer, m. */
  readonly flatRadius?: Given<number>;
  /** Largest gap between the straight parts of two joined bars, copper to copper, m. */
  readonly jointGap?: Given<number>;
  readonly jointPlane?: Given<'free' | 'level'>;
  /** Of a lead beyond the joints, m. */
  readonly leadLength?: Given<number>;
  /** Along the radius, m. */
  readonly pieceWidth?: Given<number>;
  /** Along the axis, m. */
  readonly pieceHeight?: Given<number>;
  /** Of pieces and rings above the joints, and from one level to the next, m. */
  readonly pieceClearance?: Given<number>;
  /** Along the radius, m. */
  readonly ringWidth?: Given<number>;
  /** Along the axis, m. */
  readonly ringHeight?: Given<number>;
  /** Of each joint, ohm. */
  readonly jointResistance?: Given<number>;
  /** Length at the tip without coating, m. */
  readonly bareEnd?: Given<number>;
}

export interface InsulationSpecification {
  readonly range: Range;
  /** What the insulation between bars of one phase holds, V. */
  readonly turnVoltage?: Given<number>;
  /** What the insulation between phases holds, V. */
  readonly phaseVoltage?: Given<number>;
  /** By which surges raise the voltages. */
  readonly surgeFactor?: Given<number>;
}

/** A layer written out, or derived from another. */
export type LayerRow =
  | {
      readonly kind: 'row';
      readonly layer: number;
      readonly places: Sequence<RowPlace>;
      readonly repeat: number;
      readonly alternating: boolean;
      readonly rowRange: Range;
    }
  | {
      readonly kind: 'derived';
      readonly layer: number;
      readonly from: number;
      readonly fromRange: Range;
      readonly moved: number;
      readonly negated: boolean;
    };

export interface LayoutSpecification {
  readonly range: Range;
  readonly layers?: Given<number>;
  readonly span?: Given<number>;
  readonly stagger?: Given<number>;
  readonly belt?: Given<Angle>;
  readonly rows: readonly Given<LayerRow>[];
  /** Lean of layers; null layers means all. */
  readonly skew: readonly Given<PerLayers<Angle>>[];
}

export interface WrittenPath {
  readonly phase: Given<string>;
  readonly number: Given<number>;
  readonly from: Given<string>;
  readonly fromFar: boolean;
  readonly to: Given<string>;
  readonly toFar: boolean;
  readonly steps: Sequence<WalkStep>;
  readonly walkRange: Range;
}

export interface PathCopy {
  readonly phase: Given<string>;
  readonly as: Given<string>;
  readonly shift: Given<number>;
}

export type PhaseConnection = 'star' | 'star-joined' | 'delta' | 'open';

/** What a found connection should have the fewest or the least of, by its word. */
export type WishWord =
  | 'pieces'
  | 'levels'
  | 'shapes'
  | 'joints'
  | 'bar-shapes'
  | 'legs-apart'
  | 'voltage'
  | 'copper'
  | 'window';

/** Paths to be found. */
export interface RouteRequest {
  readonly paths: number;
  /** The most important first, each once. */
  readonly wishes: readonly WishWord[];
  /** Deviation of path currents up to which unequal places are accepted, a share; null: none. */
  readonly deviation: number | null;
}

export interface ConnectSpecification {
  readonly range: Range;
  readonly connections: readonly Given<PhaseConnection>[];
  readonly route?: Given<RouteRequest>;
  /** Where special spans may lie. */
  readonly specials?: Given<'joined' | 'crowns' | 'either'>;
  /** Which ends are joined by rings; absent: none. */
  readonly rings?: Given<'star' | 'terminals' | 'all'>;
  readonly paths: readonly Given<WrittenPath>[];
  readonly copies: readonly Given<PathCopy>[];
}

/** A stretch of the duty cycle as written; SI units. Speed or frequency is given, and torque or current. */
export interface DutyPoint {
  readonly name: string;
  /** Revolutions per second. */
  readonly speed: number | null;
  readonly frequency: number | null;
  readonly torque: number | null;
  /** At a terminal, rms. */
  readonly current: number | null;
  readonly angle: Angle | null;
  readonly duration: number;
}

export interface DutySpecification {
  readonly range: Range;
  readonly points: readonly Given<DutyPoint>[];
}

/** A quantity, at an order or a point. Without a scope, per-order quantities mean harmonic 1. */
export interface Measure {
  readonly entry: VocabularyEntry;
  readonly scope: { readonly kind: 'harmonic' | 'order'; readonly number: number } | null;
  /** The point of the duty it holds at, by name; null for the rated point. */
  readonly point: string | null;
}

/** One acceptance limit; `limit` in SI units. */
export interface RequiredLimit extends Measure {
  readonly relation: '<=' | '>=';
  readonly limit: number;
  readonly written: string;
  readonly limitRange: Range;
}

/** Warnings of a code that are accepted with a reason. */
export interface AcceptedCode {
  readonly code: string;
  readonly reason: string;
}

/** A word whose values vary: of which block, and for which of its statements. */
export interface VariedWord {
  readonly entry: VocabularyEntry;
  /** Of a slot block that names its layers, from 0; empty for the slots there are. */
  readonly slotLayers: readonly number[];
  /** What stands between the word and its value: layers, `all`, `paths`. */
  readonly qualifiers: readonly Value[];
  readonly range: Range;
}

/** A word with its values, which are unfolded when asked for. */
export interface VaryColumn {
  readonly word: VariedWord;
  readonly values: () => readonly SeriesItem[];
}

/** Words that step together, the first one's values counted by the row. */
export interface VaryRow {
  readonly columns: readonly VaryColumn[];
}

/** What stays equal from variant to variant; what is not said is absent. */
export interface Hold {
  readonly field?: 'gap-flux-density' | 'flux';
  readonly load?: 'torque' | 'current';
  readonly room?: 'shares' | 'sizes';
}

/** What variants are left out by: a limit of its own, or null for those of the require block. */
export type Keep = RequiredLimit | null;

/** A quantity that variants are ordered by. */
export interface Ranking {
  readonly better: 'least' | 'most';
  readonly measure: Measure;
}

export interface VarySpecification {
  readonly range: Range;
  readonly rows: readonly Given<VaryRow>[];
  readonly hold?: Given<Hold>;
  readonly keeps: readonly Given<Keep>[];
  /** The first counts most. */
  readonly rank: readonly Given<Ranking>[];
}

export interface SheetSpecification {
  readonly range: Range;
  readonly owner?: Given<string>;
  readonly number?: Given<string>;
  readonly title?: Given<string>;
  readonly revision?: Given<string>;
  readonly date?: Given<string>;
  readonly drawnBy?: Given<string>;
  readonly approvedBy?: Given<string>;
  readonly documentType?: Given<string>;
  readonly status?: Given<string>;
  readonly sheetSize?: Given<string>;
  readonly language?: Given<string>;
  readonly notes: readonly Given<string>[];
}

/** Everything a text says, typed; what it does not say (or says wrongly) is absent. SI units. */
export interface Specification {
  readonly title?: Given<string>;
  readonly machine?: MachineSpecification;
  readonly slots: readonly SlotSpecification[];
  readonly bar?: BarSpecification;
  readonly insulation?: InsulationSpecification;
  readonly layout?: LayoutSpecification;
  readonly connect?: ConnectSpecification;
  readonly duty?: DutySpecification;
  readonly limits: readonly Given<RequiredLimit>[];
  /** Every accept in text order; its range is that of the code. */
  readonly accepts: readonly Given<AcceptedCode>[];
  readonly vary?: VarySpecification;
  readonly sheet?: SheetSpecification;
  /** Text that was not understood. */
  readonly broken: readonly BrokenText[];
}

/** A stretch that was not understood: its block (`file` outside blocks) and its first word. */
export interface BrokenText {
  readonly block: BlockName;
  readonly word: string;
  readonly range: Range;
}
