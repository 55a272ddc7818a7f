import { aciHex, type Dxfier, type DxfLayer, type DxfWriter } from '@tarikjabiri/dxf';
import { type PaintStyle, paintStyle } from '../paintStyle.ts';
import type { Primitive } from '../picture.ts';

/** The name of the layer on which a primitive lies; the layer is made when first asked for. */
export type LayerOf = (primitive: Primitive) => string;

/**
 * Layers by role and phase, each with the color, line type and line width of its primitives.
 * `phaseNames` end the names of the layers.
 */
export function dxfLayers(
  writer: DxfWriter,
  phaseNames: readonly string[],
  colorIndexOf: ColorIndexOf,
): LayerOf {
  const made = new Set<string>();
  return (primitive) => {
    const { role, phase } = primitive;
    const suffix = phase === undefined ? '' : `-${phaseNames[phase] ?? phase + 1}`;
    const name = `${role.toUpperCase()}${suffix}`;
    if (made.has(name)) return name;
    const style = paintStyle({ ...primitive, emphasis: undefined });
    addLayer(writer, name, style, colorIndexOf(style.color));
    made.add(name);
    return name;
  };
}

function addLayer(writer: DxfWriter, name: string, style: PaintStyle, colorIndex: number): void {
  const layer = writer.addLayer(name, colorIndex, lineType(writer, style.dashes));
  // Black stays without a true color: index 7 is black on white paper, white on a dark screen.
  if (style.color !== '#000000') layer.trueColor = trueColor(style.color);
  setLineWeight(layer, lineWeight(style.width));
}

function lineType(writer: DxfWriter, dashes: readonly number[]): string {
  if (dashes.length === 0) return 'Continuous';
  const tenths = dashes.map((length) => Math.round(10 * length));
  const name = `DASH-${tenths.join('-')}`;
  const words = `dashes and gaps of ${dashes.join(', ')} mm`;
  const elements = dashes.map((length, index) => (index % 2 === 0 ? length : -length));
  writer.addLType(name, words, elements);
  return name;
}

/** `#rrggbb` as the number of group 420. */
export function trueColor(color: string): number {
  return Number.parseInt(color.slice(1), 16);
}

/** The number of the nearest color of the index that older programs use. */
export type ColorIndexOf = (color: string) => number;

/** One for a writing, which seeks each color once. */
export function colorIndices(): ColorIndexOf {
  const known = new Map<string, number>();
  return (color) => {
    const index = known.get(color) ?? nearestIndex(color);
    known.set(color, index);
    return index;
  };
}

function nearestIndex(color: string): number {
  if (color === '#000000') return 7;
  let nearest = 7;
  let least = Number.POSITIVE_INFINITY;
  for (let index = 1; index <= 255; index++) {
    const distance = colorDistance(color, aciHex(index));
    if (distance < least) [nearest, least] = [index, distance];
  }
  return nearest;
}

function colorDistance(one: string, other: string): number {
  const parts = (color: string) =>
    [0, 2, 4].map((at) => Number.parseInt(color.replace('#', '').slice(at, at + 2), 16));
  const [a, b] = [parts(one), parts(other)];
  return a.reduce((sum, value, index) => sum + (value - b[index]!) ** 2, 0);
}

/** The widths that group 370 knows, in hundredths of a millimeter. */
const lineWeights = [13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200];

/** The nearest width of group 370; 0 for things without an outline. */
export function lineWeight(width: number): number {
  if (width === 0) return 0;
  const wanted = 100 * width;
  return lineWeights.reduce((best, each) =>
    Math.abs(each - wanted) < Math.abs(best - wanted) ? each : best,
  );
}

interface Written {
  dxfy(dx: Dxfier): void;
}

/** Gives a layer its width: the library writes 0 for every layer. */
function setLineWeight(layer: DxfLayer, weight: number): void {
  rewrite(layer, (lines, start) => {
    const at = groupIndex(lines, start, 370);
    if (at >= 0) lines[at + 1] = weight;
  });
}

/** Gives an entity a width of its own, after its layer name. */
export function setEntityLineWeight(entity: Written, weight: number): void {
  rewrite(entity, (lines, start) => {
    const at = groupIndex(lines, start, 8);
    if (at >= 0) lines.splice(at + 2, 0, 370, weight);
  });
}

function rewrite(written: Written, change: (lines: (string | number)[], start: number) => void): void {
  const write = written.dxfy.bind(written);
  written.dxfy = (dx) => {
    const start = dx.lines.length;
    write(dx);
    change(dx.lines, start);
  };
}

/** Index of the first group of a code; codes stand at every second place. */
function groupIndex(lines: readonly (string | number)[], start: number, code: number): number {
  for (let index = start; index < lines.length; index += 2) if (lines[index] === code) return index;
  return -1;
}
