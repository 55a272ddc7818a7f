import { inEnglish } from '../../figures/speech.ts';
import type { Steps } from '../../figures/steps.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { textRow, textSize } from '../../picture/make.ts';
import { arrangeCutNumbers } from '../../views/layout/cutNumbers.ts';
import type { LayoutInput } from '../../views/layout/input.ts';
import { type Overhang, overhangHeight, planOverhang } from '../../views/layout/overhang.ts';
import { type LayoutScale, layoutScale } from '../../views/layout/scale.ts';
import { rowNames } from '../../views/layout/surroundings.ts';
import type { EndSide, Winding } from '../../winding/model.ts';
import { rowGap } from '../page/flow.ts';
import { headingHeight } from '../page/table.ts';
import { type BrokenOverhang, breakOverhang, type RowBreaks, type RowCut, slotsOfRow } from './rowCuts.ts';

/** Above the overhang: the row's caption; below it: the other side's name and the poles. */
export const captionHeight = textRow + 1.2;
const footHeight = 1 + textRow + 1 + 1.8 + 0.6 + textRow;

/** A developed layout in rows: how it is broken, and its scale. */
export interface RowPlan {
  readonly scale: LayoutScale;
  readonly breaks: RowBreaks;
  /** Slot pitch that the scale was asked for, which it widens where layers lean apart. */
  readonly pitch: number;
  /** Height of crowns' legs over their width. */
  readonly rise: number;
  /** Room beside a row, at either end. */
  readonly beside: number;
}

/** One layout's lines in rows. */
export interface BrokenLayout {
  readonly connection: BrokenOverhang;
  readonly far: BrokenOverhang;
}

const rises = [0.55, 0.48, 0.42, 0.36, 0.3, 0.26, 0.22, 0.2, 0.18, 0.14, 0.1, 0.07, 0.05];
const compactRise = 0.26;
/** The few legs of one phase are told apart at this. */
const phaseRise = 0.18;
const barRooms = [44, 36, 28, 20];
const widestPitch = 28;

/**
 * Breaks a layout into rows no wider than `width`, as evenly as possible and, where that leaves them even, between
 * poles: as few as there can be, or as many as fill the sheets of `height` that these take. Stretches them to that
 * width, and chooses heights so that as few sheets as possible are needed. Null where not even one slot a row, or one
 * row a sheet, fits: the sheet is too small for this winding. In steps.
 */
export function* planRows(input: LayoutInput, width: number, height: number): Steps<RowPlan | null> {
  const { winding } = input;
  const compact = layoutScale(winding, { pitch: 0, stack: 0 });
  let beside = 10 + compact.overshoot;
  for (let attempt = 0; attempt < 12; attempt++) {
    const room = width - 2 * beside;
    const found = yield* planWithin(input, compact.pitch, room, height);
    if (found === null) return null;
    yield;
    const needed = roomBeside(found, brokenLayout(input, found));
    if (needed <= beside + 1e-6) return { ...found, beside };
    beside = needed;
  }
  return null;
}

/**
 * The plan of layouts that show one phase each, in the rows of slots of all phases: lower, and as much narrower as their
 * numbers need then, where more of them fit on a sheet so. In steps.
 */
export function* planPhaseRows(
  plan: RowPlan,
  phases: readonly LayoutInput[],
  width: number,
  height: number,
): Steps<RowPlan> {
  const { breaks, pitch } = plan;
  const rowsOf = ({ scale, rise }: PlanWithoutRoom) =>
    fittingRows(highestRow(scale, heightsOf(phases, scale, rise)), height, breaks);
  const before = rowsOf(plan);
  for (let share = 1; share > 0.8; share -= 0.03) {
    const lower = yield* chooseHeights(phases, breaks, share * pitch, height, phaseRise);
    if (lower === null || rowsOf(lower) <= before) continue;
    yield;
    const beside = Math.max(...phases.map((phase) => roomBeside(lower, brokenLayout(phase, lower))));
    if (2 * beside + breaks.perRow * lower.scale.pitch <= width + 1e-6) return { ...lower, beside };
  }
  return plan;
}

function* planWithin(
  input: LayoutInput,
  smallest: number,
  room: number,
  height: number,
): Steps<PlanWithoutRoom | null> {
  const { winding } = input;
  const most = Math.floor(room / smallest + 1e-9);
  if (most < 1) return null;
  const fewest = Math.ceil(winding.slots / most);
  const breaks = chooseBreaks(winding, fewest, most);
  const pitch = stretchedPitch(winding, smallest, Math.min(widestPitch, room / breaks.perRow));
  const perSheet = rowsOfSheet([input], breaks, pitch, height);
  yield;
  const sheets = Math.ceil(fewest / Math.max(1, perSheet));
  const filling = chooseBreaks(winding, sheets * Math.ceil(fewest / sheets), most);
  if (filling.rows > breaks.rows) {
    // A wide pitch makes high crowns: narrower ones until as many rows as before fit on a sheet.
    const widest = Math.min(widestPitch, room / filling.perRow);
    for (let share = 1; widest * share > pitch; share -= 0.05) {
      const wide = stretchedPitch(winding, smallest, widest * share);
      yield;
      if (rowsOfSheet([input], filling, wide, height) * sheets >= filling.rows)
        return yield* chooseHeights([input], filling, wide, height);
    }
  }
  return yield* chooseHeights([input], breaks, pitch, height);
}

/** The widest slot pitch to ask for with which the scale stays within a width: it widens that of leaning layers. */
function stretchedPitch(winding: Winding, smallest: number, widest: number): number {
  for (let share = 1; share > 0.6; share -= 0.04) {
    const asked = widest * share;
    if (asked < smallest) break;
    if (layoutScale(winding, { pitch: asked, stack: 0 }).pitch <= widest + 1e-6) return asked;
  }
  return 0;
}

/** Rows that are shorter than this share of the others are uneven. */
const evenFrom = 0.75;

/** So many rows, or fewer of at most `most` slots, all but the last equally long. */
function chooseBreaks({ slots, poles }: Winding, rows: number, most: number): RowBreaks {
  const broken = (perRow: number): RowBreaks => ({ slots, perRow, rows: Math.ceil(slots / perRow) });
  const even = broken(Math.ceil(slots / rows));
  const polePitch = slots / poles;
  if (!Number.isInteger(polePitch)) return even;
  const atPoles = broken(Math.ceil(even.perRow / polePitch) * polePitch);
  const { first, last } = slotsOfRow(atPoles, atPoles.rows - 1);
  const isEven = atPoles.rows === even.rows && last - first + 1 >= evenFrom * atPoles.perRow;
  return isEven && atPoles.perRow <= most ? atPoles : even;
}

type PlanWithoutRoom = Omit<RowPlan, 'beside'>;

/** Plans whose crowns rise so, by the room that bars have above and below the strip, with the height of the highest layout. */
function planned(
  inputs: readonly LayoutInput[],
  breaks: RowBreaks,
  pitch: number,
  rise: number,
): (bars: number) => { readonly plan: PlanWithoutRoom; readonly rowHeight: number } {
  const { winding } = inputs[0]!;
  const small = layoutScale(winding, { pitch, stack: 0 });
  const largestLean = Math.max(0, ...small.lean.map(Math.abs));
  // The same whatever the stack's height.
  const overhangs = heightsOf(inputs, small, rise);
  return (bars) => {
    const stack = small.strip + Math.max(bars, Math.min(0.9 * largestLean - small.strip, 2 * bars));
    const scale = layoutScale(winding, { pitch, stack });
    return { plan: { scale, breaks, pitch, rise }, rowHeight: highestRow(scale, overhangs) };
  };
}

type OverhangHeights = Parameters<typeof rowHeight>[1];

/** The heights of both overhangs of each layout. */
function heightsOf(
  inputs: readonly LayoutInput[],
  scale: LayoutScale,
  rise: number,
): readonly OverhangHeights[] {
  return inputs.map((input) => {
    const of = (side: EndSide) => ({ height: overhangHeight(side, scale, input, rise) });
    return { connection: of('connection'), far: of('far') };
  });
}

function highestRow(scale: LayoutScale, overhangs: readonly OverhangHeights[]): number {
  return Math.max(...overhangs.map((each) => rowHeight(scale, each)));
}

/** How many rows fit below the heading of a sheet; where these are those of several layouts, each has a heading. */
function fittingRows(rowHeight: number, height: number, { rows }: RowBreaks): number {
  const fitting = (each: number) => Math.floor((height + rowGap) / (each + rowGap));
  const alone = fitting(rowHeight);
  return alone < 2 * rows ? alone : Math.max(rows, fitting(rowHeight + headingHeight / rows));
}

/** How many rows fit on a sheet where they are compact. */
function rowsOfSheet(
  inputs: readonly LayoutInput[],
  breaks: RowBreaks,
  pitch: number,
  height: number,
  rise = compactRise,
): number {
  return fittingRows(planned(inputs, breaks, pitch, rise)(20).rowHeight, height, breaks);
}

/** The roomiest heights with which no more sheets are needed than with the most compact ones. */
function* chooseHeights(
  inputs: readonly LayoutInput[],
  breaks: RowBreaks,
  pitch: number,
  height: number,
  compact = compactRise,
): Steps<PlanWithoutRoom | null> {
  const most = rowsOfSheet(inputs, breaks, pitch, height, compact);
  const sheets = Math.ceil(breaks.rows / Math.max(1, most));
  const rows =
    most <= breaks.rows ? Math.ceil(breaks.rows / sheets) : breaks.rows * Math.floor(most / breaks.rows);
  for (const rise of rises) {
    const withRoom = planned(inputs, breaks, pitch, rise);
    for (const bars of barRooms) {
      if (rise < compact && bars > 20) continue;
      yield;
      const { plan, rowHeight } = withRoom(bars);
      if (fittingRows(rowHeight, height, breaks) >= Math.max(1, rows)) return plan;
    }
  }
  return null;
}

/** Both overhangs of a layout at a scale. */
export function overhangs(
  input: LayoutInput,
  scale: LayoutScale,
  rise: number,
): { readonly connection: Overhang; readonly far: Overhang } {
  const plan = (side: 'connection' | 'far') => planOverhang(side, scale, input, rise);
  return { connection: plan('connection'), far: plan('far') };
}

/** Height of a row with its caption and its pole scale. */
export function rowHeight(
  scale: LayoutScale,
  { connection, far }: Readonly<Record<EndSide, Pick<Overhang, 'height'>>>,
): number {
  return captionHeight + connection.height + scale.stack + far.height + footHeight;
}

/** The lines of a layout, broken by a plan. Coil ends are numbered from their cut lines' order. */
export function brokenLayout(input: LayoutInput, { scale, breaks, rise }: PlanWithoutRoom): BrokenLayout {
  const { connection, far } = overhangs(input, scale, rise);
  const numbers = new Map<unknown, string>();
  const labelOf = ({ end }: (typeof connection.ends)[number]): string => {
    if (end.number !== undefined) return String(end.number);
    const known = numbers.get(end) ?? String(numbers.size + 1);
    numbers.set(end, known);
    return known;
  };
  return {
    connection: breakOverhang(connection, scale, breaks, labelOf),
    far: breakOverhang(far, scale, breaks, labelOf),
  };
}

/** The places where lines leave a row at one of its ends. */
export function cutsOf(broken: BrokenOverhang, row: number, edge: RowCut['edge']): readonly RowCut[] {
  return broken.rows[row]!.cuts.filter((cut) => cut.edge === edge);
}

/** Where the cut numbers of both ends of all rows begin, from the rows' ends. */
export function numbersStart({ scale, breaks }: PlanWithoutRoom, layout: BrokenLayout): number {
  let reach = scale.overshoot + scale.cutInset;
  for (const broken of [layout.connection, layout.far])
    for (let row = 0; row < breaks.rows; row++)
      reach = Math.max(reach, reachBeyond(broken, scale, breaks, row));
  return reach;
}

/** Room that cut numbers, row names and lines beyond a row's ends need. */
function roomBeside(plan: PlanWithoutRoom, layout: BrokenLayout): number {
  const { scale, breaks } = plan;
  const names =
    scale.cutInset + Math.max(...rowNames(inEnglish).map(([, name]) => textWidth(name, textSize))) + 1.5;
  let cuts = 0;
  for (const broken of [layout.connection, layout.far])
    for (let row = 0; row < breaks.rows; row++)
      for (const edge of ['left', 'right'] as const)
        cuts = Math.max(cuts, arrangedWidth(broken, scale, row, edge));
  return Math.max(numbersStart(plan, layout) + cuts, names) + 0.5;
}

function arrangedWidth(
  broken: BrokenOverhang,
  scale: LayoutScale,
  row: number,
  edge: RowCut['edge'],
): number {
  const cuts = sortedCuts(cutsOf(broken, row, edge));
  return arrangeCutNumbers(cuts, ...cutRoom(broken, scale)).width;
}

/** Cuts by height above the stack's end, as the numbers' arrangement takes them. */
export function sortedCuts(
  cuts: readonly RowCut[],
): readonly { readonly y: number; readonly number: string; readonly cut: RowCut }[] {
  return cuts
    .map((cut) => ({ y: -cut.height, number: cut.label, cut }))
    .sort((one, other) => one.y - other.y || one.cut.x - other.cut.x);
}

/** From the top of the overhang to the strip, counted from the stack's end. */
export function cutRoom({ overhang }: BrokenOverhang, scale: LayoutScale): readonly [number, number] {
  return [-overhang.height, (scale.stack - scale.strip) / 2 - 0.5];
}

/** How far lines and names of a row reach beyond its ends. */
function reachBeyond(broken: BrokenOverhang, scale: LayoutScale, breaks: RowBreaks, row: number): number {
  const { first, last } = slotsOfRow(breaks, row);
  const [from, to] = [(first - 1) * scale.pitch, last * scale.pitch];
  let reach = 0;
  const { ends, busRuns } = broken.rows[row]!;
  const grow = (run: readonly number[]): void => {
    for (let index = 0; index < run.length; index += 2)
      reach = Math.max(reach, from - run[index]! + 0.5, run[index]! - to + 0.5);
  };
  for (const { runs } of ends) runs.forEach(grow);
  busRuns.forEach(grow);
  return reach;
}
