import type { Range } from '../finding.ts';
import type { SeriesItem, Value } from '../text/document.ts';
import type { barStatements, insulationStatements, slotStatements } from '../vocabulary/blocks/copper.ts';
import type { dutyStatements } from '../vocabulary/blocks/duty.ts';
import type { sheetStatements } from '../vocabulary/blocks/file.ts';
import type { machineStatements } from '../vocabulary/blocks/machine.ts';
import type { varyStatements } from '../vocabulary/blocks/vary.ts';
import type { connectStatements, layoutStatements } from '../vocabulary/blocks/winding.ts';
import type { BlockName, VocabularyEntry } from '../vocabulary/entry.ts';
import type { BlockSaid } from '../vocabulary/word.ts';
import type { Given, PhaseConnection } from './statements.ts';

/** What the machine block says. */
export interface MachineSpecification extends BlockSaid<typeof machineStatements> {}

/** What a slot block says. */
export interface SlotSpecification extends BlockSaid<typeof slotStatements> {
  /** The layers in slots of this kind, from 0; empty for all. */
  readonly layers: readonly { readonly layer: number; readonly range: Range }[];
}

/** What the bar block says. */
export interface BarSpecification extends BlockSaid<typeof barStatements> {
  /** Inner radius of bends out of the layer, m: the second number of the bend-radius, where it stands. */
  readonly flatRadius?: Given<number>;
}

/** What the insulation block says. */
export interface InsulationSpecification extends BlockSaid<typeof insulationStatements> {}

/** What the layout block says. */
export interface LayoutSpecification extends BlockSaid<typeof layoutStatements> {}

/** What the connect block says. */
export interface ConnectSpecification extends BlockSaid<typeof connectStatements> {
  /** The statements star, delta and open, in text order. */
  readonly connections: readonly Given<PhaseConnection>[];
}

/** What the duty block says. */
export interface DutySpecification extends BlockSaid<typeof dutyStatements> {}

/** What the sheet block says. */
export interface SheetSpecification extends BlockSaid<typeof sheetStatements> {}

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

/** What variants are left out by: a limit of its own, or null for those of the require block. */
export type Keep = RequiredLimit | null;

/** A quantity that variants are ordered by. */
export interface Ranking {
  readonly better: 'least' | 'most';
  readonly measure: Measure;
}

export interface VarySpecification extends BlockSaid<typeof varyStatements> {
  readonly rows: readonly Given<VaryRow>[];
  readonly keeps: readonly Given<Keep>[];
  /** The first counts most. */
  readonly rank: readonly Given<Ranking>[];
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
