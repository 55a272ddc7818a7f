/** A half-open stretch of the text, in UTF-16 code units from its start. */
export interface Range {
  readonly start: number;
  readonly end: number;
}

export type Severity = 'error' | 'warning' | 'info';

/** A further place that explains a finding. */
export interface RelatedPlace {
  readonly message: string;
  readonly range: Range;
}

/** An edit of the text that would settle a finding. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly { readonly range: Range; readonly text: string }[];
}

/** Something wrong, doubtful or worth knowing, at an exact place. */
export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  /** What the message tells, as its kind declares it: for words in other languages. */
  readonly data: unknown;
  readonly range: Range;
  readonly related: readonly RelatedPlace[];
  readonly fix?: Fix;
  /** The reason with which a warning is accepted in the text; its severity is info then. */
  readonly accepted?: { readonly reason: string; readonly statement: Range };
}

/**
 * A kind of finding: its code in words, how serious it is, what it means (shown as help), and its
 * wording for the data of one case.
 */
export interface FindingKind<Data> {
  readonly code: string;
  readonly severity: Severity;
  readonly help: string;
  readonly message: (data: Data) => string;
  /** Severities that its findings have beside its own, by how much is wrong. */
  readonly graded?: readonly Severity[];
}

/** What a finding may carry beside its place and data. `severity` overrides the kind's own. */
export interface FindingExtras {
  readonly related?: readonly RelatedPlace[];
  readonly fix?: Fix;
  readonly severity?: Severity;
}

/** Declares a kind of finding; the registry in findings/registry.ts lists all of them. */
export function findingKind<Data>(kind: FindingKind<Data>): FindingKind<Data> {
  return kind;
}

/** One finding of the given kind at the given place. */
export function finding<Data>(
  kind: FindingKind<Data>,
  range: Range,
  data: Data,
  extras: FindingExtras = {},
): Finding {
  return {
    code: kind.code,
    severity: extras.severity ?? kind.severity,
    message: kind.message(data),
    data,
    range,
    related: extras.related ?? [],
    ...(extras.fix ? { fix: extras.fix } : {}),
  };
}
