import type { ConnectionFacts } from '../../facts/connection.ts';
import { plural } from '../../language/lists.ts';
import type { PhaseConnection } from '../../language/specification/statements.ts';
import { filledShape, pathShape } from '../../picture/make.ts';
import { boxArea, boxOutline } from '../../picture/outlines.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import { deltaJoins, type TerminalJoin } from '../../winding/joints/deltaJoins.ts';
import { barName, type Path, type PhaseSystem } from '../../winding/model.ts';
import { joinsWords, pairWords } from '../joining.ts';
import type { Block } from '../page/flow.ts';
import { splitBlock } from '../page/split.ts';
import { drawHeading, headingHeight } from '../page/table.ts';
import { fitted, line, linePitch, toBase, wrapped } from '../page/text.ts';

/** Beside machine and winding it has room on the first A3 sheet. */
const width = 88;
const pathPitch = 6.4;
const phaseGap = 2.4;
/** What stands from left to right: names of both ends, their dots, where paths part and join, their boxes. */
const [fromName, fromDot, parting, boxLeft, boxRight, joining, toDot, toName] = [
  9, 11, 14, 19, 63, 68, 71, 73,
];

/**
 * How the paths of each phase lie between its terminal and the star point or other terminal: one box a
 * path with its first and last bar. Split between phases.
 */
export function schemeBlock(
  phases: PhaseSystem,
  { paths, connection }: Pick<ConnectionFacts, 'paths' | 'connection'>,
  section: string,
): Block {
  const byPhase = phases.names.map((_, phase) => paths.filter((path) => path.phase === phase));
  const joins = connection === 'delta' ? deltaJoins(phases) : [];
  return splitScheme({ phases, byPhase, joins, words: joiningWords(phases, connection), section });
}

interface Scheme {
  readonly phases: PhaseSystem;
  readonly byPhase: readonly (readonly Path[])[];
  /** Of a delta, one a phase. */
  readonly joins: readonly TerminalJoin[];
  /** How the phases are joined, in lines of text. */
  readonly words: readonly string[];
  readonly section: string;
}

/** What is to be joined outside the paths. */
function joiningWords(phases: PhaseSystem, connection: PhaseConnection): readonly string[] {
  const words: Readonly<Record<PhaseConnection, string>> = {
    star:
      phases.sets > 1
        ? 'Two stars: the ends of each set meet in its own star point.'
        : 'Star: the ends of all phases meet in the star point N.',
    'star-joined': 'One star: the ends of both sets meet in the star point N.',
    delta: `Delta: join ${joinsWords(phases)}.`,
    open: 'Open phases: both ends of each are led out.',
  };
  return wrapped(words[connection], 2.5, width);
}

function splitScheme(scheme: Scheme): Block {
  const { byPhase, words } = scheme;
  const headOf = (from: number) =>
    headingHeight + (from === 0 ? words.length * linePitch(2.5) + (words.length > 0 ? 1.5 : 0) : 0);
  return splitBlock({
    section: scheme.section,
    width,
    count: byPhase.length,
    head: headOf,
    height: (phase) => phaseHeight(byPhase[phase]!),
    wholeHeight,
    least: 1,
    draw: (from, count) => (left, top) => [
      ...drawHeading(
        `scheme-heading-${from}`,
        `Connection scheme${from === 0 ? '' : ', continued'}`,
        left,
        top,
      ),
      ...(from === 0 ? words : []).map((line, row) => drawJoining(line, row, left, top + headingHeight)),
      ...drawPhases(scheme, from, count, left, top + headOf(from)),
    ],
  });
}

function drawJoining(words: string, row: number, left: number, top: number): Primitive {
  const y = top + row * linePitch(2.5) + toBase(2.5);
  return line(`scheme-joining-${row + 1}`, 'sheet-text', left, y, words, { height: 2.5 });
}

/** Schemes up to this height are not split. */
const wholeHeight = 100;
/** Of more paths than these the first are drawn, and a line says how many there are. */
const mostPaths = 8;

function phaseHeight({ length }: readonly Path[]): number {
  return Math.min(length, mostPaths) * pathPitch + (length > mostPaths ? 4.5 : 0) + phaseGap;
}

function drawPhases(
  { phases, byPhase, joins }: Scheme,
  from: number,
  count: number,
  left: number,
  top: number,
): readonly Primitive[] {
  let y = top;
  return byPhase.slice(from, from + count).flatMap((paths, index) => {
    const phase = from + index;
    const items = drawPhase(phases.names[phase]!, phase, paths, joins[phase], left, y);
    y += phaseHeight(paths);
    return items;
  });
}

function drawPhase(
  name: string,
  phase: number,
  all: readonly Path[],
  join: TerminalJoin | undefined,
  left: number,
  top: number,
): readonly Primitive[] {
  if (all.length === 0) return [];
  const paths = all.slice(0, mostPaths);
  const id = `scheme-${name}`;
  const middles = paths.map((_, index) => top + index * pathPitch + pathPitch / 2);
  const [start, end] = [left + parting, left + joining];
  const center = (middles[0]! + middles.at(-1)!) / 2;
  const wires: PathPart[] = middles.flatMap((y): PathPart[] => [
    [start, y, left + boxLeft, y],
    [left + boxRight, y, end, y],
  ]);
  for (const x of [start, end]) if (middles.length > 1) wires.push([x, middles[0]!, x, middles.at(-1)!]);
  wires.push([left + fromDot, center, start, center], [end, center, left + toDot, center]);
  const boxes = middles.map((y) => boxOutline(left + boxLeft, y - 2.6, left + boxRight, y + 2.6));
  const dot = (x: number) => boxArea(x - 0.7, center - 0.7, x + 0.7, center + 0.7);
  const first = paths[0]!;
  return [
    pathShape(`${id}-wires`, 'legend-line', wires, { phase }),
    pathShape(`${id}-boxes`, 'table-line', boxes),
    filledShape(`${id}-dots`, 'junction', [dot(left + fromDot), dot(left + toDot)]),
    line(`${id}-from`, 'sheet-text', left + fromName, center + 1.25, fitted(first.from, 2.5, fromName), {
      height: 2.5,
      anchor: 'end',
    }),
    line(
      `${id}-to`,
      'sheet-text',
      left + toName,
      center + 1.25,
      fitted(join === undefined ? first.to : pairWords(first.to, join.to), 2.5, width - toName),
      { height: 2.5 },
    ),
    ...(all.length > mostPaths
      ? [
          line(
            `${id}-more`,
            'sheet-text',
            left + (boxLeft + boxRight) / 2,
            top + mostPaths * pathPitch + 3.2,
            `and ${plural(all.length - mostPaths, 'more path')} in parallel`,
            { height: 2.5, anchor: 'middle' },
          ),
        ]
      : []),
    ...paths.map((path, index) =>
      line(
        `${id}-path-${path.number}`,
        'sheet-text',
        left + (boxLeft + boxRight) / 2,
        middles[index]! + 1.25,
        fitted(pathWords(name, path), 2.5, boxRight - boxLeft - 2),
        { height: 2.5, anchor: 'middle' },
      ),
    ),
  ];
}

function pathWords(name: string, path: Path): string {
  const [first, last] = [path.bars[0], path.bars.at(-1)];
  const ends = first && last ? `: ${barName(first)} \u2026 ${barName(last)}` : '';
  return `${name} ${path.number}${ends}, ${plural(path.bars.length, 'bar')}`;
}
