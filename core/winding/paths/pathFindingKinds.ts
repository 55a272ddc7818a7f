import { findingKind } from '../../language/finding.ts';
import { isOne, plural } from '../../language/lists.ts';
import { capitalized, significant } from '../../language/numbers.ts';
import { quoted } from '../../language/text/quoted.ts';

export const terminalWrong = findingKind<{
  terminal: string;
  phase: string;
  expected: string;
  end: 'from' | 'to';
}>({
  code: 'terminal-wrong',
  severity: 'error',
  help: 'A path runs from the line terminal of its phase to the star point, or to the other terminal in delta and open windings.',
  message: ({ terminal, phase, expected, end }) =>
    `A path of phase ${phase} runs ${end} ${expected}, not ${quoted(terminal)}.`,
});

export const pathNumberRepeated = findingKind<{ phase: string; number: number }>({
  code: 'path-number-repeated',
  severity: 'error',
  help: 'The paths of a phase have different numbers.',
  message: ({ phase, number }) => `Phase ${phase} already has a path ${number}.`,
});

export const pathStartsWithHop = findingKind<null>({
  code: 'path-start-unknown',
  severity: 'error',
  help: 'A path begins with an absolute position, such as 1a.',
  message: () => 'A path begins with a position, as in 1a; hops can follow.',
});

export const positionOutside = findingKind<{ position: string; slots: number }>({
  code: 'position-outside',
  severity: 'error',
  help: 'Slots are numbered from 1 to the number of slots.',
  message: ({ position, slots }) =>
    `There is no position ${quoted(position)}: the machine has slots 1 to ${slots}.`,
});

export const hopTooLong = findingKind<{ hop: string; slots: number }>({
  code: 'hop-too-long',
  severity: 'error',
  help: 'A hop is shorter than a full turn.',
  message: ({ hop, slots }) =>
    `The hop ${quoted(hop)} is a full turn or more; it has to be below ${plural(slots, 'slot')}.`,
});

export const pieceMisplaced = findingKind<null>({
  code: 'piece-misplaced',
  severity: 'error',
  help: 'A | stands between two steps of a path and says that their joint is a separate connecting piece.',
  message: () => "'|' stands between two steps: it marks their joint as a separate connecting piece.",
});

export const copySourceMissing = findingKind<{ phase: string }>({
  code: 'copy-without-paths',
  severity: 'error',
  help: 'repeat copies the written paths of a phase.',
  message: ({ phase }) => `Phase ${phase} has no written paths to copy.`,
});

export const copyTargetTaken = findingKind<{ phase: string }>({
  code: 'copy-onto-paths',
  severity: 'error',
  help: 'A phase has its paths written, or copied once from another phase.',
  message: ({ phase }) => `Phase ${phase} already has paths.`,
});

export const barUsedTwice = findingKind<{
  /** What lays the bars: `path U 2`, or `phase V` for all its copied paths. */
  path: string;
  bars: string;
  count: number;
  /** Bars that it lays in all. */
  total: number;
  /** Whose bars they are. */
  other: string;
  /** A path meets its own bars. */
  itself: boolean;
}>({
  code: 'bar-used-twice',
  severity: 'error',
  help: 'Every bar belongs to exactly one place of one path.',
  message: ({ path, bars, count, total, other, itself }) => {
    if (itself)
      return `${capitalized(path)} passes ${count === 1 ? `bar ${bars}` : `${count} of its bars`} twice${count === 1 ? '' : `: ${bars}`}.`;
    if (count === 1) return `Bar ${bars} of ${path} is already used by ${other}.`;
    return count === total
      ? `${capitalized(path)} is laid where the bars of ${other} are: all its ${total} bars are already used (${bars}).`
      : `${count} of the ${total} bars of ${path} are already used by ${other}: ${bars}.`;
  },
});

// A message tells so many bars one by one.
const mostTold = 3;

export const senseAgainstTable = findingKind<{
  /** What lays the bars: `path U 2`, or `phase V` for all its copied paths. */
  path: string;
  bars: string;
  places: readonly { readonly bar: string; readonly walked: string; readonly table: string }[];
  /** Bars that it lays in all. */
  total: number;
  /** Where all of them lie on the bars of one phase: that phase. */
  cause: { readonly phase: string; readonly own: boolean; readonly opposite: boolean } | null;
  /** The shift that would fit, for copies. */
  fit: number | null;
}>({
  code: 'sense-against-layout',
  severity: 'error',
  help: 'A path passes + bars from the connection side to the far side and - bars back, as the layout says.',
  message: ({ path, bars, places, total, cause, fit }) => {
    const first = places[0]!;
    if (places.length === 1)
      return `${capitalized(path)} passes bar ${first.bar} as ${first.walked}, but the layout has ${first.table} there.`;
    const hint = fit === null ? '' : ` 'shift ${fit}' fits the layout.`;
    if (cause?.own)
      return `${capitalized(path)} passes all its ${total} bars in the sense opposite to the layout's: ${bars}.${hint}`;
    if (cause) {
      const sense = cause.opposite ? ' in the opposite sense' : '';
      return `${capitalized(path)} is laid where the layout has phase ${cause.phase}${sense}: all its ${total} bars (${bars}).${hint}`;
    }
    const told = places
      .slice(0, mostTold)
      .map(({ bar, walked, table }) => `${bar} as ${walked} where it has ${table}`)
      .join(', ');
    const rest = places.length > mostTold ? ` and ${places.length - mostTold} more` : '';
    return `${capitalized(path)} passes ${places.length} of its ${total} bars otherwise than the layout: ${told}${rest}.${hint}`;
  },
});

export const layoutAgainstPaths = findingKind<{ bars: string; count: number }>({
  code: 'layout-against-paths',
  severity: 'error',
  help: 'Where a layout and written paths are both given, they agree bar by bar.',
  message: ({ bars, count }) =>
    `The written paths pass ${count === 1 ? 'a bar' : `${count} bars`} otherwise than the layout says: ${bars}.`,
});

export const barUnused = findingKind<{
  bars: string;
  count: number;
  /** The path that has too few bars, if one has. */
  short: {
    readonly path: string;
    readonly bars: number;
    readonly share: number;
    readonly copied: boolean;
  } | null;
  /** Phases of these bars that have no path at all. */
  pathless: readonly string[];
}>({
  code: 'bar-unused',
  severity: 'error',
  help: 'Every bar of the layout belongs to a path.',
  message: ({ bars, count, short, pathless }) => {
    const unused = count === 1 ? `bar ${bars} belongs to no path` : `${count} bars belong to no path`;
    const listed = count === 1 ? '.' : `: ${bars}.`;
    if (short) {
      const who = short.copied ? `Path ${short.path}, like its copies, has` : `Path ${short.path} has`;
      return `${who} ${plural(short.bars, 'bar')} where an even share is ${significant(short.share)}; ${unused}${listed}`;
    }
    const why =
      pathless.length === 0
        ? ''
        : `${isOne(pathless.length) ? 'Phase' : 'Phases'} ${pathless.join(' and ')} ${isOne(pathless.length) ? 'has' : 'have'} no path; `;
    return `${why}${why ? unused : capitalized(unused)}${listed}`;
  },
});

export const pathEndSide = findingKind<{ path: string; bars: number; ends: 'far' | 'connection' }>({
  code: 'path-end-side',
  severity: 'error',
  help: "A path that ends on the far side says so with 'far' behind its terminal.",
  message: ({ path, bars, ends }) =>
    ends === 'far'
      ? `Path ${path} has ${plural(bars, 'bar')} and ends on the far side; write 'far' behind its terminal, or add a bar.`
      : `Path ${path} has ${plural(bars, 'bar')} and ends on the connection side, not the far side.`,
});

/** Every kind the walking of written paths reports. */
export const pathKinds = [
  terminalWrong,
  pathNumberRepeated,
  pathStartsWithHop,
  positionOutside,
  hopTooLong,
  pieceMisplaced,
  copySourceMissing,
  copyTargetTaken,
  barUsedTwice,
  senseAgainstTable,
  layoutAgainstPaths,
  barUnused,
  pathEndSide,
];
