import { layerLetter } from '../../language/layerLetters.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { filledShape, pathShape, text, textSize } from '../../picture/make.ts';
import { arrowHead, circlePart } from '../../picture/outlines.ts';
import type { PathPart, Primitive, Text } from '../../picture/picture.ts';
import { greatestCommonDivisor } from '../../winding/integers.ts';
import { cellAt, phaseOfCell, placeName, printedSigns, type Winding } from '../../winding/model.ts';
import { clearTexts, thinnedTexts } from '../chart/labels.ts';
import { type AlikeLayers, alikeLayers } from '../chart/layers.ts';
import { slotAngle } from './chains.ts';

/** The star of slots on paper. */
export interface PhasorStar {
  readonly items: readonly Primitive[];
  /** From the middle to the outermost ring. */
  readonly radius: number;
  /** Rings from inside: the letters of the layers that share each. */
  readonly rings: readonly string[];
}

/** A stretch of a ring with one phase and sense; angles in degrees. */
interface Stretch {
  readonly cell: number;
  readonly from: number;
  readonly to: number;
}

/** Rings are as wide as their names, which stand upright. */
function ringWidth({ phases }: Winding): number {
  return Math.max(4.4, ...phases.names.map((name) => textWidth(`+${name}`, textSize) + 1));
}

/** Rays begin where they are this far apart. */
const closest = 0.45;

/** Size of the star, known before it is drawn; `most` is the largest radius there is room for. */
export function starSize(
  winding: Winding,
  most = Infinity,
): { readonly ray: number; readonly radius: number } {
  const { rays, listed } = starNumbers(winding);
  const widest = rayNames(winding, rays, listed).reduce(
    (most, name) => Math.max(most, textWidth(name, textSize)),
    0,
  );
  const beyond = widest + 2.4 + alikeLayers(winding).length * ringWidth(winding);
  const wanted = Math.min(78, Math.max(24, (rays * (widest + 0.9)) / (2 * Math.PI) - 3));
  const ray = Math.max(Math.min(wanted, most - beyond), 12);
  return { ray, radius: ray + beyond };
}

/**
 * Star of slots: each slot's EMF as a ray at the angle by which it lags slot 1 (at the top, lagging
 * clockwise), slot numbers at the rays, and round them a ring of phase sectors for the layers.
 */
export function drawStar(winding: Winding, x: number, y: number, most = Infinity): PhasorStar {
  const { rays, listed } = starNumbers(winding);
  const { ray, radius } = starSize(winding, most);
  const rings = alikeLayers(winding);
  const point = (degrees: number, distance: number): readonly [number, number] => {
    const angle = (Math.PI * degrees) / 180;
    return [x + distance * Math.sin(angle), y - distance * Math.cos(angle)];
  };
  const hub = rays > 24 ? (rays * closest) / (2 * Math.PI) : 0;
  const lines: PathPart[] = [];
  const heads: PathPart[] = [];
  const numbers: Text[] = [];
  const names = rayNames(winding, rays, listed);
  for (let slot = 1; slot <= rays; slot++) {
    const angle = slotAngle(winding, slot);
    const tip = point(angle, ray);
    lines.push([...point(angle, hub), ...tip]);
    const head = rays <= 120 ? arrowHead(x, y, ...tip, 2) : null;
    if (head !== null) heads.push(head);
    const name = names[slot - 1]!;
    const [atX, atY] = point(angle, ray + 1 + textWidth(name, textSize) / 2);
    numbers.push(
      text(`star-slot-${slot}`, 'slot-number', atX, atY + 0.91, name, {
        anchor: 'middle',
        subject: { slot },
      }),
    );
  }
  const order = [...numbers].map((number, index) => ({ number, angle: slotAngle(winding, index + 1) }));
  order.sort((one, other) => one.angle - other.angle);
  const shown = thinnedTexts(order.map(({ number }) => number));
  const wide = ringWidth(winding);
  const start = radius - rings.length * wide;
  const drawn = rings.map((ring, index) =>
    drawRing(winding, rays, ring, start + index * wide, point, { x, y }),
  );
  const labels = clearTexts(
    drawn.flatMap(({ labels: each }) => each),
    shown,
  );
  return {
    items: [
      pathShape('star-rays', 'slot-phasor', lines),
      ...(heads.length > 0 ? [filledShape('star-heads', 'marker', heads)] : []),
      ...drawn.flatMap(({ sectors }) => sectors),
      ...shown,
      ...labels,
    ],
    radius,
    rings: rings.map(({ letters }) => letters),
  };
}

/** Number of different angles, and whether all slots of an angle are named. */
export function starNumbers(winding: Winding): {
  readonly rays: number;
  readonly alike: number;
  readonly listed: boolean;
} {
  const alike = greatestCommonDivisor(winding.slots, winding.polePairs);
  const rays = winding.slots / alike;
  return { rays, alike, listed: alike > 1 && alike <= 4 && rays <= 18 };
}

/** The slots of each angle, by their smallest number; where not listed, that number alone. */
function rayNames({ slots }: Winding, rays: number, listed: boolean): readonly string[] {
  return Array.from({ length: rays }, (_, index) => {
    if (!listed) return String(index + 1);
    const all: number[] = [];
    for (let slot = index + 1; slot <= slots; slot += rays) all.push(slot);
    return all.join(' ');
  });
}

/** Stretches of one phase and sense round the ring; slots of one angle share its place. */
function stretchesOf(winding: Winding, rays: number, layer: number): readonly Stretch[] {
  const { slots, table } = winding;
  const step = 360 / rays;
  const cells: Stretch[] = [];
  for (let slot = 1; slot <= rays; slot++) {
    const middle = slotAngle(winding, slot);
    const alike: number[] = [];
    for (let same = slot; same <= slots; same += rays) alike.push(cellAt(table, same, layer));
    const uniform = alike.every((cell) => cell === alike[0]);
    const shares = uniform ? [alike[0]!] : alike;
    const part = step / shares.length;
    shares.forEach((cell, index) => {
      const from = middle - step / 2 + index * part;
      cells.push({ cell, from, to: from + part });
    });
  }
  cells.sort((one, other) => one.from - other.from);
  return joinStretches(cells);
}

function joinStretches(cells: readonly Stretch[]): readonly Stretch[] {
  const joined: Stretch[] = [];
  for (const next of cells) {
    const last = joined.at(-1);
    if (last && last.cell === next.cell) joined[joined.length - 1] = { ...last, to: next.to };
    else joined.push(next);
  }
  const [first, last] = [joined[0], joined.at(-1)];
  if (first && last && joined.length > 1 && first.cell === last.cell) {
    joined.pop();
    joined[0] = { ...first, from: last.from - 360 };
  }
  return joined.filter(({ cell }) => cell !== 0);
}

type PointAt = (degrees: number, distance: number) => readonly [number, number];

function drawRing(
  winding: Winding,
  rays: number,
  { layer }: AlikeLayers,
  inner: number,
  point: PointAt,
  middle: { readonly x: number; readonly y: number },
): { readonly sectors: readonly Primitive[]; readonly labels: readonly Text[] } {
  const outer = inner + ringWidth(winding) - 0.5;
  const letter = layerLetter(layer);
  const labels: Text[] = [];
  const sectors = stretchesOf(winding, rays, layer).map(({ cell, from, to }, index): Primitive => {
    const phase = phaseOfCell(cell);
    const id = `sector-${letter}-${index + 1}`;
    const name = placeName(cell, winding.phases, printedSigns);
    const [atX, atY] = point((from + to) / 2, (inner + outer) / 2);
    const long = ((to - from) / 360) * 2 * Math.PI * inner;
    if (long > 2.2)
      labels.push(text(`${id}-name`, 'sector-name', atX, atY + 0.91, name, { anchor: 'middle', phase }));
    if (to - from >= 360 - 1e-9)
      return pathShape(id, 'sector', [circlePart(middle.x, middle.y, (inner + outer) / 2, 72)], { phase });
    return filledShape(id, 'sector', [bandPart(from, to, inner, outer, point)], { phase });
  });
  return { sectors, labels };
}

/** A piece of a ring, a hair narrower than its angle. */
function bandPart(from: number, to: number, inner: number, outer: number, point: PointAt): PathPart {
  const trim = Math.min(0.1 * (to - from), 10 / outer);
  const [start, end] = [from + trim, to - trim];
  const steps = Math.max(1, Math.ceil((end - start) / 4));
  const along = Array.from({ length: steps + 1 }, (_, step) => start + ((end - start) * step) / steps);
  return [
    ...along.flatMap((angle) => point(angle, outer)),
    ...[...along].reverse().flatMap((angle) => point(angle, inner)),
  ];
}
