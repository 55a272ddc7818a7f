import { inEnglish } from '../../figures/speech.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { textRow, textSize } from '../../picture/make.ts';
import type { Bar, EndSide } from '../../winding/model.ts';
import { panelFrame } from '../room.ts';
import { type StackPlace, stripOf } from './bars.ts';
import { arrangeCutNumbers, type Cut, type CutColumns } from './cutNumbers.ts';
import type { DrawnLayout } from './input.ts';
import { type Overhang, overhangHeight, planOverhang, steepness } from './overhang.ts';
import { type LayoutScale, layoutScale, leastStack } from './scale.ts';
import { poleScaleHeight, rowNames } from './surroundings.ts';

/** Where the parts of a layout's drawing stand, in millimeters. */
export interface LayoutPlan {
  readonly scale: LayoutScale;
  readonly place: StackPlace;
  readonly sides: Readonly<Record<EndSide, PlannedSide>>;
  readonly margin: number;
  /** The row of the connection side's name. */
  readonly headTop: number;
  /** Whole width of the drawing, and of lines of text in it. */
  readonly width: number;
  readonly textRoom: number;
}

/** What stands beyond one end of the stack. */
interface PlannedSide {
  readonly overhang: Overhang;
  /** Lines that pass the cut edges, from the border before slot 1. */
  readonly cuts: readonly Cut[];
  readonly columns: CutColumns;
}

export const paperMargin = 6;
const smallestTextWidth = 150;
/** Throws RangeError for a bar outside the slot table. */
export function planLayout(input: DrawnLayout): LayoutPlan {
  checkPlaces(input);
  const { room, speech = inEnglish } = input;
  const usual = layoutScale(input.winding);
  const rise = room === undefined ? steepness : riseWithin(room.height, usual, input);
  const overhang = (side: EndSide) => planOverhang(side, usual, input, rise);
  const [connection, far] = [overhang('connection'), overhang('far')];
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
  const columns = {
    connection: arrangeCutNumbers(cuts.connection, top - connection.height, strip.top - 0.5),
    far: arrangeCutNumbers(cuts.far, strip.bottom + 0.5, bottom + far.height),
  };
  const nameWidth =
    scale.cutInset + Math.max(...rowNames(speech).map(([, name]) => textWidth(name, textSize))) + 1.5;
  const beside = Math.max(
    scale.overshoot + scale.cutInset + Math.max(columns.connection.width, columns.far.width),
    nameWidth,
    reachBeyond(connection, scale),
    reachBeyond(far, scale),
    (smallestTextWidth - scale.width) / 2,
    1,
  );
  const left = margin + beside;
  const width = scale.width + 2 * left;
  return {
    scale,
    place: { left, top, bottom },
    sides: {
      connection: { overhang: connection, cuts: cuts.connection, columns: columns.connection },
      far: { overhang: far, cuts: cuts.far, columns: columns.far },
    },
    margin,
    headTop,
    width,
    textRoom: width - 2 * margin,
  };
}

/** What a panel's drawing holds besides stack and overhangs: names of the sides, pole scale, margins. */
const panelHeights = 1 + textRow + 1.5 + 1.5 + poleScaleHeight + 1;

/** The stack that fills a panel's room, no lower than its bars are legible and no higher than on paper. */
function stackWithin(height: number, usual: LayoutScale): number {
  return Math.max(leastStack(usual), Math.min(height, usual.stack));
}

/** Rises of crowns' legs in a panel, the usual one first; lines that lean less come too near each other. */
const rises = [steepness, 0.45, 0.36, 0.3, 0.26, 0.22, 0.18];

/** A drawing this much higher than its room is shown smaller, whole, with letters that are still legible. */
const mayBeHigher = 1.2;

/** The steepest rise with which a panel of this height shows the whole drawing with legible names and numbers. */
function riseWithin(height: number, usual: LayoutScale, input: DrawnLayout): number {
  const left = mayBeHigher * height - panelHeights - leastStack(usual);
  const fits = (rise: number) =>
    overhangHeight('connection', usual, input, rise) + overhangHeight('far', usual, input, rise) <= left;
  return rises.find(fits) ?? rises.at(-1)!;
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

/**
 * Cut lines of both sides from top to bottom: joints by their own number, coil ends counted on from these, lines to
 * terminals and star points by the name of these.
 */
function numberCuts(
  connection: Overhang,
  far: Overhang,
  top: number,
  bottom: number,
): Readonly<Record<EndSide, readonly Cut[]>> {
  let count = [...connection.ends, ...far.ends].reduce((most, { end }) => Math.max(most, end.number ?? 0), 0);
  const cutsOf = (overhang: Overhang, toY: (height: number) => number) =>
    [
      ...overhang.ends.map(({ end, crossing }) => ({ name: end.number, crossing })),
      ...overhang.buses.flatMap(({ name, ends }) => ends.map(({ crossing }) => ({ name, crossing }))),
    ]
      .flatMap(({ name, crossing }) =>
        crossing === null ? [] : [{ name, y: toY(crossing.height), ...crossing }],
      )
      .sort((one, other) => one.y - other.y || one.left - other.left)
      .map(({ name, y, left, right }) => ({ y, left, right, number: String(name ?? ++count) }));
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
