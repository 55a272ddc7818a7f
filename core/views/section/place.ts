import type { PathPart } from '../../picture/picture.ts';
import type { SectionShape } from '../../sizes/slotShape/shape.ts';

/** Where one row (or the circle) of slots lies on paper. */
export interface SectionPlace {
  /** Position in slot pitches from the first slot's middle, millimeters across and outwards. */
  readonly at: (position: number, across: number, outwards: number) => readonly [number, number];
  /** A line at one distance from the axis, between two places. */
  readonly along: (
    outwards: number,
    from: { readonly position: number; readonly across: number },
    to: { readonly position: number; readonly across: number },
  ) => PathPart;
  /** First slot and number of slots. */
  readonly first: number;
  readonly count: number;
  /** The row is the whole circle. */
  readonly closed: boolean;
}

/** Places of all rows, and the paper they take. */
export interface SectionPlaces {
  readonly places: readonly SectionPlace[];
  readonly width: number;
  readonly bottom: number;
  /** The lowest place that anything takes within so many millimeters to either side of the middle. */
  readonly lowestAbove: (half: number) => number;
}

/** Room beyond the core for slot numbers and for names of gaps, in millimeters of paper. */
const beyond = ({ outerEnd }: SectionShape): number => (outerEnd === 'gap' ? 10 : 5);
const below = ({ innerEnd }: SectionShape): number => (innerEnd === 'gap' ? 6 : 2);
const beside = 7;

/** How a sector or circle is laid on paper. */
export interface RoundLayout {
  /** Slot pitch in radians, and the number of slots. */
  readonly angle: number;
  readonly count: number;
  /** The slots are the whole circle. */
  readonly closed: boolean;
  /** Paper over machine. */
  readonly scale: number;
  readonly corner: { readonly left: number; readonly top: number };
  /** Most radians of an arc that one straight line stands for. */
  readonly chord: number;
}

/** A sector or circle, its middle at the top, slot numbers clockwise. */
export function roundPlaces(
  shape: SectionShape,
  { angle, count, closed, scale, corner, chord }: RoundLayout,
): SectionPlaces {
  const half = Math.min(Math.PI, (angle * count) / 2);
  const reach = shape.outer * scale + beyond(shape);
  const side = reach * Math.sin(Math.min(half, Math.PI / 2)) + (half < Math.PI / 2 ? beside : 0);
  const centerX = corner.left + side;
  const centerY = corner.top + reach;
  // The lowest point: an end of the inner or of the outer line.
  const low =
    half > Math.PI / 2 ? -reach * Math.cos(half) : -(shape.inner * scale - below(shape)) * Math.cos(half);
  const start = -(angle * (count - 1)) / 2;
  const at: SectionPlace['at'] = (position, across, outwards) => {
    const turn = start + position * angle;
    const [sin, cos] = [Math.sin(turn), Math.cos(turn)];
    return [
      centerX + scale * (across * cos + outwards * sin),
      centerY + scale * (across * sin - outwards * cos),
    ];
  };
  const along: SectionPlace['along'] = (outwards, from, to) => {
    // On the circle, a place `across` from a radius lies further round.
    const turnOf = (place: { position: number; across: number }) =>
      place.position * angle + Math.asin(Math.max(-1, Math.min(1, place.across / outwards)));
    const [one, other] = [turnOf(from), turnOf(to)];
    const steps = Math.max(1, Math.ceil(Math.abs(other - one) / chord));
    return Array.from({ length: steps + 1 }, (_, step) =>
      at((one + ((other - one) * step) / steps) / angle, 0, outwards),
    ).flat();
  };
  return {
    places: [{ at, along, first: 1, count, closed }],
    width: 2 * side,
    bottom: centerY + Math.max(low, -(shape.inner * scale - below(shape))) + (closed ? 0 : 3),
    lowestAbove: (reached) => {
      const radius = shape.inner * scale;
      if (closed || reached >= radius) return Infinity;
      return centerY + below(shape) - Math.sqrt(radius ** 2 - reached ** 2);
    },
  };
}

/** Slots side by side, the gap drawn straight; `origin` is where the first one's middle meets the inner end. */
export function straightPlace(
  shape: SectionShape,
  pitch: number,
  scale: number,
  [left, base]: readonly [number, number],
  { first, count }: Pick<SectionPlace, 'first' | 'count'>,
): SectionPlace {
  const at: SectionPlace['at'] = (position, across, outwards) => [
    left + scale * (position * pitch + across),
    base - scale * (outwards - shape.inner),
  ];
  const along: SectionPlace['along'] = (outwards, from, to) => [
    ...at(from.position, from.across, outwards),
    ...at(to.position, to.across, outwards),
  ];
  return { at, along, first, count, closed: false };
}

/** Straight rows of slots, one below the other. */
export function straightPlaces(
  shape: SectionShape,
  pitch: number,
  count: number,
  perRow: number,
  scale: number,
  corner: { readonly left: number; readonly top: number },
): SectionPlaces {
  const rows = Math.ceil(count / perRow);
  const depth = (shape.outer - shape.inner) * scale;
  const height = depth + beyond(shape) + below(shape) + 3;
  const places = Array.from({ length: rows }, (_, row): SectionPlace => {
    const base = corner.top + beyond(shape) + row * height + depth;
    const left = corner.left + beside + (pitch * scale) / 2;
    const slots = { first: row * perRow + 1, count: Math.min(perRow, count - row * perRow) };
    return straightPlace(shape, pitch, scale, [left, base], slots);
  });
  return {
    places,
    width: 2 * beside + pitch * scale * Math.min(perRow, count),
    bottom: corner.top + rows * height - 3,
    lowestAbove: () => Infinity,
  };
}
