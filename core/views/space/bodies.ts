import type { ConnectionFacts } from '../../facts/connection.ts';
import type { Steps } from '../../figures/steps.ts';
import { stretchAt } from '../../space/cad/barLines.ts';
import { chordsFor } from '../../space/curve.ts';
import { leadApart, type Piece } from '../../space/piece.ts';
import type { Section } from '../../space/section.ts';
import type { BarEnd, ConnectingPiece, EndRing, Space, SpaceBar } from '../../space/space.ts';
import { offsetBy, type Vector } from '../../space/vectors.ts';
import { type Bar, barName, type EndSide } from '../../winding/model.ts';
import type { Quad } from './visible.ts';

/** What a body stands for. */
export type Thing =
  | { readonly kind: 'bar'; readonly bar: Bar }
  | {
      readonly kind: 'lead';
      readonly bar: Bar;
      readonly side: EndSide;
      readonly terminal: string;
      /** Its number. */
      readonly joint: number;
      readonly star: boolean;
    }
  | { readonly kind: 'piece'; readonly link: ConnectingPiece }
  | { readonly kind: 'ring'; readonly ring: EndRing }
  | { readonly kind: 'stack' };

/** Something that is drawn: its faces in groups of one side each. */
export interface Body {
  readonly thing: Thing;
  readonly faces: readonly (readonly Quad[])[];
  /** Radians about the axis by which its faces are turned. */
  readonly turn: number;
  /** Where a name may stand, the best first: the end of a lead, places on a ring's upper side. */
  readonly names: readonly Vector[];
}

/** Bars from one step to the next. */
const barsAtOnce = 50;

/** Everything that stands in a winding's space, in steps; chords leave center lines by no more than `tolerance`, m. */
export function* bodySteps(
  space: Space,
  connection: ConnectionFacts,
  tolerance: number,
): Steps<readonly Body[]> {
  const swept = sweeper(tolerance);
  const ends = new Map(connection.joints().ends.map((end) => [`${end.side} ${barName(end.bar)}`, end]));
  const bars: Body[] = [];
  for (const [index, bar] of space.bars.entries()) {
    if (index % barsAtOnce === 0) yield;
    if (bar) bars.push(...barBodies(space, bar, ends, swept));
  }
  const pieces = space.links.map(
    (link): Body => ({
      thing: { kind: 'piece', link },
      faces: swept(link.pieces, link.section),
      turn: link.turn,
      names: [],
    }),
  );
  const rings = space.rings.map((ring): Body => {
    return {
      thing: { kind: 'ring', ring },
      faces: swept([ring.piece], ring.section),
      turn: 0,
      names: fromTheMiddle.map((fraction) => upperSide(ring, fraction)),
    };
  });
  return [stackBody(space), ...bars, ...pieces, ...rings];
}

const fromTheMiddle = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9];

/** The middle of a ring's side away from the stack. */
export function upperSide({ piece, section }: EndRing, fraction: number): Vector {
  const { point, width, height } = stretchAt({ piece, backwards: false, turn: 0 }, fraction);
  const up = Math.sign(point[2] * height[2]);
  return offsetBy(point, height, (up * section.height) / 2, width, 0);
}

type Sweep = (pieces: readonly Piece<unknown>[], section: Section) => readonly (readonly Quad[])[];

type Ends = ReadonlyMap<string, ReturnType<ConnectionFacts['joints']>['ends'][number]>;

function barBodies(space: Space, bar: SpaceBar, ends: Ends, swept: Sweep): readonly Body[] {
  const { section } = space.layers[bar.bar.layer]!;
  const own: (readonly Quad[])[] = [];
  const leads: Body[] = [];
  const join = (faces: readonly (readonly Quad[])[]) =>
    faces.forEach((quads, side) => {
      own[side] = [...(own[side] ?? []), ...quads];
    });
  join(swept([space.slotParts[bar.bar.layer]!], section));
  for (const side of ['connection', 'far'] as const) {
    const end: BarEnd = bar[side];
    const { own: below, lead } = leadApart(end.pieces);
    const pathEnd = ends.get(`${side} ${barName(bar.bar)}`);
    const last = lead.at(-1);
    if (!last || !pathEnd) {
      join(swept(end.pieces, section));
      continue;
    }
    join(swept(below, section));
    leads.push({
      thing: {
        kind: 'lead',
        bar: bar.bar,
        side,
        terminal: pathEnd.terminal,
        joint: pathEnd.number,
        star: pathEnd.kind === 'star',
      },
      faces: swept(lead, section),
      turn: bar.turn,
      names: [stretchAt({ piece: last, backwards: false, turn: bar.turn }, 1).point],
    });
  }
  return [{ thing: { kind: 'bar', bar: bar.bar }, faces: own, turn: bar.turn, names: [] }, ...leads];
}

/** Makes the four sides and the two ends of a section swept along pieces; the same pieces only once. */
function sweeper(tolerance: number): Sweep {
  const made = new Map<unknown, readonly (readonly Quad[])[]>();
  return (pieces, section) => {
    const key = pieces.length === 1 ? pieces[0]! : pieces;
    const known = made.get(key);
    if (known) return known;
    const faces = sweptFaces(pieces, section, tolerance);
    made.set(key, faces);
    return faces;
  };
}

function sweptFaces(
  pieces: readonly Piece<unknown>[],
  { width, height }: Section,
  tolerance: number,
): readonly (readonly Quad[])[] {
  const rings = pieces.flatMap((piece, index) => {
    const chords = chordsFor(piece.curve, piece.length, tolerance);
    const first = index === 0 ? 0 : 1;
    return Array.from({ length: chords + 1 - first }, (_, chord) => {
      const station = stretchAt({ piece, backwards: false, turn: 0 }, (chord + first) / chords);
      return corners.map(([across, out]) =>
        offsetBy(station.point, station.width, (across * width) / 2, station.height, (out * height) / 2),
      );
    });
  });
  if (rings.length === 0) return [];
  const sides = corners.map((_, corner) => {
    const next = (corner + 1) % 4;
    return rings
      .slice(1)
      .map((ring, index): Quad => [rings[index]![corner]!, rings[index]![next]!, ring[next]!, ring[corner]!]);
  });
  const [first, last] = [rings[0]!, rings.at(-1)!] as [Vector[], Vector[]];
  return [
    ...sides,
    [[first[3]!, first[2]!, first[1]!, first[0]!]],
    [[last[0]!, last[1]!, last[2]!, last[3]!]],
  ];
}

/** Of a section, along its width and height, counterclockwise round the center line's direction. */
const corners = [
  [1, -1],
  [1, 1],
  [-1, 1],
  [-1, -1],
] as const;

/** The stack as a plain ring between the radii of the bars. */
function stackBody({ layers, stack, slots }: Space): Body {
  const [inner, outer] = [layers[0]!, layers.at(-1)!];
  const least = inner.radius - 0.75 * inner.section.height;
  const most = outer.radius + 0.75 * outer.section.height;
  const parts = Math.max(96, 2 * slots);
  const point = (radius: number, index: number, z: number): Vector => {
    const angle = (2 * Math.PI * index) / parts;
    return [radius * Math.cos(angle), radius * Math.sin(angle), z];
  };
  const strip = (quad: (index: number) => Quad) => Array.from({ length: parts }, (_, index) => quad(index));
  const [low, high] = [-stack / 2, stack / 2];
  return {
    thing: { kind: 'stack' },
    turn: 0,
    names: [],
    faces: [
      strip((i) => [
        point(most, i, low),
        point(most, i + 1, low),
        point(most, i + 1, high),
        point(most, i, high),
      ]),
      strip((i) => [
        point(least, i + 1, low),
        point(least, i, low),
        point(least, i, high),
        point(least, i + 1, high),
      ]),
      strip((i) => [
        point(least, i, low),
        point(least, i + 1, low),
        point(most, i + 1, low),
        point(most, i, low),
      ]),
      strip((i) => [
        point(most, i, high),
        point(most, i + 1, high),
        point(least, i + 1, high),
        point(least, i, high),
      ]),
    ],
  };
}
