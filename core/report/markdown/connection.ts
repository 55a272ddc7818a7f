import type { ConnectionFacts } from '../../facts/connection.ts';
import type { Facts } from '../../facts/facts.ts';
import { unjoinedReason } from '../../facts/unjoined.ts';
import { figureRegister } from '../../figures/register.ts';
import { commonPotential } from '../../findings/copper/insulationRules.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { isOne, plural } from '../../language/lists.ts';
import { fixed, percent, shownFigure, significant } from '../../language/numbers.ts';
import type { RouteExplanation, RouteWish } from '../../routing/route.ts';
import type { Column } from '../../tables/column.ts';
import { pathRows } from '../../tables/paths.ts';
import { barShapeColumn, bentEndWords, jointShapeColumn, type ShapeOf } from '../../tables/shapes.ts';
import type { BarShape } from '../../winding/joints/bars.ts';
import { barName, typedSigns } from '../../winding/model.ts';
import { pathName } from '../../winding/paths/writtenPaths.ts';
import { endBoundaryWords, slotBoundaryWords } from '../../winding/phaseBoundaries.ts';
import { pathFigures } from '../machine.ts';
import { sentence } from './guard.ts';
import { modelText } from './machine.ts';
import type { Sources } from './sources.ts';
import { columnsTable, markdownTable } from './table.ts';

// Longer lists of connecting pieces are cut; the JSON report holds all of them.
const mostPieces = 40;

/** The report's section on paths and joints. */
export function connectionText(facts: Facts, sources: Sources): string {
  const state = facts.connection;
  if (state.kind === 'connected') return connectedText(facts, state.facts, sources);
  const reason = unjoinedReason(state, facts.winding);
  if (reason === null) return 'The text does not say how the bars are joined; `connect` does.';
  const more = state.kind === 'refused' ? ' The findings tell what would work.' : '';
  return `No joints, bar shapes and voltages, because ${sentence(reason)}.${more}`;
}

function connectedText(facts: Facts, connection: ConnectionFacts, sources: Sources): string {
  return [
    origin(facts, connection),
    pathsTable(facts, connection),
    ...pathCurrentsTable(facts, sources),
    jointsText(connection),
    barsText(connection),
    voltagesText(facts, connection),
  ].join('\n\n');
}

const joinWords = {
  star: 'in star',
  'star-joined': 'in one star',
  delta: 'in delta',
  open: 'with open phases',
} as const;

function origin(facts: Facts, connection: ConnectionFacts): string {
  const { parallelPaths } = facts.winding;
  const paths = `${plural(parallelPaths, 'path')} a phase, joined ${joinWords[connection.connection]}`;
  const counts = connection.counts();
  const sums = `A phase has ${plural(counts.special, 'special joint')} of ${plural(counts.specialShapes, 'shape')}, ${counts.jumpers} of them ${isOne(counts.jumpers) ? 'a separate connecting piece' : 'separate connecting pieces'}.`;
  if (!connection.explanation)
    return `${paths}; the paths are written in the text (hash ${connection.hash()}). ${sums}`;
  return `${paths}; the paths are found, not written out (hash ${connection.hash()}). ${sums} ${explained(connection.explanation)}`;
}

const methodWords: Readonly<Record<string, string>> = {
  helix: 'equal shares of every loop',
  twins: 'forward paths with mirrored twins',
  turning: 'paths that go up forward and down backward',
  units: 'whole coils',
  allotment: 'bars allotted one by one',
  exchange: 'stretches of paths exchanged',
};

const wishWords: Readonly<Record<RouteWish, string>> = {
  pieces: 'the fewest connecting pieces',
  levels: 'the fewest levels of them',
  shapes: 'the fewest joint shapes',
  joints: 'the fewest special joints',
  'bar-shapes': 'the fewest bar shapes',
  'legs-apart': 'the fewest legs bent apart',
  voltage: 'the least voltage in a slot',
  copper: 'the shortest joints',
  window: 'the starts nearest together',
};

/** What counts where nothing is wished for, as far as it is worth telling. */
const defaultAims: readonly RouteWish[] = ['pieces', 'levels', 'shapes', 'joints'];

const provedWords: Readonly<Record<string, string>> = {
  jumpers: 'connecting pieces',
  'special-joints': 'special joints',
  'joint-shapes': 'joint shapes',
};

function explained(explanation: RouteExplanation): string {
  const order = [...explanation.wishes, ...defaultAims.filter((aim) => !explanation.wishes.includes(aim))];
  const aim = `${explanation.wishes.length > 0 ? 'as wished for ' : ''}${order.map((wish) => wishWords[wish]).join(', then ')}`;
  const balance = explanation.strict
    ? 'Because slots hold two phases (or the skew differs), the paths agree place by place.'
    : 'The paths agree in the angles and in the layers of their bars.';
  const tried = explanation.tried
    .map(({ method, nodes, found, exhausted }) => {
      const what = found
        ? `${plural(found.jumpers, 'piece')}, ${plural(found.jointShapes, 'shape')}, ${plural(found.specialJoints, 'special joint')}${tipWords(found.tipGap)}`
        : 'nothing better';
      const effort = nodes > 0 ? `, ${plural(nodes, 'step')}${exhausted ? '' : ', cut short'}` : '';
      return `${methodWords[method] ?? method} (${what}${effort})`;
    })
    .join('; ');
  const { bounds } = explanation;
  const bound = bounds
    ? ` With regular crowns no connection has fewer than ${plural(bounds.jumpers, 'connecting piece')}, or fewer than ${plural(bounds.specialJoints, 'special joint')}.`
    : '';
  const proved =
    explanation.proved.length > 0
      ? ` Proved smallest${explanation.specials === 'joined' ? ' with regular crowns' : ''}: ${explanation.proved.map((what) => provedWords[what] ?? what).join(', ')}.`
      : ' None of the counts is proved to be the smallest.';
  const tips = explanation.tipsFit ? '' : ' None of what was tried leaves the joint tips room enough.';
  return `Wanted: ${aim}. ${balance} Tried: ${tried}.${tips}${bound}${proved}`;
}

/** How near joint tips come; nothing where they lie as far apart as the regular joints' tips. */
function tipWords(gap: number): string {
  if (gap >= 1) return '';
  return gap === 0 ? ', tips on one place' : `, tips ${significant(gap, 2)} of a slot pitch apart`;
}

function pathsTable(facts: Facts, connection: ConnectionFacts): string {
  const { phases, layers } = facts.winding;
  const letters = Array.from({ length: layers }, (_, layer) => layerLetter(layer));
  return markdownTable(
    [
      'path',
      'from',
      'first bar',
      'last bar',
      'to',
      'bars',
      `in layers ${letters.join(' ')}`,
      'voltage',
      'angle',
    ],
    ['left', 'left', 'left', 'left', 'left', 'right', 'left', 'right', 'right'],
    pathRows(connection).map(({ path, voltage, layerCounts }) => [
      pathName(path, phases),
      path.from,
      barName(path.bars[0]!),
      barName(path.bars[path.bars.length - 1]!),
      path.to,
      String(path.bars.length),
      layerCounts.join(' '),
      fixed(voltage.relative, 5),
      voltage.angle === null ? '–' : `${fixed(voltage.angle, 3)} edeg`,
    ]),
  );
}

/** What parallel paths carry beside equal shares, each figure with its model. */
function pathCurrentsTable(facts: Facts, sources: Sources): readonly string[] {
  const rows = pathFigures(facts).map(({ path, value }) => {
    const { words, shown } = figureRegister[path];
    const told = value === null ? 'not computed' : shownFigure(value, shown);
    return [words, told, modelText(path, sources)];
  });
  return rows.length > 0
    ? [markdownTable(['figure', 'value', 'model'], ['left', 'right', 'left'], rows)]
    : [];
}

function jointsText(connection: ConnectionFacts): string {
  const { joints, shapes } = connection.joints();
  const { number, side, layers, offset, kind, count } = jointShapeColumn;
  const table = columnsTable(
    [number, side, layers, offset, kind, count],
    shapes.map((shape) => ({ shape })),
  );
  const pieces = joints.filter(({ kind }) => kind === 'jumper');
  const named = pieces
    .slice(0, mostPieces)
    .map(({ number, from, to }) => `${number} (${barName(from)}–${barName(to)})`);
  const rest = pieces.length > mostPieces ? ` and ${pieces.length - mostPieces} more` : '';
  const list =
    pieces.length === 0
      ? 'No separate connecting pieces.'
      : `Separate connecting pieces, by joint number: ${named.join(', ')}${rest}.`;
  return `${plural(joints.length, 'joint')}, the offset in slots from the bar in the lower layer:\n\n${table}\n\n${list}`;
}

function barsText(connection: ConnectionFacts): string {
  const shapes = connection.barShapes();
  const { number, form, crown, count } = barShapeColumn;
  const ends: Column<ShapeOf<BarShape>> = {
    heading: 'ends',
    meaning: 'How each end is bent.',
    value: ({ shape }) => shape.ends.map((end) => bentEndWords(end, typedSigns, 'free')).join(', '),
  };
  const table = columnsTable(
    [number, form, crown, ends, count],
    shapes.map((shape) => ({ shape })),
  );
  const note = connection.form === 'hairpin' ? ` ${bendingText(connection)}` : '';
  return `${plural(shapes.length, 'bar shape')}; crowns and ends are given by the slots they reach to, and mirror images are different shapes.${note}\n\n${table}`;
}

/** Where hairpins are bent by another than the regular span, and whether their legs go with the ring. */
function bendingText(connection: ConnectionFacts): string {
  const apart = connection.legsBentApart();
  const legs =
    apart === 0
      ? 'every leg is bent with its ring'
      : `${plural(apart, 'leg')} ${isOne(apart) ? 'is bent by another amount than its ring' : 'are bent by another amount than their ring'}`;
  const special = connection
    .joints()
    .joints.filter(
      ({ kind, separatePiece }) => !separatePiece && (kind === 'other-span' || kind === 'layer-step'),
    );
  const joined = special.filter(({ side }) => side === 'connection').length;
  const crowns = special.length - joined;
  if (special.length === 0) return `${legs.charAt(0).toUpperCase()}${legs.slice(1)}.`;
  const places =
    crowns === 0
      ? 'on the joined (connection) side'
      : joined === 0
        ? 'in the crowns, on the far side'
        : `on both sides, ${joined} on the joined (connection) side and ${crowns} in the crowns`;
  return `Special spans lie ${places}; ${legs}.`;
}

function voltagesText(facts: Facts, connection: ConnectionFacts): string {
  const gaps = connection.gaps();
  const window = connection.terminals().startWindow;
  const insulation = boundariesText(facts);
  const leads = `The starts of all paths lie within ${plural(significant(window.angle, 4), 'mechanical degree')}.`;
  if (!gaps) return `${leads}${insulation}`;
  const parts = [
    gaps.inSlot
      ? `between neighboring bars of a slot ${percent(gaps.inSlot.value, 3)} (${gaps.inSlot.bars.map(barName).join(', ')})`
      : '',
    gaps.betweenSlots
      ? `between bar ends of neighboring slots ${percent(gaps.betweenSlots.value, 3)} (${gaps.betweenSlots.bars.map(barName).join(', ')})`
      : '',
  ].filter((part) => part !== '');
  const common = commonPotential(facts);
  const sets =
    common === null
      ? ''
      : ` ${common.replace(/^./, (first) => first.toUpperCase())} are taken at one potential.`;
  return `${leads} Largest voltages relative to the phase voltage: ${parts.join('; ')}.${sets} Surges come on top.${insulation}`;
}

/** Where bars of two phases lie against each other. */
function boundariesText({ winding }: Facts): string {
  const told = (where: string, words: readonly string[]) =>
    words.length === 0 ? [] : [`${where}, by layers and slots: ${words.join('; ')}.`];
  const parts = [
    ...told('In slots', slotBoundaryWords(winding)),
    ...told('Between neighboring bar ends, by the slot before', endBoundaryWords(winding)),
  ];
  return parts.length === 0 ? '' : `\n\nPhase insulation is needed. ${parts.join(' ')}`;
}
