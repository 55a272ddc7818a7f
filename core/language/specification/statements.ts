import type { Range } from '../finding.ts';
import type { RowPlace, WalkStep } from '../text/document.ts';
import type { Sequence } from '../text/sequence.ts';

/** A value with the place it is written at; `statement` is the whole statement's range. */
export interface Given<T> {
  readonly value: T;
  readonly range: Range;
  readonly statement: Range;
}

/** An angle as written; edeg and slot become radians with the machine's poles and slots. */
export interface Angle {
  /** In its unit, signed. */
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

/** Insulation between two layers of a slot. */
export interface SeparatorSpecification {
  /** From 0, the one nearer the axis first, whichever the text names first. */
  readonly layers: readonly [number, number];
  /** m. */
  readonly thickness: number;
}

/** Peaks of an alternating field at the bars, T. */
export interface BarField {
  /** Along the slot depth. */
  readonly radial: number;
  /** Across the slot. */
  readonly tangential: number;
}

/** A layer written out, or derived from another. */
export type LayerRow =
  | {
      readonly kind: 'row';
      /** From 0. */
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

export interface WrittenPath {
  readonly phase: Given<string>;
  /** Within its phase, from 1. */
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
  /** Slots, signed. */
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
  /** Parallel paths of each phase. */
  readonly paths: number;
  /** The most important first, each once. */
  readonly wishes: readonly WishWord[];
  /** Deviation of path currents up to which unequal places are accepted, a share; null: none. */
  readonly deviation: number | null;
}

/** A stretch of the duty cycle as written; SI units. Speed or frequency is given, and torque or current. */
export interface DutyPoint {
  readonly name: string;
  /** Revolutions per second. */
  readonly speed: number | null;
  /** Electrical, Hz. */
  readonly frequency: number | null;
  /** Nm; negative brakes. */
  readonly torque: number | null;
  /** At a terminal, rms. */
  readonly current: number | null;
  readonly angle: Angle | null;
  /** s. */
  readonly duration: number;
}

/** What stays equal from variant to variant; what is not said is absent. */
export interface Hold {
  readonly field?: 'gap-flux-density' | 'flux';
  readonly load?: 'torque' | 'current';
  readonly room?: 'shares' | 'sizes';
}
