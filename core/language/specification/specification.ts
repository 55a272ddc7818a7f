import type { Range } from '../finding.ts';
import type { RowPlace, WalkStep } from '../text/document.ts';
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
  readonly bore?: Given<number>;
  readonly outside?: Given<number>;
  readonly stack?: Given<number>;
  /** Share of the stack that is iron. */
  readonly stackFactor?: Given<number>;
  readonly yokeHeight?: Given<number>;
  readonly airGap?: Given<GapLengths>;
  readonly magnetHeight?: Given<GapLengths>;
  readonly magnetPermeability?: Given<number>;
  readonly carter?: Given<boolean>;
  /** Revolutions per second. */
  readonly speed?: Given<number>;
  readonly frequency?: Given<number>;
  readonly flux?: Given<number>;
  readonly current?: Given<number>;
  readonly currentAngle?: Given<Angle>;
  /** Along the axes of the rotor, without end winding, H. */
  readonly dInductance?: Given<number>;
  readonly qInductance?: Given<number>;
  readonly voltage?: Given<number>;
  readonly windingTemperature?: Given<number>;
  readonly endTemperature?: Given<number>;
  readonly driveEnd?: Given<'connection' | 'far'>;
  readonly rotorSkew?: Given<{ readonly angle: Angle; readonly steps: number | null }>;
  readonly rotorField: readonly Given<{ readonly harmonic: number; readonly relative: number }>[];
}

/** Insulation between two layers of a slot; layers as written, from 0. */
export interface SeparatorSpecification {
  readonly layers: readonly [number, number];
  readonly thickness: number;
}

export interface SlotSpecification {
  readonly range: Range;
  /** The layers in slots of this kind, from 0; empty for all. */
  readonly layers: readonly { readonly layer: number; readonly range: Range }[];
  readonly width?: Given<number>;
  readonly depth?: Given<number>;
  readonly opening?: Given<number>;
  readonly openingHeight?: Given<number>;
  readonly wedge?: Given<number>;
  readonly liner?: Given<number>;
  /** Insulation between two layers, each with its thickness. */
  readonly separators: readonly Given<SeparatorSpecification>[];
  /** W/(m K). */
  readonly sideConductance?: Given<number>;
}

export interface BarSpecification {
  readonly range: Range;
  readonly width: readonly Given<PerLayers<number>>[];
  readonly height: readonly Given<PerLayers<number>>[];
  readonly strands: readonly Given<PerLayers<number>>[];
  readonly corner?: Given<number>;
  readonly coating?: Given<number>;
  readonly metal?: Given<'copper' | 'aluminium'>;
  readonly form?: Given<'hairpin' | 'straight'>;
  readonly endStraight?: Given<number>;
  readonly endClearance?: Given<number>;
  readonly jointStraight?: Given<number>;
  /** Inner radius of edgewise bends, and of those out of the layer where it is written. */
  readonly bendRadius?: Given<number>;
  readonly flatRadius?: Given<number>;
  readonly jointGap?: Given<number>;
  readonly jointPlane?: Given<'free' | 'level'>;
  readonly leadLength?: Given<number>;
  readonly pieceWidth?: Given<number>;
  readonly pieceHeight?: Given<number>;
  readonly pieceClearance?: Given<number>;
  readonly ringWidth?: Given<number>;
  readonly ringHeight?: Given<number>;
  readonly bareEnd?: Given<number>;
}

export interface InsulationSpecification {
  readonly range: Range;
  readonly turnVoltage?: Given<number>;
  readonly phaseVoltage?: Given<number>;
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

/** One acceptance limit; `limit` in SI units. Without a scope, per-order quantities mean harmonic 1. */
export interface RequiredLimit {
  readonly entry: VocabularyEntry;
  readonly scope: { readonly kind: 'harmonic' | 'order'; readonly number: number } | null;
  /** The point of the duty it holds at, by name; null for the rated point. */
  readonly point: string | null;
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
