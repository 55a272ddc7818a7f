import { findingKind } from '../language/finding.ts';
import { quoted } from '../language/kinds.ts';

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
    `The hop ${quoted(hop)} is a full turn or more; it has to be below ${slots} slots.`,
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

export const barUsedTwice = findingKind<{ bar: string; first: string }>({
  code: 'bar-used-twice',
  severity: 'error',
  help: 'Every bar belongs to exactly one place of one path.',
  message: ({ bar, first }) => `Bar ${bar} is already used by ${first}.`,
});

export const senseAgainstTable = findingKind<{ bar: string; path: string; table: string; walked: string }>({
  code: 'sense-against-layout',
  severity: 'error',
  help: 'A path passes + bars from the connection side to the far side and - bars back, as the layout says.',
  message: ({ bar, path, table, walked }) =>
    `Path ${path} passes bar ${bar} as ${walked}, but the layout has ${table} there.`,
});

export const layoutAgainstPaths = findingKind<{ bars: string; count: number }>({
  code: 'layout-against-paths',
  severity: 'error',
  help: 'Where a layout and written paths are both given, they agree bar by bar.',
  message: ({ bars, count }) =>
    `The written paths pass ${count === 1 ? 'a bar' : `${count} bars`} otherwise than the layout says: ${bars}.`,
});

export const barUnused = findingKind<{ bars: string; count: number }>({
  code: 'bar-unused',
  severity: 'error',
  help: 'Every bar of the layout belongs to a path.',
  message: ({ bars, count }) =>
    count === 1 ? `Bar ${bars} belongs to no path.` : `${count} bars belong to no path: ${bars}.`,
});

export const pathEndSide = findingKind<{ path: string; bars: number; ends: 'far' | 'connection' }>({
  code: 'path-end-side',
  severity: 'error',
  help: "A path that ends on the far side says so with 'far' behind its terminal.",
  message: ({ path, bars, ends }) =>
    ends === 'far'
      ? `Path ${path} has ${bars} bar${bars === 1 ? '' : 's'} and ends on the far side; write 'far' behind its terminal, or add a bar.`
      : `Path ${path} has ${bars} bar${bars === 1 ? '' : 's'} and ends on the connection side, not the far side.`,
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
