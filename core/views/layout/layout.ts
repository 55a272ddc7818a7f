import { inEnglish, type Speech } from '../../figures/speech.ts';
import { fitText, printable, textWidth } from '../../picture/fontMetrics.ts';
import { baseLine, group, text, textRow, textSize } from '../../picture/make.ts';
import type { Picture, Primitive } from '../../picture/picture.ts';
import { cellAt } from '../../winding/model.ts';
import { titleWords, windingWords } from '../chart/page.ts';
import { drawBars, drawStrip, emphasisOf, type StackPlace } from './bars.ts';
import { drawCutNumbers } from './cutNumbers.ts';
import { busName, endShape, junctionShapes, type OnPaper, overhangOnPaper, pathEndShape } from './ends.ts';
import type { DrawnLayout, LayoutInput } from './input.ts';
import type { Overhang, PlannedBus, PlannedEnd, PlannedPathEnd } from './overhang.ts';
import { type LayoutPlan, paperMargin, planLayout } from './plan.ts';
import {
  drawFrame,
  drawLegend,
  drawNotes,
  drawPoleScale,
  drawRowNames,
  layoutNotes,
  poleScaleHeight,
  wholeRow,
} from './surroundings.ts';

const titleSize = 4.4;

/**
 * The developed layout: the connection side at the top, seen from the axis, slot numbers rising to the right. Every
 * bar is one path (`data-bar`), every joint one (`data-joint`), every lead one (`data-terminal`), every bar's line to
 * a star point one (`data-star`). Bars lean truly: by lean * slots / 2 pi slot pitches over the drawn stack; joints
 * reach as far as their true span. A joint that passes the cut edge is one path in two parts. Throws RangeError for a
 * bar outside the slot table.
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

const lastTitled = new WeakMap<LayoutDrawing, { readonly name: string; readonly picture: Picture }>();

/** The layout of a winding of this name, drawn for this room and speech; the same picture for the same name. */
export function titledLayout(
  drawing: LayoutDrawing,
  { title: name, room, speech = inEnglish }: Pick<LayoutInput, 'title' | 'room' | 'speech'>,
): Picture {
  const last = lastTitled.get(drawing);
  if (last?.name === name) return last.picture;
  const { names, facts, textRoom } = drawing;
  const title = printable(titleWords(name, speech));
  const head = room === undefined ? drawHead(title, facts, textRoom) : [];
  const picture = {
    ...drawing.picture,
    title: `${title}: ${speech.say('developed layout')}`,
    items: [group('head', 'title', [...head, ...names]), ...drawing.picture.items],
  };
  lastTitled.set(drawing, { name, picture });
  return picture;
}

/** The layout but for the winding's name. */
export function drawLayout(input: DrawnLayout): LayoutDrawing {
  const { room, speech = inEnglish } = input;
  const plan = planLayout(input);
  const { scale, place, sides, margin, textRoom } = plan;
  const { connection, far } = sides;
  // In a panel the name of the far side stands beside the numbers of the poles, which leaves the bars its row.
  const below = place.bottom + far.overhang.height + 1.5;
  const polesTop = room === undefined ? below + textRow + 2 : below;
  const farNameTop = room === undefined ? below : polesTop + poleScaleHeight - textRow;
  const legendTop = polesTop + poleScaleHeight + 4;
  const connectionName = speech.say('connection side');
  // In a panel the legend stands beside the name of the connection side.
  const legend =
    room === undefined
      ? drawLegend(input, margin, legendTop, textRoom)
      : drawLegend(
          input,
          margin + textWidth(connectionName, textSize) + 8,
          plan.headTop,
          Infinity,
          room.width - textWidth(connectionName, textSize) - 8 - 2 * margin,
        );
  const notesTop = legendTop + legend.height + 1;
  const step = Math.max(connection.columns.step, far.columns.step);
  const anyCut = connection.cuts.length + far.cuts.length > 0;
  const sentences = layoutNotes(input, step, anyCut, speech);
  const notes = drawNotes(sentences, margin, notesTop, Math.min(textRoom, 240));
  const facts = windingWords(input.winding, speech);
  const { bars, labels } = drawBars(input, scale, place);
  const row = wholeRow(scale, place);
  const frameReach = { connection: connection.overhang.crowns + 1, far: far.overhang.crowns + 1 };

  const picture = {
    width: plan.width,
    height: room === undefined ? notesTop + notes.height + margin : polesTop + poleScaleHeight + 1,
    description: describe(input, facts, speech),
    items: [
      group('frame', 'core-end', drawFrame(input, scale, place, row, frameReach)),
      group('strip', 'slot-number', [
        ...drawRowNames(scale, place, place.left, speech),
        ...drawStrip(input, scale, place),
      ]),
      group('ends-connection', 'joint', drawEnds(input, connection.overhang, place)),
      group('ends-far', 'joint', drawEnds(input, far.overhang, place)),
      group('bars', 'bar', bars),
      group('labels', 'bar-label', labels),
      group('cuts', 'cut-number', drawCuts(plan)),
      group('poles', 'pole-number', drawPoleScale(input, scale, place, row, polesTop, speech)),
      group('legend', 'legend-line', legend.items),
      ...(room === undefined ? [group('notes', 'note', notes.items)] : []),
    ],
    ...(room === undefined ? {} : { notes: [`${facts}.`, ...sentences] }),
  };
  const names = [
    text('side-connection', 'side-name', margin, plan.headTop + baseLine, connectionName),
    text('side-far', 'side-name', margin, farNameTop + baseLine, speech.say('far side')),
  ];
  return { picture, names, facts, textRoom };
}

function drawHead(title: string, facts: string, room: number): readonly Primitive[] {
  const titleLine = fitText(title, titleSize, room);
  return [
    text('title', 'title', paperMargin, paperMargin + titleSize, titleLine, { size: titleSize }),
    text('facts', 'subtitle', paperMargin, paperMargin + 6 + baseLine + 0.8, fitText(facts, textSize, room)),
  ];
}

/** Numbers beyond both cut edges, and lines that lead from them to what is cut. */
function drawCuts({ scale, place: { left }, sides }: LayoutPlan): readonly Primitive[] {
  const edges = {
    left: left - scale.overshoot - scale.cutInset,
    right: left + scale.width + scale.overshoot,
  };
  return (['connection', 'far'] as const).flatMap((side) => {
    const { cuts, columns } = sides[side];
    const moved = cuts.map((cut) => ({ ...cut, left: cut.left + left, right: cut.right + left }));
    return drawCutNumbers(side, moved, columns, edges);
  });
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
  const places = bus.ends.flatMap(({ dots }) => onPaper(dots));
  return [
    ...bus.ends.map((planned) => drawPathEnd(input, bus, planned, onPaper)),
    ...junctionShapes(bus, side, places),
    busName(bus, bus.nameX, side, onPaper),
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
