import type { FindingKind } from '../../core/language/finding.ts';

/** The data of the findings of a kind. */
type DataOf<Kind> = Kind extends FindingKind<infer Data> ? Data : never;

/** The names under which a module exports kinds of findings. */
type KindsOf<Module> = {
  [Name in keyof Module]: Module[Name] extends FindingKind<never> ? Name : never;
}[keyof Module];

/** How one kind of finding is worded: its code, and a sentence for the data of a case. */
export type Wording<Data> = readonly [code: string, words: (data: Data) => string];

/** Words for every kind of finding that a module exports: one that is missing does not compile. */
export type Wordings<Module> = {
  readonly [Name in KindsOf<Module>]: Wording<DataOf<Module[Name]>>;
};
