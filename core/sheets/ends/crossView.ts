import { layerLetter } from '../../language/layerLetters.ts';
import { pathShape } from '../../picture/make.ts';
import type { PathPart, Primitive, Role } from '../../picture/picture.ts';
import { placeAt } from '../../space/curve.ts';
import type { ConnectingPiece, Space } from '../../space/space.ts';
import type { EndSide } from '../../winding/model.ts';
import { lengthRange, millimeterText } from '../numbers.ts';
import type { Block } from '../page/flow.ts';
import { line } from '../page/text.ts';
import { spreadApart } from '../sketches/dimension.ts';
import { sketchBlock } from '../sketches/sketch.ts';
import { undersideOf } from './endSizes.ts';
import { edgesOf, ratioWithin, ratioWords, type SidePoint } from './sideView.ts';

const roomAcross = 44;
const roomUp = 150;
/** Of the stack on paper, from break line to face. */
const stub = 9;
const sides = ['connection', 'far'] as const;

/** A height above the stack that is dimensioned, m. */
interface Mark {
  readonly height: number;
  readonly words: string;
}

/** What one side shows, in m. */
interface SideParts {
  /** Edges of the bars, and outlines of pieces and rings. */
  readonly edges: readonly (readonly SidePoint[])[];
  readonly links: readonly (readonly SidePoint[])[];
  readonly plane: readonly number[];
  readonly marks: readonly Mark[];
  readonly top: number;
}

/** The overhang of both ends in a radial section, to scale: layers, joints, leads, pieces and rings with their heights. */
export function crossView(space: Space, section: string, width: number): Block {
  const parts = { connection: sideParts(space, 'connection'), far: sideParts(space, 'far') };
  const radii = sides.flatMap((side) =>
    [...parts[side].edges, ...parts[side].links].flat().map(([radius]) => radius),
  );
  const [least, most] = [Math.min(...radii), Math.max(...radii)];
  const ratio = ratioWithin(
    [most - least, roomAcross],
    [parts.connection.top + parts.far.top, roomUp - 2 * stub],
  );
  const scale = 1000 * ratio;
  const bases = {
    connection: markBases(parts.connection.marks, -scale),
    far: markBases(parts.far.marks, scale),
  };
  const reach = {
    connection: Math.max(parts.connection.top * scale, 2.5 - Math.min(0, ...bases.connection)),
    far: Math.max(parts.far.top * scale, 1 + Math.max(0, ...bases.far)),
  };
  const middleHeight = 2 * stub + 6;
  const figure = reach.connection + middleHeight + reach.far + 4;
  const id = 'cross-view';
  return sketchBlock({
    id,
    heading: `Both ends in radial section ${ratioWords(ratio)}`,
    section,
    width,
    figureHeight: figure,
    notes: [
      'Connection side up, axis to the left; stack cut short. Heights in mm above the end of the stack: first bends to their sharp corners, crowns to the middle of the bar, pieces and rings to their undersides. Bars, pieces and rings without coating; a radial section shows legs and pieces over all the angles that they take.',
    ],
    draw: (middle, top) => {
      const left = middle - width / 2 + 4;
      const x = (radius: number) => left + (radius - least) * scale;
      const connection = top + 1 + reach.connection;
      const faces = { connection, far: connection + middleHeight };
      const y = (side: EndSide, height: number) =>
        side === 'connection' ? faces.connection - height * scale : faces.far + height * scale;
      return [
        ...stackParts(id, space, [x(least), x(most)], faces, x),
        ...sides.flatMap((side) =>
          drawSide(
            `${id}-${side}`,
            parts[side],
            bases[side].map((base) => faces[side] + base),
            [x(least), x(most)],
            ([radius, height]) => [x(radius), y(side, height)],
          ),
        ),
      ];
    },
  });
}

/** The stack's end faces, break lines, and the layers with their letters. */
function stackParts(
  id: string,
  { layers }: Space,
  [from, to]: readonly [number, number],
  faces: Readonly<Record<EndSide, number>>,
  x: (radius: number) => number,
): readonly Primitive[] {
  const breaks = [faces.connection + stub, faces.far - stub];
  const zigzag = (y: number): PathPart => {
    const middle = (from + to) / 2;
    return [
      from - 2,
      y,
      middle - 1,
      y,
      middle - 0.5,
      y - 1.2,
      middle + 0.5,
      y + 1.2,
      middle + 1,
      y,
      to + 2,
      y,
    ];
  };
  const letters = layers.map((_, layer) => layerLetter(layer));
  const pitch = layers.length > 1 ? Math.abs(x(layers[1]!.radius) - x(layers[0]!.radius)) : 10;
  const every = Math.max(1, Math.ceil(2.2 / pitch));
  const bars = layers.flatMap(({ radius, section: { height } }): PathPart[] =>
    [-1, 1].flatMap((face): PathPart[] => {
      const at = x(radius + (face * height) / 2);
      return [
        [at, faces.connection, at, breaks[0]!],
        [at, breaks[1]!, at, faces.far],
      ];
    }),
  );
  return [
    pathShape(`${id}-faces`, 'core-end', [
      [from - 3, faces.connection, to + 3, faces.connection],
      [from - 3, faces.far, to + 3, faces.far],
    ]),
    pathShape(`${id}-breaks`, 'cut-leader', breaks.map(zigzag)),
    pathShape(`${id}-slots`, 'sketch-line', bars),
    ...letters.flatMap((letter, layer) =>
      layer % every === 0
        ? [
            line(
              `${id}-layer-${letter}`,
              'layer-letter',
              x(layers[layer]!.radius),
              (breaks[0]! + breaks[1]!) / 2 + 0.9,
              letter,
              { height: 1.8, anchor: 'middle' },
            ),
          ]
        : [],
    ),
  ];
}

/** Base lines of the words beside heights, from the face of the stack on paper; none lies over the stack. */
function markBases(marks: readonly Mark[], scale: number): readonly number[] {
  const bases = spreadApart(marks.map(({ height }) => height * scale + 1.25));
  const over = scale < 0 ? Math.max(0, ...bases) : Math.min(0, ...bases);
  return bases.map((base) => base - over);
}

function drawSide(
  id: string,
  { edges, links, plane, marks }: SideParts,
  bases: readonly number[],
  [from, to]: readonly [number, number],
  place: (point: SidePoint) => readonly [number, number],
): readonly Primitive[] {
  const textX = to + 10;
  const y = (height: number) => place([0, height])[1];
  const drawn = (name: string, role: Role, lines: readonly PathPart[]): readonly Primitive[] =>
    lines.length > 0 ? [pathShape(`${id}-${name}`, role, lines)] : [];
  const onPaper = (line: readonly SidePoint[]): PathPart => line.flatMap(place);
  return [
    ...drawn('bars', 'sketch-line', edges.map(onPaper)),
    ...drawn('links', 'block-line', links.map(onPaper)),
    ...drawn(
      'plane',
      'cut-edge',
      plane.map((height) => [from - 3, y(height), to + 3, y(height)]),
    ),
    ...drawn(
      'mark-lines',
      'dimension-line',
      marks.map(({ height }, index) => {
        const level = bases[index]! - 1.25;
        return [to + 3.4, y(height), to + 5, y(height), textX - 2.2, level, textX - 0.8, level];
      }),
    ),
    ...marks.map(({ words }, index) =>
      line(`${id}-mark-${index}`, 'dimension-text', textX, bases[index]!, words, { height: 2.5 }),
    ),
  ];
}

/** Everything of one side: zones of each layer's ends, joints, leads, crowns, pieces and rings. */
function sideParts(space: Space, side: EndSide): SideParts {
  const edges: (readonly SidePoint[])[] = [];
  const links: (readonly SidePoint[])[] = [];
  const marks = new Map<string, number>();
  const ends = space.ends.filter((end) => end.side === side);
  const seen = new Set<string>();
  const add = (to: (readonly SidePoint[])[], line: readonly SidePoint[]) => {
    const key = line.map((point) => point.map((value) => Math.round(value * 1e5)).join(' ')).join(',');
    if (!seen.has(key)) to.push(line);
    seen.add(key);
  };
  for (const end of ends)
    for (const edge of edgesOf(end.pieces, space.layers[end.layer]!.section)) add(edges, edge);
  const highest = (uses: readonly string[]) =>
    ends.filter(({ use }) => uses.includes(use)).map(({ top }) => top);
  if (ends.length > 0) marks.set('first corner', space.endStraight);
  const crowns = highest(['crown']);
  if (crowns.length > 0) marks.set('crown apex', Math.max(...crowns));
  const plane = space.jointPlanes[side];
  const level = plane && plane.highest - plane.lowest < 5e-5;
  if (plane) marks.set(level ? 'joint plane' : 'highest joint', plane.highest);
  if (plane && !level) marks.set('lowest joint', plane.lowest);
  const ranges = new Map<string, string>();
  for (const [stopping, name] of [
    ['lead', 'leads end'],
    ['star', 'star ends'],
  ] as const) {
    const tops = ends.filter(({ use, reach }) => use === stopping && reach === null).map(({ top }) => top);
    if (tops.length === 0) continue;
    marks.set(name, Math.max(...tops));
    ranges.set(name, lengthRange({ shortest: Math.min(...tops), longest: Math.max(...tops) }));
  }
  const box = (inner: number, outer: number, middle: number, height: number): readonly SidePoint[] => {
    const [low, high] = [middle - height / 2, middle + height / 2];
    return [
      [inner, low],
      [outer, low],
      [outer, high],
      [inner, high],
      [inner, low],
    ];
  };
  let linkTop = 0;
  for (const link of space.links.filter((each) => each.side === side)) {
    const { risers, radii } = linkParts(link);
    for (const riser of risers) for (const edge of edgesOf(riser, link.section)) add(edges, edge);
    const { width, height } = link.section;
    add(links, box(Math.min(...radii) - width / 2, Math.max(...radii) + width / 2, link.height, height));
    marks.set(`pieces, level ${link.level}:`, undersideOf(link));
    linkTop = Math.max(linkTop, link.height + height / 2);
  }
  for (const ring of space.rings.filter((each) => each.side === side)) {
    const { radius } = ring.piece.curve.path;
    const { width, height } = ring.section;
    add(links, box(radius - width / 2, radius + width / 2, ring.height, height));
    marks.set(`ring ${ring.name}`, undersideOf(ring));
    linkTop = Math.max(linkTop, ring.height + height / 2);
  }
  const top = Math.max(linkTop, ...edges.flat().map(([, height]) => height));
  return {
    edges,
    links,
    plane: plane ? (level ? [plane.highest] : [plane.lowest, plane.highest]) : [],
    marks: [...marks]
      .map(
        ([name, height]): Mark => ({
          height,
          words: `${name} ${ranges.get(name) ?? millimeterText(height)}`,
        }),
      )
      .sort((a, b) => a.height - b.height),
    top,
  };
}

/** The risers of a piece, with the bends that lead into its level part, and the radii between which that lies, m. */
function linkParts({ pieces }: ConnectingPiece) {
  const level = pieces.filter(({ kind }) => kind !== 'riser');
  const [first, last] = [level[0]!, level.at(-1)!];
  return {
    risers: [pieces.slice(0, pieces.indexOf(first) + 1), pieces.slice(pieces.indexOf(last))],
    radii: [placeAt(first.curve, 0).radius, placeAt(last.curve, 1).radius],
  };
}
