import { stationAt } from '../../../core/space/curve.ts';
import type { Piece } from '../../../core/space/piece.ts';
import { coatedHeight, coatedWidth, type Section } from '../../../core/space/section.ts';
import type { BarEnd, Space, SpaceBar } from '../../../core/space/space.ts';
import type { Vector } from '../../../core/space/vectors.ts';
import { dot } from '../../../core/space/vectors.ts';
import { barName } from '../../../core/winding/model.ts';

/** A piece of a bar end as a row of frames of its section. */
interface Surface {
  readonly kind: string;
  readonly layer: number;
  readonly joint: string;
  readonly bar: number;
  readonly frames: readonly Frame[];
}

interface Frame {
  readonly point: Vector;
  readonly tangent: Vector;
  readonly height: Vector;
  readonly width: Vector;
}

const lengthwise = 4e-4;
const axes = [0, 1, 2] as const;

function surfaces(bar: SpaceBar, place: number, side: 'connection' | 'far'): Surface[] {
  const end: BarEnd = bar[side];
  const number = side === 'far' ? bar.farNumber : bar.connectionNumber;
  const joint = end.use === 'joint' || end.use === 'crown' ? `${number}` : '';
  return end.pieces.map(({ kind, curve, length }: Piece): Surface => {
    const steps = Math.ceil(length / lengthwise);
    const frames = Array.from({ length: steps + 1 }, (_, at) => stationAt(curve, at / steps, bar.turn));
    return { kind, layer: bar.bar.layer, joint, bar: place, frames };
  });
}

/** Points round the rounded edges of a section at a frame. */
function outline({ point, height, width }: Frame, section: Section): Vector[] {
  const [w, h] = [coatedWidth(section) / 2, coatedHeight(section) / 2];
  const r = section.corner + section.coating;
  const at = (v: number, u: number): Vector => [
    point[0] + v * width[0] + u * height[0],
    point[1] + v * width[1] + u * height[1],
    point[2] + v * width[2] + u * height[2],
  ];
  return [-1, 1].flatMap((v) =>
    [-1, 1].flatMap((u) =>
      [0, 1, 2].map((step) => {
        const angle = (step * Math.PI) / 4;
        return at(v * (w - r + r * Math.cos(angle)), u * (h - r + r * Math.sin(angle)));
      }),
    ),
  );
}

/** Signed distance of a point from the rounded section at the frames beside it. */
function signed(point: Vector, { frames }: Surface, section: Section): number {
  const r = section.corner + section.coating;
  let best = Number.POSITIVE_INFINITY;
  for (const frame of frames) {
    const from: Vector = [point[0] - frame.point[0], point[1] - frame.point[1], point[2] - frame.point[2]];
    if (Math.abs(dot(from, frame.tangent)) > lengthwise * 0.75) continue;
    const v = Math.abs(dot(from, frame.width)) - (coatedWidth(section) / 2 - r);
    const u = Math.abs(dot(from, frame.height)) - (coatedHeight(section) / 2 - r);
    const outside = Math.hypot(Math.max(v, 0), Math.max(u, 0));
    best = Math.min(best, (v > 0 || u > 0 ? outside : Math.max(v, u)) - r);
  }
  return best;
}

/**
 * Least distances by kind and side, of points on the edges of the bars of a quarter of the slots from every
 * other bar: slow and plain. Between layers only what penetrates counts.
 */
export function pointsDistance(space: Space): ReadonlyMap<string, number> {
  const least = new Map<string, number>();
  const widest = Math.max(...space.layers.map(({ section }) => coatedWidth(section)));
  const innermost = Math.min(...space.layers.map(({ radius }) => radius));
  const allowance = widest ** 2 / (8 * innermost) + 1e-5;
  for (const side of ['connection', 'far'] as const) {
    const all = space.bars.flatMap((bar, place) => (bar ? surfaces(bar, place, side) : []));
    const boxes = all.map(({ frames }) => box(frames.map(({ point }) => point)));
    for (const a of all) {
      if (a.bar % space.slots >= space.slots / 4) continue;
      const points = a.frames.flatMap((frame) => outline(frame, space.layers[a.layer]!.section));
      const [lowest, highest] = box(points);
      all.forEach((b, index) => {
        if (a.bar === b.bar || (a.joint !== '' && a.joint === b.joint)) return;
        const section = space.layers[b.layer]!.section;
        const [low, high] = boxes[index]!;
        const reach = (coatedWidth(section) + coatedHeight(section)) / 2 + 1.5e-3;
        const isNear = (least: readonly number[], most: readonly number[]) =>
          axes.every((axis) => least[axis]! < high[axis]! + reach && most[axis]! > low[axis]! - reach);
        if (!isNear(lowest, highest)) return;
        const close = points.filter((point) => isNear(point, point));
        const key = `${kindOf(a.kind, b.kind)} ${side}`;
        for (const point of close) {
          const distance = signed(point, b, section);
          if (a.layer !== b.layer && distance >= -allowance) continue;
          least.set(key, Math.min(least.get(key) ?? 0.012, distance));
        }
      });
    }
  }
  return least;
}

/**
 * Least distance of the ends of two bars on a side, of points every 0.02 mm along the sharp edges of either, each from the
 * section of the other right beside it.
 */
export function edgesDistance(
  space: Space,
  names: readonly [string, string],
  side: 'connection' | 'far',
): number {
  const [one, other] = names.map((name) => space.bars.find((bar) => bar && barName(bar.bar) === name)!);
  const least = (from: SpaceBar, to: SpaceBar) => {
    const targets = to[side].pieces.map(({ curve, length }: Piece): Target => {
      const station = (share: number) => stationAt(curve, share, to.turn);
      const steps = Math.ceil(length / 1e-3);
      const frames = Array.from({ length: steps + 1 }, (_, step) => station(step / steps));
      return { station, frames, middle: station(0.5) };
    });
    const { section: own } = space.layers[from.bar.layer]!;
    const { section } = space.layers[to.bar.layer]!;
    let found = Number.POSITIVE_INFINITY;
    for (const { curve, length } of from[side].pieces)
      for (let at = 0, steps = Math.ceil(length / 2e-5); at <= steps; at++)
        for (const point of corners(stationAt(curve, at / steps, from.turn), own))
          for (const target of targets) found = Math.min(found, beside(point, target, section));
    return found;
  };
  return Math.min(least(one!, other!), least(other!, one!));
}

function corners({ point, height, width }: Frame, section: Section): Vector[] {
  const [w, h] = [coatedWidth(section) / 2, coatedHeight(section) / 2];
  const at = (v: number, u: number, axis: 0 | 1 | 2) => point[axis] + v * width[axis] + u * height[axis];
  return [
    [w, h],
    [-w, h],
    [w, -h],
    [-w, -h],
  ].map(([v, u]): Vector => [at(v!, u!, 0), at(v!, u!, 1), at(v!, u!, 2)]);
}

/** A piece from whose sections distances are measured: anywhere along it, every millimeter, and in its middle. */
interface Target {
  readonly station: (share: number) => Frame;
  readonly frames: readonly Frame[];
  readonly middle: Frame;
}

/** The distance of a point from the section to which it lies straight across, found by halving; infinite beside the piece. */
function beside(point: Vector, { station, frames, middle }: Target, section: Section): number {
  const steps = frames.length - 1;
  const from = (frame: Frame): Vector => [
    point[0] - frame.point[0],
    point[1] - frame.point[1],
    point[2] - frame.point[2],
  ];
  const ahead = (frame: Frame) => dot(from(frame), frame.tangent);
  // Far ones are none that collide.
  const reach = coatedWidth(section) + coatedHeight(section);
  if (Math.hypot(...from(middle)) > reach + (steps * 1e-3) / 2) return Number.POSITIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  for (let step = 0; step < steps; step++) {
    if (ahead(frames[step]!) < 0 || ahead(frames[step + 1]!) > 0) continue;
    let [low, high] = [step / steps, (step + 1) / steps];
    // To a hundred thousandth of a millimeter.
    for (let round = 0; round < 17; round++) {
      const half = (low + high) / 2;
      if (ahead(station(half)) >= 0) low = half;
      else high = half;
    }
    const frame = station(low);
    const across = from(frame);
    const v = Math.abs(dot(across, frame.width)) - coatedWidth(section) / 2;
    const u = Math.abs(dot(across, frame.height)) - coatedHeight(section) / 2;
    least = Math.min(least, Math.max(v, u) > 0 ? Math.hypot(Math.max(v, 0), Math.max(u, 0)) : Math.max(v, u));
  }
  return least;
}

function kindOf(a: string, b: string): string {
  const has = (kind: string) => a === kind || b === kind;
  if (has('lead')) return 'lead';
  if (has('joint')) return 'tip-tip';
  return has('crown') ? 'crown-leg' : 'leg-leg';
}

function box(points: readonly Vector[]): readonly [readonly number[], readonly number[]] {
  const of = (pick: (...values: number[]) => number) =>
    axes.map((axis) => points.reduce((best, point) => pick(best, point[axis]), points[0]![axis]));
  return [of(Math.min), of(Math.max)];
}
