import { deriveFigure, type Figure, known, missing } from '../figures/figure.ts';
import { layerLetter } from '../language/layerLetters.ts';
import { largest } from '../language/numbers.ts';
import { valueOrDefault } from '../language/specification/defaults.ts';
import { barStatements } from '../language/vocabulary/blocks/copper.ts';
import { activeLength } from '../sizes/activeLengths.ts';
import { slotAngle } from '../winding/angles.ts';
import { crossingJoints } from '../winding/joints/crossingJoints.ts';
import { isPiece, lowerBar, type WindingJoint } from '../winding/joints/joints.ts';
import { type TipSide, tipSpacing } from '../winding/joints/tips.ts';
import type { Bar, EndSide, Winding } from '../winding/model.ts';
import { bendProblems } from './ends/bendProblems.ts';
import { type BendInput, bendEnd, bendRadii, bendsFit } from './ends/bends.ts';
import { type BentShape, bentShapes, type EndForm } from './ends/endForms.ts';
import { type EndSizes, endSizes } from './ends/endSizes.ts';
import { endSlopes, layersThatCannotPass } from './ends/endSlopes.ts';
import { type FreeEnds, freeEnds } from './ends/freeEnds.ts';
import { tipSizes } from './ends/tipSizes.ts';
import { linksAndRings } from './linksAndRings.ts';
import { pieceOf } from './piece.ts';
import { coatedHeight, coatedWidth } from './section.ts';
import type { BarEnd, BendRadii, HeightRange, Space, SpaceBar, SpaceInput, SpaceResult } from './space.ts';
import { spaceAssumptions } from './spaceAssumptions.ts';
import type { SpaceProblem } from './spaceProblems.ts';

const sides = ['connection', 'far'] as const;

/** What is missing where bends and steps do not fit into the bar ends. */
const roomForBends = 'bar end-straight, joint-straight and bend-radius that fit each other';

/**
 * The bars of a connected winding in space. Missing where a size is not given, where the bends cannot be
 * made, or where some bar lies in no path; what stands in the way is told as problems.
 */
export function buildSpace(input: SpaceInput): SpaceResult {
  const problems: SpaceProblem[] = [];
  const sizes = endSizes(input.specification, input.winding);
  const space = deriveFigure({ sizes }, (given) => {
    const narrow = layersThatCannotPass(given.sizes);
    if (narrow.length > 0) {
      return missing(
        ...narrow.map(
          (layer) =>
            `bar end-clearance with which the bends of layer ${layerLetter(layer)} can pass each other`,
        ),
      );
    }
    return assemble(input, given.sizes, problems);
  });
  return { space, problems };
}

/** Everything before the radii of bends count: how each bar end is bent, and the joints made apart. */
interface Plan {
  readonly tips: Readonly<Record<EndSide, TipSide>>;
  readonly bend: BendInput;
  readonly shapes: Readonly<Record<EndSide, readonly BentShape[]>>;
  /** Made by a separate piece: written so, against the lean, or straight bars whose joints would cross. */
  readonly apart: (joint: WindingJoint) => boolean;
}

function assemble(input: SpaceInput, sizes: EndSizes, problems: SpaceProblem[]): Figure<Space> {
  const plan = planEnds(input, sizes, problems);
  const bent = sides.flatMap((side) => plan.shapes[side].flatMap(({ lower, upper }) => [lower, upper]));
  const ofBent = bendRadii(plan.bend, bent);
  const free = freeEnds(input, plan, ofBent, problems);
  const forms = [...bent, ...free.forms];
  const sameForFree = !ofBent.assumed || free.forms.every((form) => bendsFit(plan.bend, form, ofBent));
  const radii = sameForFree ? ofBent : bendRadii(plan.bend, forms);
  // Assumed radii are such that all ends hold them, if any are.
  const misfits = radii.assumed && radii.edge > 0 ? [] : bendProblems(plan.bend, forms, radii);
  if (misfits.length > 0) {
    problems.push(...misfits);
    return missing(roomForBends);
  }
  return standing(input, plan, radii, free, problems);
}

function planEnds(input: SpaceInput, sizes: EndSizes, problems: SpaceProblem[]): Plan {
  const { winding, connections, specification } = input;
  const hairpins = valueOrDefault(barStatements, specification.bar, 'form') === 'hairpin';
  const crossing = crossingJoints(winding.slots, connections.joints);
  const crowns = (side: EndSide) => side === 'far' && hairpins;
  const crossed = [...crossing].filter(([joint]) => crowns(joint.side));
  if (crossed.length > 0) {
    const pairs = crossed.map(([joint, other]) => ({ joint: joint.number, other: other.number }));
    problems.push({ kind: 'crowns-cross', joints: pairs });
  }
  const apart = (joint: WindingJoint) => isPiece(joint) || (crossing.has(joint) && !crowns(joint.side));
  const bySide = <T>(of: (side: EndSide) => T): Record<EndSide, T> => ({
    connection: of('connection'),
    far: of('far'),
  });
  const slopes = bySide((side) => endSlopes(sizes, connections.bends, side));
  const ofTips = tipSizes(specification, winding, connections.bends);
  const tips = bySide((side): TipSide => ({ winding, bends: connections.bends, side, sizes: ofTips[side] }));
  const spread = input.tips ?? ((side: EndSide) => tipSpacing(winding, connections, side, ofTips[side]));
  const shapes = bySide((side) => {
    const spacing = crowns(side) ? null : spread(side);
    const sloped = { tips: tips[side], sizes, slopes: slopes[side] };
    return bentShapes(sloped, connections, crowns(side), spacing?.choices ?? new Map(), apart);
  });
  return { tips, bend: { sizes, slopes }, shapes, apart };
}

/** Forms each distinct end once, and stands the bars, pieces and rings round the axis. */
function standing(
  input: SpaceInput,
  plan: Plan,
  radii: BendRadii,
  free: FreeEnds,
  problems: SpaceProblem[],
): Figure<Space> {
  const { winding, connections } = input;
  const { sizes, slopes } = plan.bend;
  const shared = sharedEnds(plan.bend, radii);
  const places = barPlaces(winding);
  joinBars(input, plan, shared.end, places);
  // What connecting pieces and rings lie above.
  const joined = shared.list();
  const jointPlanes = { connection: planesOf(joined, 'connection'), far: planesOf(joined, 'far') };
  const below = { connection: topOf(sizes, joined, 'connection'), far: topOf(sizes, joined, 'far') };
  const { links, rings, ends } = linksAndRings(input, plan, radii, free, below, problems);
  for (const { side, bar, number, form } of ends) places.set(side, bar, shared.end(form), number);
  for (const side of sides) {
    const planes = jointPlanes[side];
    if (planes && planes.highest - planes.lowest > tellHeights)
      problems.push({ kind: 'joint-planes-differ', side, ...planes });
  }
  const bars = places.bars();
  if (bars === null) return missing('connect paths through every bar');
  const all = shared.list();
  const overhang = (side: EndSide) => {
    const above = [...links, ...rings].filter((link) => link.side === side);
    const tops = above.map(({ height, section }) => height + coatedHeight(section) / 2);
    return largest(tops, topOf(sizes, all, side));
  };
  return known(
    {
      slots: winding.slots,
      stack: sizes.stack,
      layers: sizes.layers,
      slopes,
      bends: radii,
      endStraight: sizes.endStraight,
      slotParts: sizes.layers.map((_, layer) => slotPart(sizes, layer)),
      ends: all,
      bars,
      links,
      rings,
      jointPlanes,
      overhang: { connection: overhang('connection'), far: overhang('far') },
    },
    ...spaceAssumptions(input.specification, sizes, radii, {
      joints: sides.some((side) => jointPlanes[side] !== null),
      leads: connections.ends.length > 0,
      pieces: links.length > 0,
      rings: rings.length > 0,
    }),
  );
}

/** Joints whose planes differ by less than this, m, end at one height. */
const tellHeights = 5e-5;

/** Bar ends by what shapes them: each distinct one is formed once. */
function sharedEnds(bend: BendInput, radii: BendRadii) {
  const byForm = new Map<EndForm, BarEnd>();
  const byKey = new Map<string, BarEnd>();
  const end = (form: EndForm): BarEnd => {
    const known = byForm.get(form);
    if (known) return known;
    const key = keyOf(form);
    const alike = byKey.get(key) ?? { index: byKey.size, ...form, ...bendEnd(bend, form, radii) };
    byKey.set(key, alike);
    byForm.set(form, alike);
    return alike;
  };
  return { end, list: (): readonly BarEnd[] => [...byKey.values()] };
}

function keyOf({ side, layer, use, turn, crownLayer, shift, plane, lead, reach }: EndForm): string {
  const sizes = [turn, shift, use === 'crown' ? 0 : plane, lead, reach?.round ?? 0, reach?.along ?? 0].map(
    (size) => (size === null ? 'none' : Math.round(size * 1e10)),
  );
  return [side, layer, use, crownLayer, ...sizes].join(' ');
}

/** The bars of the slot table, as their ends become known. */
function barPlaces({ slots, table }: Winding) {
  const { cells } = table;
  const ends = { connection: new Array<BarEnd>(cells.length), far: new Array<BarEnd>(cells.length) };
  const numbers = { connection: new Int32Array(cells.length), far: new Int32Array(cells.length) };
  const set = (side: EndSide, { slot, layer }: Bar, end: BarEnd, number: number) => {
    const place = layer * slots + slot - 1;
    ends[side][place] = end;
    numbers[side][place] = number;
  };
  /** Null where some bar has an end that nothing is known of. */
  const bars = (): readonly (SpaceBar | null)[] | null => {
    const standing: (SpaceBar | null)[] = [];
    for (let place = 0; place < cells.length; place++) {
      const connection = ends.connection[place];
      const far = ends.far[place];
      if (cells[place] !== 0 && !(connection && far)) return null;
      const slot = (place % slots) + 1;
      standing.push(
        connection && far
          ? {
              bar: { slot, layer: Math.floor(place / slots) },
              turn: slotAngle(slots, slot),
              connection,
              far,
              connectionNumber: numbers.connection[place]!,
              farNumber: numbers.far[place]!,
            }
          : null,
      );
    }
    return standing;
  };
  return { set, bars };
}

/** Sets the ends of all joints that are bent from their bars. */
function joinBars(
  { connections }: SpaceInput,
  { shapes, apart }: Plan,
  end: (form: EndForm) => BarEnd,
  places: ReturnType<typeof barPlaces>,
): void {
  const byShape = new Map<number, readonly [lower: BarEnd, upper: BarEnd]>();
  for (const side of sides)
    for (const { shape, lower, upper } of shapes[side]) byShape.set(shape, [end(lower), end(upper)]);
  for (const joint of connections.joints) {
    if (apart(joint)) continue;
    const [lower, upper] = byShape.get(joint.shape)!;
    const rises = lowerBar(joint) === joint.from;
    places.set(joint.side, joint.from, rises ? lower : upper, joint.number);
    places.set(joint.side, joint.to, rises ? upper : lower, joint.number);
  }
}

/** The heights at which the joints of a side stop. */
function planesOf(ends: readonly BarEnd[], side: EndSide): HeightRange | null {
  let lowest = Number.POSITIVE_INFINITY;
  let highest = 0;
  for (const end of ends) {
    if (end.side !== side || end.use !== 'joint') continue;
    lowest = Math.min(lowest, end.plane);
    highest = Math.max(highest, end.plane);
  }
  return highest === 0 ? null : { lowest, highest };
}

/** How high the ends of a side reach, coating included; 0 where there are none. */
function topOf(sizes: EndSizes, ends: readonly BarEnd[], side: EndSide): number {
  return largest(ends.filter((end) => end.side === side).map((end) => outerTop(sizes, end)));
}

/** A bar end's highest point above the stack, coating included; straight ends are cut square. */
function outerTop({ layers }: EndSizes, end: BarEnd): number {
  const { section } = layers[end.layer]!;
  if (end.use === 'crown') return end.top + coatedWidth(section) / 2;
  if (!end.reach) return end.top;
  return end.top + (end.reach.round === 0 ? coatedHeight(section) : coatedWidth(section)) / 2;
}

/** A layer's bar within the stack. */
function slotPart({ stack, layers }: EndSizes, layer: number) {
  const { radius, lean } = layers[layer]!;
  const direction = Math.atan2(stack, lean * radius);
  const path = { radius, angle: -lean / 2, height: -stack, direction, curvature: 0 };
  return pieceOf('slot' as const, {
    side: 1,
    face: stack / 2,
    path,
    profile: { kind: 'level', radius, extent: activeLength(stack, lean, radius) },
    radialSide: 'height',
  });
}
