import type { Hold } from '../../specification/statements.ts';
import type { Statement } from '../../text/document.ts';
import { plain, statement, type VocabularyEntry } from '../entry.ts';
import { statementsOf } from '../word.ts';

const rows = "word values ('with' ('opposite' target | target values))*";

function row(block: string, example: string): VocabularyEntry {
  return statement('vary', block, {
    pattern: rows,
    meaning: `Values to try for a word of ${block}: a list, or from, to and step. Rows combine, and override the file\u2019s statement.`,
    example,
    repeatable: true,
  });
}

const skewed = 'layout skew a b 0 slot to 1 slot by 0.25 slot with opposite layout skew c d';
const span = 'layout span nominal -2 to nominal';
const held = 'hold gap-flux-density torque shares';
const ranked = 'rank least differential-leakage most winding-factor harmonic 1';

/** What of the vary block is a member of what it says; rows, limits and ranks are lists, read in text order. */
export const varyStatements = statementsOf('vary', {
  hold: {
    pattern: "('gap-flux-density' | 'flux' | 'torque' | 'current' | 'shares' | 'sizes')+",
    read: readHold,
    place: ({ range }) => range,
    meaning:
      'What stays equal from variant to variant, one of each pair: gap-flux-density or flux, torque or current, shares or sizes.',
    example: held,
    recurring: [],
    default: 'gap-flux-density torque shares',
  },
});

/** Words of the vary block. */
export const varyWords: readonly VocabularyEntry[] = [
  row('machine', 'machine slots 36 to 72 by 6'),
  row('slot', 'slot depth 14 mm 15 mm 16 mm'),
  row('bar', 'bar height 2 mm to 4 mm by 0.25 mm'),
  row('insulation', 'insulation surge-factor 1 1.5 2'),
  row('layout', span),
  row('connect', 'connect route paths 1 2 4'),
  ...Object.values(varyStatements),
  statement('vary', 'keep', {
    pattern: "'limits' | requirement",
    meaning: 'Leaves out variants that do not meet a limit, or those of the require block.',
    example: 'keep winding-factor harmonic 1 >= 0.92',
    repeatable: true,
  }),
  statement('vary', 'rank', {
    pattern: "(('least' | 'most') measure)+",
    meaning:
      'The order of the variants; the first counts most. With more than one, those that none beats in all of them are marked as the front.',
    example: ranked,
    recurring: ['least', 'most', 'harmonic', 'order', 'at'],
  }),
  ...plain('vary', 'keyword', {
    with: ['Steps a second row together with the first.', skewed],
    opposite: ['Gives the second row the negated values of the first.', skewed],
    to: ['The last value of a row.', 'machine slots 36 to 72 by 6'],
    by: ['The step from value to value.', 'machine slots 36 to 72 by 6'],
    nominal: [
      'The pole pitch in slots, to the nearest whole number; a number with a sign behind it counts from there.',
      span,
    ],
  }),
  ...plain('vary', 'choice', {
    'gap-flux-density': [
      'The flux follows the poles, the bore and the stack, so that the flux density in the gap stays that of the file.',
      held,
    ],
    flux: ['The flux of a pole stays that of the file.', 'hold flux'],
    torque: ['The current follows, so that the torque stays that of the file.', held],
    current: ['The current stays that of the file.', 'hold current'],
    shares: [
      'Slots keep their share of the slot pitch, and bars fill the room in them as before; insulation stays.',
      held,
    ],
    sizes: ['Slots and bars keep their sizes.', 'hold sizes'],
    limits: ['All limits of the require block.', 'keep limits'],
  }),
  ...plain('vary', 'keyword', {
    least: ['The less of it the better.', ranked],
    most: ['The more of it the better.', ranked],
    harmonic: ['Multiple of the fundamental.', ranked],
    order: ['Pole pairs round the bore.', 'rank least wave-relative order 1'],
    at: ['The point of the duty, by its name.', 'rank least copper-loss at "climb"'],
  }),
  ...plain('vary', 'choice', {
    'largest-paths': ['Most parallel paths the symmetry of the layout allows.', 'keep largest-paths >= 2'],
    'cogging-periods': ['Periods of the cogging torque in a turn.', 'rank most cogging-periods'],
    'lowest-force-order': [
      'Lowest order, other than 0, of the force waves listed.',
      'keep lowest-force-order >= 4',
    ],
    'radial-symmetry': [
      'Times the layout repeats round the bore, as far as forces go.',
      'keep radial-symmetry >= 2',
    ],
  }),
];

function readHold({ values }: Statement): Hold {
  const given = <T extends string>(words: readonly T[]): T | undefined =>
    values.flatMap((value) =>
      value.kind === 'keyword' ? words.filter((word) => word === value.text) : [],
    )[0];
  const field = given(['gap-flux-density', 'flux']);
  const load = given(['torque', 'current']);
  const room = given(['shares', 'sizes']);
  return { ...(field ? { field } : {}), ...(load ? { load } : {}), ...(room ? { room } : {}) };
}
