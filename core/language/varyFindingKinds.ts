import { findingKind } from './finding.ts';
import { plural } from './lists.ts';
import { quoted } from './text/quoted.ts';

/** What can be wrong with `from to by`. */
export type StepProblem = 'none' | 'zero' | 'away' | 'units' | 'too-many' | 'not-whole';

const stepProblems: Readonly<Record<StepProblem, (data: { word: string; most: number }) => string>> = {
  none: ({ word }) =>
    `The values of ${quoted(word)} need a step: 'by' and how far one value is from the next.`,
  zero: () => "The step behind 'by' is zero.",
  away: () => "The step behind 'by' leads away from the last value.",
  units: () => 'The first value, the last and the step are written in one unit.',
  'too-many': ({ most }) => `A row has at most ${most} values.`,
  'not-whole': () => "The numbers beside 'nominal' are whole numbers.",
};

export const varyStepWrong = findingKind<{ problem: StepProblem; word: string; most: number }>({
  code: 'vary-step-wrong',
  severity: 'error',
  help: 'The values from a first to a last one are steps of one length, in one unit; whole numbers step by 1 unless told otherwise.',
  message: (data) => stepProblems[data.problem](data),
});

export const varyEndMissed = findingKind<{ last: string; end: string }>({
  code: 'vary-end-missed',
  severity: 'warning',
  help: 'The steps of a row should meet its last value, or that is not tried.',
  message: ({ last, end }) => `The steps do not meet ${end}; the last value tried is ${last}.`,
});

export const varyCountsDiffer = findingKind<{ word: string; count: number; other: number }>({
  code: 'vary-counts-differ',
  severity: 'error',
  help: "Rows that step together, joined by 'with', have equally many values.",
  message: ({ word, count, other }) =>
    `${quoted(word)} has ${plural(count, 'value')}, the row it steps with ${other}.`,
});

export const varyOppositeImpossible = findingKind<{ word: string; first: string }>({
  code: 'vary-opposite-impossible',
  severity: 'error',
  help: "'with opposite' gives a second word the negated values of the first, so both take numbers of one kind, and either sign.",
  message: ({ word, first }) => `${quoted(word)} cannot take the negated values of ${quoted(first)}.`,
});

export const holdTwofold = findingKind<{ word: string; other: string }>({
  code: 'hold-twofold',
  severity: 'error',
  help: 'Of gap-flux-density and flux, torque and current, shares and sizes only one can stay equal.',
  message: ({ word, other }) => `${quoted(word)} and ${quoted(other)} cannot both stay equal; choose one.`,
});

export const varyWordRepeated = findingKind<{ word: string }>({
  code: 'vary-word-repeated',
  severity: 'error',
  help: 'A word has its values from one row.',
  message: ({ word }) => `${quoted(word)} has a row already.`,
});

export const varyWritten = findingKind<{ word: string; what: 'rows' | 'paths' }>({
  code: 'vary-written',
  severity: 'error',
  help: 'Rows and paths that are written out hold for one number of slots, poles and layers only; what varies has to be generated, or found.',
  message: ({ word, what }) =>
    what === 'rows'
      ? `${quoted(word)} cannot vary while the layout is written row by row; write 'layers' and 'span' instead.`
      : `${quoted(word)} cannot vary while paths are written; write 'route paths' instead.`,
});

export const varyLayersDiffer = findingKind<{ word: string; written: string }>({
  code: 'vary-layers-differ',
  severity: 'error',
  help: 'A row names the same layers as the statement of the file that it overrides.',
  message: ({ word, written }) =>
    `The file says ${quoted(written)}, for other layers than this row of ${quoted(word)}; name the same layers in both.`,
});

export const varyOrder = findingKind<{ order: number }>({
  code: 'vary-order-with-poles',
  severity: 'error',
  help: 'Where the poles vary, an order means another wave in each variant; a harmonic is counted from the working wave.',
  message: ({ order }) =>
    `Order ${order} means another wave with every number of poles, and the poles vary; use 'harmonic'.`,
});

export const keepWithoutLimits = findingKind<null>({
  code: 'keep-without-limits',
  severity: 'warning',
  help: "'keep limits' takes the limits of the require block.",
  message: () => 'The file has no limits to keep.',
});

/** Every kind about the vary block. */
export const varyKinds = [
  varyStepWrong,
  varyEndMissed,
  varyCountsDiffer,
  varyOppositeImpossible,
  holdTwofold,
  varyWordRepeated,
  varyWritten,
  varyLayersDiffer,
  varyOrder,
  keepWithoutLimits,
];
