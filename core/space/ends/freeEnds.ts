import { type Connections, lowerBar, upperBar, type WindingJoint } from '../../winding/joints/joints.ts';
import { endShift, freeEndTurns, type TipSide } from '../../winding/joints/tips.ts';
import type { Bar, EndSide } from '../../winding/model.ts';
import { coatedHeight, coatedWidth } from '../section.ts';
import type { BendRadii, SpaceInput } from '../space.ts';
import type { SpaceProblem } from '../spaceProblems.ts';
import { type BendInput, bendsFit } from './bends.ts';
import type { BentShape, EndForm } from './endForms.ts';
import { type FreeTip, placeFreeTips, type Tip } from './freeTips.ts';

/** Clearances below this, m, are told as none. */
const least = 1e-5;

/** A bar end that no other bar's end is joined to: of a lead, a star point, or under a connecting piece. */
export interface FreeEnd {
  readonly side: EndSide;
  readonly bar: Bar;
  /** Of its joint or path end. */
  readonly number: number;
  readonly form: EndForm;
  /** Where it leads to; null for connecting pieces. */
  readonly terminal: string | null;
}

/** All free ends, and how they are bent, each way once. */
export interface FreeEnds {
  readonly ends: readonly FreeEnd[];
  readonly forms: readonly EndForm[];
}

/** How the joints of a winding are bent. */
interface Bent {
  readonly tips: Readonly<Record<EndSide, TipSide>>;
  readonly bend: BendInput;
  readonly shapes: Readonly<Record<EndSide, readonly BentShape[]>>;
  readonly apart: (joint: WindingJoint) => boolean;
}

type Unplaced = Omit<FreeEnd, 'form' | 'side'> & {
  readonly use: 'lead' | 'star' | 'piece';
  /** Alike in every phase. */
  readonly group: string;
};

/**
 * Free ends are bent like their ring to a tip of their own: half the regular span, or half a slot more or less, the
 * first that is clear of all other tips and whose leg passes over none; straight out where nothing of their layer is
 * bent.
 */
export function freeEnds(
  input: SpaceInput,
  bent: Bent,
  radii: BendRadii,
  problems: SpaceProblem[],
): FreeEnds {
  const both = (['connection', 'far'] as const).map((side) => freeEndsOf(side, input, bent, radii, problems));
  return { ends: both.flatMap(({ ends }) => ends), forms: both.flatMap(({ forms }) => forms) };
}

function freeEndsOf(
  side: EndSide,
  { connections, winding }: SpaceInput,
  bent: Bent,
  radii: BendRadii,
  problems: SpaceProblem[],
): FreeEnds {
  const pathRank = ranksInPhase(connections);
  const waiting: Unplaced[] = connections.ends
    .filter((end) => end.side === side)
    .map(({ bar, number, kind, terminal, path, end }) => {
      const group = `${pathRank(path)} ${end} ${bar.layer}`;
      return { bar, number, terminal, use: kind, group };
    });
  // In the order of the paths, which a mirror leaves alone.
  const pieces = connections.joints.filter((joint) => joint.side === side && bent.apart(joint));
  pieces.sort((a, b) => a.path - b.path || a.position - b.position);
  for (const joint of pieces) {
    const common = { number: joint.number, terminal: null, use: 'piece' as const };
    const group = `${pathRank(joint.path)} piece ${joint.position}`;
    waiting.push(
      { ...common, bar: joint.from, group: `${group} from` },
      { ...common, bar: joint.to, group: `${group} to` },
    );
  }
  if (waiting.length === 0) return { ends: [], forms: [] };
  const { sizes } = bent.bend;
  const formsOf = candidateForms(side, bent, radii);
  const tips = tipMaker(bent, side);
  const standing = bentTips(side, connections.joints, bent, tips);
  const placing = (which: keyof CandidateForms) => {
    const candidates = waiting.map(({ bar, use }) => formsOf(bar.layer, use)[which]);
    const free = waiting.map(({ bar, group }, index): FreeTip => {
      return { candidates: candidates[index]!.map((form) => tips(bar, form)), group };
    });
    const placed = placeFreeTips(winding.slots, sizes.endClearance, standing, free);
    return { candidates, placed, lost: placed.filter(({ clearance }) => clearance !== null).length };
  };
  let best = placing('fitting');
  // Where only bends that do not fit would find a place, they are what is wrong.
  if (best.lost > 0 && waiting.some(({ bar, use }) => leavesOut(formsOf(bar.layer, use)))) {
    const all = placing('all');
    if (all.lost < best.lost) best = all;
  }
  const { candidates, placed } = best;
  const ends = waiting.map(({ bar, number, terminal, use }, index): FreeEnd => {
    const { candidate, clearance } = placed[index]!;
    if (clearance !== null) {
      const endClearance = clearance > least ? clearance : null;
      problems.push({ kind: 'lead-without-place', side, bar, use, endClearance });
    }
    return { side, bar, number, terminal, form: candidates[index]![candidate]! };
  });
  return { ends, forms: [...new Set(ends.map(({ form }) => form))] };
}

/** The place of each path among those of its phase, by path index. */
function ranksInPhase({ ends }: Connections): (path: number) => number {
  const ranks = new Map<number, number>();
  const counts = new Map<number, number>();
  const starts = ends.filter(({ end }) => end === 'start').sort((a, b) => a.path - b.path);
  for (const { path, phase } of starts) {
    const rank = counts.get(phase) ?? 0;
    ranks.set(path, rank);
    counts.set(phase, rank + 1);
  }
  return (path) => ranks.get(path) ?? path;
}

/** The ways in which an end may be bent, the best first: those that the bends fit, if any do; and all, the others last. */
interface CandidateForms {
  readonly fitting: readonly EndForm[];
  readonly all: readonly EndForm[];
}

const leavesOut = ({ fitting, all }: CandidateForms) => fitting.length < all.length;

/** The ways in which the ends of a layer and use may be bent. */
function candidateForms(side: EndSide, { tips, bend, shapes }: Bent, radii: BendRadii) {
  const { sizes, slopes } = bend;
  const pitch = (2 * Math.PI) / sizes.slots;
  const highest = shapes[side].reduce((most, { lower }) => Math.max(most, lower.plane), 0);
  const known = new Map<string, CandidateForms>();
  const turnsOf = (layer: number): readonly (number | null)[] =>
    freeEndTurns(tips[side], layer).map((turn) => (turn === 0 ? null : turn * pitch));
  return (layer: number, use: Unplaced['use']): CandidateForms => {
    const key = `${layer} ${use}`;
    const alike = known.get(key);
    if (alike) return alike;
    const forms = turnsOf(layer).map((turn): EndForm => {
      const rise = Math.abs(turn ?? 0) * slopes[side][layer]!.rise;
      const own = sizes.endStraight + rise + sizes.jointStraight;
      const plane = sizes.levelPlane ? Math.max(own, highest) : own;
      const lead = use === 'piece' ? 0 : (sizes.leadLength ?? 0);
      return { side, layer, use, turn, crownLayer: null, shift: 0, plane, lead, reach: null };
    });
    const fitting = forms.filter((form) => bendsFit(bend, form, radii));
    const others = forms.filter((form) => !fitting.includes(form));
    const usable = { fitting: fitting.length > 0 ? fitting : forms, all: [...fitting, ...others] };
    known.set(key, usable);
    return usable;
  };
}

/** Where the tip of a bar bent in some way stands. */
function tipMaker({ tips, bend }: Bent, side: EndSide) {
  const { sizes } = bend;
  const pitch = (2 * Math.PI) / sizes.slots;
  return (bar: Bar, form: EndForm): Tip => {
    const { radius, section } = sizes.layers[bar.layer]!;
    const foot = bar.slot + endShift(tips[side], bar.layer);
    return {
      layer: bar.layer,
      place: foot + (form.turn ?? 0) / pitch,
      foot,
      radius: radius + form.shift,
      coatedWidth: coatedWidth(section),
      coatedHeight: coatedHeight(section),
    };
  };
}

/** Tips and apexes of the joints that are bent from their bars. */
function bentTips(
  side: EndSide,
  joints: readonly WindingJoint[],
  { shapes, apart }: Bent,
  tip: (bar: Bar, form: EndForm) => Tip,
): readonly Tip[] {
  const byShape = new Map(shapes[side].map((shape) => [shape.shape, shape]));
  const found: Tip[] = [];
  for (const joint of joints) {
    if (joint.side !== side || apart(joint)) continue;
    const { lower, upper } = byShape.get(joint.shape)!;
    found.push(tip(lowerBar(joint), lower), tip(upperBar(joint), upper));
  }
  return found;
}
