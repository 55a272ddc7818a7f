import {
  type CommonEntityOptions,
  type EntitiesManager,
  HatchBoundaryPaths,
  HatchPolylineBoundary,
  HatchPredefinedPatterns,
  LWPolylineFlags,
  pattern,
  point3d,
  TextHorizontalAlignment,
  type vec3_t,
} from '@tarikjabiri/dxf';
import type { Leaf } from '../leaves.ts';
import { type PaintStyle, paintStyle } from '../paintStyle.ts';
import type { Arc, PathPart, Primitive, Text } from '../picture.ts';
import { type ColorIndexOf, type LayerOf, lineWeight, setEntityLineWeight, trueColor } from './layers.ts';
import { cadTextStyle, capitalHeight, type TextPiece, textPieces } from './text.ts';

/** Where the primitives of one picture go. */
export interface DxfPage {
  readonly model: EntitiesManager;
  readonly layerOf: LayerOf;
  readonly colorIndexOf: ColorIndexOf;
  readonly newBlock: (id: string) => EntitiesManager & { readonly name: string };
  /** Where the picture's left edge lies, mm. */
  readonly left: number;
  /** Of the picture, mm, from which its y is taken: y runs upwards in CAD. */
  readonly height: number;
  /** What the lengths of dashes are multiplied by. */
  readonly dashScale: number;
}

/** A coordinate to a tenth of a micrometer. Throws RangeError where it is not finite or beyond 1e9 mm. */
export function place(value: number): number {
  if (!(Math.abs(value) < 1e9))
    throw new RangeError(`A DXF file cannot hold the coordinate ${value} mm (limit 1e9 mm)`);
  return Math.round(value * 1e4) / 1e4 + 0;
}

/** Draws a primitive as one entity: a block reference where it takes several. */
export function drawInModel(page: DxfPage, primitive: Leaf): void {
  const draws = drawingsOf(page, primitive);
  if (draws.length === 0) return;
  const options = entityOptions(page, primitive);
  const own = primitive.emphasis === 'strong' ? lineWeight(paintStyle(primitive).width) : 0;
  const add = (manager: EntitiesManager, draw: Draw, given: CommonEntityOptions) => {
    const entity = draw(manager, given);
    if (own > 0) setEntityLineWeight(entity, own);
  };
  if (draws.length === 1) {
    add(page.model, draws[0]!, options);
    return;
  }
  const block = page.newBlock(primitive.id);
  // Parts on layer 0 take everything from the layer of the reference.
  const { layerName: _, ...inside } = options;
  for (const draw of draws) add(block, draw, inside);
  page.model.addInsert(block.name, point3d(0, 0, 0), options);
}

/** Adds one entity to the model or to a block. */
type Draw = (
  manager: EntitiesManager,
  options: CommonEntityOptions,
) => Parameters<typeof setEntityLineWeight>[0];

function entityOptions(page: DxfPage, primitive: Primitive): CommonEntityOptions {
  const { color, opacity, dashes } = paintStyle(primitive);
  const layerName = page.layerOf(primitive);
  return {
    layerName,
    ...(page.dashScale === 1 || dashes.length === 0 ? {} : { lineTypeScale: page.dashScale }),
    ...(opacity === 1 ? {} : colorOptions(page, mixed(color, opacity))),
  };
}

function colorOptions({ colorIndexOf }: DxfPage, color: string): CommonEntityOptions {
  return { colorNumber: colorIndexOf(color), trueColor: String(trueColor(color)) };
}

/** A color as it looks on white paper. */
function mixed(color: string, opacity: number): string {
  const parts = [1, 3, 5].map((at) => {
    const value = Number.parseInt(color.slice(at, at + 2), 16);
    return Math.round(255 - opacity * (255 - value))
      .toString(16)
      .padStart(2, '0');
  });
  return `#${parts.join('')}`;
}

function drawingsOf(page: DxfPage, primitive: Leaf): readonly Draw[] {
  const at = (x: number, y: number): vec3_t => point3d(place(page.left + x), place(page.height - y), 0);
  switch (primitive.kind) {
    case 'line':
      return polyline([primitive.x1, primitive.y1, primitive.x2, primitive.y2], at);
    case 'polyline':
      return polyline(primitive.points, at);
    case 'polygon':
      return area(page, [primitive.points], at, paintStyle(primitive));
    case 'path':
      return primitive.filled
        ? area(page, primitive.parts, at, paintStyle(primitive))
        : primitive.parts.flatMap((part) => polyline(part, at));
    case 'arc':
      return arc(primitive, at);
    case 'text':
      return textPieces(primitive).flatMap((piece) => drawPiece(primitive, piece, at));
  }
}

type At = (x: number, y: number) => vec3_t;

function pointsOf(part: PathPart, at: At): vec3_t[] {
  return Array.from({ length: Math.floor(part.length / 2) }, (_, index) =>
    at(part[2 * index]!, part[2 * index + 1]!),
  );
}

function polyline(part: PathPart, at: At): readonly Draw[] {
  const points = pointsOf(part, at);
  if (points.length < 2) return [];
  if (points.length === 2) return [(manager, options) => manager.addLine(points[0]!, points[1]!, options)];
  const vertices = points.map(({ x, y }) => ({ point: { x, y } }));
  // The dash pattern runs on round the corners.
  const flags = LWPolylineFlags.Plinegen;
  return [(manager, options) => manager.addLWPolyline(vertices, { ...options, flags })];
}

/** Filled outlines as one solid hatch; a tint in its light color, with its outlines drawn. */
function area(page: DxfPage, parts: readonly PathPart[], at: At, style: PaintStyle): readonly Draw[] {
  const outlines = parts.map((part) => pointsOf(part, at)).filter((points) => points.length >= 3);
  if (outlines.length === 0) return [];
  const boundary = new HatchBoundaryPaths();
  for (const points of outlines)
    boundary.addPolylineBoundary(new HatchPolylineBoundary(points.map(({ x, y }) => ({ x, y }))));
  const solid = pattern({ name: HatchPredefinedPatterns.SOLID });
  if (style.fillOpacity === 1) return [(manager, options) => manager.addHatch(boundary, solid, options)];
  const tint = colorOptions(page, mixed(style.color, style.opacity * style.fillOpacity));
  return [
    (manager, options) => manager.addHatch(boundary, solid, { ...options, ...tint }),
    ...(style.width > 0 ? outlines.map(outline) : []),
  ];
}

function outline(points: readonly vec3_t[]): Draw {
  const vertices = points.map(({ x, y }) => ({ point: { x, y } }));
  const flags = LWPolylineFlags.Closed;
  return (manager, options) => manager.addLWPolyline(vertices, { ...options, flags });
}

/** Angles turn the other way round, since y runs upwards. */
function arc({ x, y, radius, from, to }: Arc, at: At): readonly Draw[] {
  const center = at(x, y);
  const size = place(radius);
  if (Math.abs(to - from) >= 360) return [(manager, options) => manager.addCircle(center, size, options)];
  const [start, end] = to > from ? [-to, -from] : [-from, -to];
  return [(manager, options) => manager.addArc(center, size, turn(start), turn(end), options)];
}

/** An angle in degrees within 0 <= angle < 360. */
function turn(degrees: number): number {
  return place((((degrees % 360) + 360) % 360) % 360);
}

const anchorShare = { start: 0, middle: 0.5, end: 1 } as const;

/**
 * A stretch of text between exactly its two ends (alignment "fit"), so that texts which do not overlap
 * in the picture do not in CAD either, whatever font it has.
 */
function drawPiece(text: Text, piece: TextPiece, at: At): readonly Draw[] {
  const angle = text.angle ?? 0;
  const [cos, sin] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
  const left = piece.start - anchorShare[text.anchor] * text.width;
  /** A point by its distance along the base line and above it. */
  const on = (along: number, above: number): vec3_t =>
    at(text.x + along * cos + above * sin, text.y + along * sin - above * cos);
  if (piece.kind !== 'words') return drawSymbol(piece, text.size, left, on);
  if (piece.width === 0 || piece.words.trim() === '') return [];
  const height = place(capitalHeight * text.size);
  return [
    (manager, options) => {
      const entity = manager.addText(on(left, 0), height, piece.words, {
        ...options,
        rotation: turn(-angle),
        horizontalAlignment: TextHorizontalAlignment.Fit,
        secondAlignmentPoint: on(left + piece.width, 0),
      });
      entity.textStyle = cadTextStyle;
      return entity;
    },
  ];
}

function drawSymbol(piece: TextPiece, size: number, left: number, on: At): readonly Draw[] {
  const radius = Math.min(0.36 * size, 0.45 * piece.width);
  const [along, above] = [left + piece.width / 2, (capitalHeight * size) / 2];
  const circle: Draw = (manager, options) => manager.addCircle(on(along, above), place(radius), options);
  const stroke = (dx: number, dy: number): Draw => {
    const [one, other] = [on(along - dx, above - dy), on(along + dx, above + dy)];
    return (manager, options) => manager.addLine(one, other, options);
  };
  const diagonal = radius * Math.SQRT1_2;
  if (piece.kind === 'circle-cross') return [circle, stroke(diagonal, diagonal), stroke(diagonal, -diagonal)];
  if (piece.kind === 'diameter') return [circle, stroke(1.3 * diagonal, 1.3 * diagonal)];
  return [circle, dot(on(along - 0.1 * size, above), on(along + 0.1 * size, above))];
}

/** A disk between two points of its rim: two half circles of a line as wide as its radius. */
function dot(one: vec3_t, other: vec3_t): Draw {
  const radius = Math.hypot(other.x - one.x, other.y - one.y) / 2;
  const inner = (from: vec3_t, to: vec3_t) => ({
    point: { x: place((3 * from.x + to.x) / 4), y: place((3 * from.y + to.y) / 4) },
    bulge: 1,
  });
  const vertices = [inner(one, other), inner(other, one)];
  const flags = LWPolylineFlags.Closed;
  return (manager, options) =>
    manager.addLWPolyline(vertices, { ...options, flags, constantWidth: place(radius) });
}
