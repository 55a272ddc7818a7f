import { inEnglish, type Speech } from '../../figures/speech.ts';
import { fitText, printable, textWidth } from '../../picture/fontMetrics.ts';
import { baseLine, group, text, textRow, textSize } from '../../picture/make.ts';
import type { Picture, Primitive } from '../../picture/picture.ts';
import { type Bar, cellAt } from '../../winding/model.ts';
import { titleWords, windingWords } from '../chart/page.ts';
import { panelFrame } from '../room.ts';
import { drawBars, drawStrip, emphasisOf, type StackPlace, stripOf } from './bars.ts';
import { arrangeCutNumbers, type Cut, drawCutNumbers } from './cutNumbers.ts';
import { endShape, junctionShapes, type OnPaper, overhangOnPaper, pathEndShape } from './ends.ts';
import type { DrawnLayout, LayoutInput } from './input.ts';
import {
  type Overhang,
  type PlannedBus,
  type PlannedEnd,
  type PlannedPathEnd,
  planOverhang,
} from './overhang.ts';
import { type LayoutScale, layoutScale, leastStack } from './scale.ts';
import {
  drawFrame,
  drawLegend,
  drawNotes,
  drawPoleScale,
  layoutNotes,
  poleScaleHeight,
} from './surroundings.ts';

const paperMargin = 6;
const titleSize = 4.4;
const smallestTextWidth = 150;
/** Names of the strip's rows stand left of it. */
function rowNames({ say }: Speech) {
  return [
    ['slot', say('slot')],
    ['layer', say('layer')],
    ['phase', say('phase')],
  ] as const;
}

/**
 * The developed layout: the connection side at the top, seen from the axis, slot numbers rising to the
 * right. Every bar is one path (`data-bar`), every joint one (`data-joint`), every lead one
 * (`data-terminal`), every bar's line to a star point one (`data-star`). Bars lean truly: by lean * slots / 2 pi slot pitches
 * over the drawn stack; joints
 * reach as far as their true span. A joint that passes the cut edge is one
 * path in two parts. Throws RangeError for a bar outside the slot table.
 */
export function layoutPicture(input: LayoutInput): Picture {
  return titledLayout(drawLayout(input), input);
}

/** A layout that is still to be told whose it is and what its head takes. */
export interface LayoutDrawing {
  readonly picture: Omit<Picture, 'title'>;
  readonly names: readonly Primitive[];
  readonly facts: string;
  readonly textRoom: number;
}

/** The layout of a winding of this name. */
export function titledLayout(
  { picture, names, facts, textRoom }: LayoutDrawing,
  { title: name, room, speech = inEnglish }: Pick<LayoutInput, 'title' | 'room' | 'speech'>,
): Picture {
  const title = printable(titleWords(name, speech));
  const head = room === undefined ? drawHead(title, facts, textRoom) : [];
  return {
    ...picture,
    title: `${title}: ${speech.say('developed layout')}`,
    items: [group('head', 'title', [...head, ...names]), ...picture.items],
  };
}

/** The layout but for the winding's name. */
export function drawLayout(input: DrawnLayout): LayoutDrawing {
  checkPlaces(input);
  const usual = layoutScale(input.winding);
  const overhang = (side: 'connection' | 'far') =>
    planOverhang(side, usual, input.ends, input.leads, input.starPoints);
  const [connection, far] = [overhang('connection'), overhang('far')];
  const { room, speech = inEnglish } = input;
  const { say } = speech;
  const margin = room === undefined ? paperMargin : panelFrame(room).margin;
  const headTop = room === undefined ? margin + 6 + 4.4 + 2.5 : 1;
  const scale =
    room === undefined
      ? usual
      : layoutScale(input.winding, {
          stack: stackWithin(room.height - panelHeights - connection.height - far.height, usual),
        });
  const top = headTop + textRow + 1.5 + connection.height;
  const bottom = top + scale.stack;
  const strip = stripOf(scale, { left: 0, top, bottom });
  const cuts = numberCuts(connection, far, top, bottom);
  const arranged = {
    connection: arrangeCutNumbers(cuts.connection, top - connection.height, strip.top - 0.5),
    far: arrangeCutNumbers(cuts.far, strip.bottom + 0.5, bottom + far.height),
  };
  const nameWidth =
    scale.cutInset + Math.max(...rowNames(speech).map(([, name]) => textWidth(name, textSize))) + 1.5;
  const beside = Math.max(
    scale.overshoot + scale.cutInset + Math.max(arranged.connection.width, arranged.far.width),
    nameWidth,
    reachBeyond(connection, scale),
    reachBeyond(far, scale),
    (smallestTextWidth - scale.width) / 2,
    1,
  );
  const left = margin + beside;
  const width = scale.width + 2 * left;
  const textRoom = width - 2 * margin;
  const place: StackPlace = { left, top, bottom };

  const edges = {
    left: left - scale.overshoot - scale.cutInset,
    right: left + scale.width + scale.overshoot,
  };
  const moved = (list: readonly Cut[]) =>
    list.map((cut) => ({ ...cut, left: cut.left + left, right: cut.right + left }));
  const { bars, labels } = drawBars(input, scale, place);
  // In a panel the name of the far side stands beside the numbers of the poles, which leaves the bars its row.
  const below = bottom + far.height + 1.5;
  const polesTop = room === undefined ? below + textRow + 2 : below;
  const farNameTop = room === undefined ? below : polesTop + poleScaleHeight - textRow;
  const legendTop = polesTop + poleScaleHeight + 4;
  const connectionName = say('connection side');
  // In a panel the legend stands beside the name of the connection side.
  const legend =
    room === undefined
      ? drawLegend(input, margin, legendTop, textRoom)
      : drawLegend(input, margin + textWidth(connectionName, textSize) + 8, headTop, Infinity);
  const notesTop = legendTop + legend.height + 1;
  const step = Math.max(arranged.connection.step, arranged.far.step);
  const anyCut = cuts.connection.length + cuts.far.length > 0;
  const sentences = layoutNotes(input, step, anyCut, speech);
  const notes = drawNotes(sentences, margin, notesTop, Math.min(textRoom, 240));
  const facts = windingWords(input.winding, speech);
  const names = [
    text('side-connection', 'side-name', margin, headTop + baseLine, connectionName),
    text('side-far', 'side-name', margin, farNameTop + baseLine, say('far side')),
  ];

  const picture = {
    width,
    height: room === undefined ? notesTop + notes.height + margin : polesTop + poleScaleHeight + 1,
    description: describe(input, facts, speech),
    items: [
      group(
        'frame',
        'core-end',
        drawFrame(input, scale, place, {
          connection: connection.crowns + 1,
          far: far.crowns + 1,
        }),
      ),
      group('strip', 'slot-number', [
        ...drawRowNames(left - scale.cutInset - 0.8, strip, speech),
        ...drawStrip(input, scale, place),
      ]),
      group('ends-connection', 'joint', drawEnds(input, connection, place)),
      group('ends-far', 'joint', drawEnds(input, far, place)),
      group('bars', 'bar', bars),
      group('labels', 'bar-label', labels),
      group('cuts', 'cut-number', [
        ...drawCutNumbers('connection', moved(cuts.connection), arranged.connection, edges),
        ...drawCutNumbers('far', moved(cuts.far), arranged.far, edges),
      ]),
      group('poles', 'pole-number', drawPoleScale(input, scale, left, polesTop, speech)),
      group('legend', 'legend-line', legend.items),
      ...(room === undefined ? [group('notes', 'note', notes.items)] : []),
    ],
    ...(room === undefined ? {} : { notes: [`${facts}.`, ...sentences] }),
  };
  return { picture, names, facts, textRoom };
}

/** What a panel's drawing holds besides stack and overhangs: names of the sides, pole scale, margins. */
const panelHeights = 1 + textRow + 1.5 + 1.5 + poleScaleHeight + 1;

/** The stack that fills a panel's room, no lower than its bars are legible and no higher than on paper. */
function stackWithin(height: number, usual: LayoutScale): number {
  return Math.max(leastStack(usual), Math.min(height, usual.stack));
}

function drawHead(title: string, facts: string, room: number): readonly Primitive[] {
  const titleLine = fitText(title, titleSize, room);
  return [
    text('title', 'title', paperMargin, paperMargin + titleSize, titleLine, { size: titleSize }),
    text('facts', 'subtitle', paperMargin, paperMargin + 6 + baseLine + 0.8, fitText(facts, textSize, room)),
  ];
}

function checkPlaces(input: DrawnLayout): void {
  const { slots, layers } = input.winding;
  const check = ({ slot, layer }: Bar): void => {
    if (!(slot >= 1 && slot <= slots && layer >= 0 && layer < layers))
      throw new RangeError(
        `Bar (slot ${slot}, layer ${layer}) is outside ${slots} slots and ${layers} layers`,
      );
  };
  for (const { from, to } of input.ends) {
    check(from);
    check(to);
  }
  for (const { bar } of input.leads) check(bar);
  for (const { ends } of input.starPoints) for (const { bar } of ends) check(bar);
}

/** Cut lines of both sides from top to bottom: joints by their own number, coil ends counted on from these. */
function numberCuts(
  connection: Overhang,
  far: Overhang,
  top: number,
  bottom: number,
): { readonly connection: readonly Cut[]; readonly far: readonly Cut[] } {
  let count = [...connection.ends, ...far.ends].reduce((most, { end }) => Math.max(most, end.number ?? 0), 0);
  const cutsOf = (overhang: Overhang, toY: (height: number) => number) =>
    overhang.ends
      .flatMap(({ end, crossing }) =>
        crossing === null ? [] : [{ joint: end.number, y: toY(crossing.height), ...crossing }],
      )
      .sort((one, other) => one.y - other.y || one.left - other.left)
      .map(({ joint, y, left, right }) => ({ y, left, right, number: String(joint ?? ++count) }));
  return {
    connection: cutsOf(connection, (height) => top - height),
    far: cutsOf(far, (height) => bottom + height),
  };
}

/** How far names and lines of an overhang reach beyond the cut edges. */
function reachBeyond(overhang: Overhang, scale: LayoutScale): number {
  let reach = 0;
  const grow = (x: number, half: number) => {
    reach = Math.max(reach, half - x, x + half - scale.width);
  };
  for (const { nameX, name, ends } of overhang.buses) {
    grow(nameX, textWidth(name, textSize) / 2 + 0.5);
    for (const run of ends.flatMap(({ runs }) => runs))
      for (let index = 0; index < run.length; index += 2) grow(run[index]!, 1);
  }
  for (const { runs } of overhang.ends)
    for (const run of runs) for (let index = 0; index < run.length; index += 2) grow(run[index]!, 0.5);
  return reach;
}

function drawRowNames(right: number, strip: { readonly top: number }, speech: Speech): readonly Primitive[] {
  return rowNames(speech).map(([id, name], row) =>
    text(`row-${id}`, 'row-name', right, strip.top + 0.5 + row * textRow + baseLine, name, {
      anchor: 'end',
    }),
  );
}

function drawEnds(input: DrawnLayout, overhang: Overhang, place: StackPlace): readonly Primitive[] {
  const onPaper = overhangOnPaper(place, overhang.side);
  return [
    ...overhang.ends.map((planned) => drawEnd(input, planned, onPaper)),
    ...overhang.buses.flatMap((bus) => drawBus(input, overhang, bus, onPaper)),
  ];
}

function drawEnd(input: DrawnLayout, planned: PlannedEnd, onPaper: OnPaper): Primitive {
  const { side, phase, path, from, to } = planned.end;
  const emphasis = emphasisOf(input, phase, path, { layers: [from.layer, to.layer], side });
  return endShape(planned, planned.runs.map(onPaper), emphasis);
}

function drawBus(
  input: DrawnLayout,
  { side }: Overhang,
  bus: PlannedBus,
  onPaper: OnPaper,
): readonly Primitive[] {
  const [nameX, nameY] = onPaper([bus.nameX, bus.nameHeight]) as [number, number];
  const base = side === 'far' ? nameY + baseLine : nameY - (textRow - baseLine);
  const places = bus.ends.flatMap(({ dots }) => onPaper(dots));
  return [
    ...bus.ends.map((planned) => drawPathEnd(input, bus, planned, onPaper)),
    ...junctionShapes(bus, side, places),
    text(`name-${bus.name}-${side}`, 'terminal-name', nameX, base, bus.name, { anchor: 'middle' }),
  ];
}

function drawPathEnd(
  input: DrawnLayout,
  bus: PlannedBus,
  { end, runs }: PlannedPathEnd,
  onPaper: OnPaper,
): Primitive {
  const { side, phase, path, bar } = end;
  const emphasis = emphasisOf(input, phase, path, { layers: [bar.layer], side });
  return pathEndShape(bus, end, runs.map(onPaper), emphasis);
}

function describe(input: DrawnLayout, facts: string, { say }: Speech): string {
  const { winding, ends, leads } = input;
  let bars = 0;
  for (let layer = 0; layer < winding.layers; layer++)
    for (let slot = 1; slot <= winding.slots; slot++) if (cellAt(winding.table, slot, layer) !== 0) bars++;
  const joints = ends.filter(({ number }) => number !== undefined).length;
  const terminals = [...new Set(leads.map(({ terminal }) => terminal))];
  const parts = [
    bars === 1 ? say('1 bar') : say('{0} bars', bars),
    ...(joints === 0 ? [] : [joints === 1 ? say('1 joint') : say('{0} joints', joints)]),
    ...(terminals.length === 0 ? [] : [say('terminals {0}', terminals.join(' '))]),
  ];
  return say(
    'Developed layout of a winding with {0}: {1}. The connection side is at the top; slot numbers rise to the right.',
    facts,
    parts.join(', '),
  );
}
