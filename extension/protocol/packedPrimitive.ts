import type { Emphasis, Primitive, Role, Subject, Text } from '../../core/picture/picture.ts';
import { roleStyles } from '../../core/picture/roleStyle.ts';
import { samePrimitive } from '../../core/picture/samePrimitive.ts';
import { followList, type ItemRule, listChange, type ReadItem } from './listChange.ts';

// A primitive travels as a list: kind, id, role, shape, and what it may carry besides, up to the last that it
// carries. Lengths are rounded to the micrometer, as every drawing writes them. Of a group that stays itself only
// the change of its items travels, as { items }.

/** A primitive as it is sent; written by `packPrimitive`, read by `readPrimitive`. */
export type PackedPrimitive = readonly unknown[];

const kinds = ['line', 'polyline', 'path', 'arc', 'polygon', 'text', 'group'] as const;
const anchors: readonly Text['anchor'][] = ['start', 'middle', 'end'];
const emphases: readonly Emphasis[] = ['strong', 'faded'];
const roles = Object.keys(roleStyles) as readonly Role[];
const roleNumbers = new Map(roles.map((role, index) => [role, index]));

/** How primitives are told apart and sent: by their ids, which are unique in a picture. */
export const primitiveRule: ItemRule<Primitive> = {
  key: ({ id }) => id,
  pack: packPrimitive,
  change: (before, item) => {
    if (before === item) return null;
    if (!samePrimitive(before, item)) return undefined;
    if (before.kind !== 'group' || item.kind !== 'group') return null;
    const items = listChange(before.items, item.items, primitiveRule);
    return items === null ? null : { items };
  },
};

/** Everything of a primitive. */
export function packPrimitive(primitive: Primitive): PackedPrimitive {
  return [
    kinds.indexOf(primitive.kind),
    primitive.id,
    roleNumbers.get(primitive.role),
    ...packedShape(primitive),
    ...packedExtras(primitive),
  ];
}

/** Reads one step of a change of primitives; null where it is none. */
function readPrimitive(step: unknown, next: Primitive | undefined): ReadItem<Primitive> | null {
  if (Array.isArray(step)) {
    const item = unpacked(step);
    return item && { item, takesNext: false };
  }
  if (typeof step !== 'object' || step === null || next?.kind !== 'group') return null;
  const items = followPrimitives(next.items, (step as { readonly items?: unknown }).items);
  return items && { item: { ...next, items }, takesNext: true };
}

/** The primitives that follow from those before; null where the change does not fit. */
export function followPrimitives(before: readonly Primitive[], change: unknown): readonly Primitive[] | null {
  return followList(before, change, readPrimitive);
}

function rounded(length: number): number {
  return Math.round(length * 1000) / 1000;
}

function packedShape(primitive: Primitive): readonly unknown[] {
  switch (primitive.kind) {
    case 'line':
      return [primitive.x1, primitive.y1, primitive.x2, primitive.y2].map(rounded);
    case 'polyline':
    case 'polygon':
      return [primitive.points.map(rounded)];
    case 'path':
      return [primitive.parts.map((part) => part.map(rounded)), primitive.filled ? 1 : 0];
    case 'arc':
      // Degrees of a large arc need more digits than lengths.
      return [...[primitive.x, primitive.y, primitive.radius].map(rounded), primitive.from, primitive.to];
    case 'text': {
      const { x, y, text, size, anchor, width, angle } = primitive;
      return [rounded(x), rounded(y), text, size, anchors.indexOf(anchor), rounded(width), angle ?? 0];
    }
    case 'group':
      return [primitive.items.map(packPrimitive)];
  }
}

function packedExtras({ subject, phase, path, source, emphasis, shownFrom }: Primitive): readonly unknown[] {
  const extras: unknown[] = [
    subject ?? 0,
    phase ?? -1,
    path ?? -1,
    source ?? '',
    emphasis === undefined ? -1 : emphases.indexOf(emphasis),
    shownFrom ?? 0,
  ];
  while (extras.length > 0 && extras.at(-1) === absent[extras.length - 1]) extras.pop();
  return extras;
}

/** What stands for an extra that a primitive does not carry. */
const absent: readonly unknown[] = [0, -1, -1, '', -1, 0];

const shapeLengths: Readonly<Record<Primitive['kind'], number>> = {
  line: 4,
  polyline: 1,
  path: 2,
  arc: 5,
  polygon: 1,
  text: 7,
  group: 1,
};

function unpacked(packed: PackedPrimitive): Primitive | null {
  const [kindNumber, id, roleNumber] = packed;
  const kind = kinds[Number(kindNumber)];
  const role = roles[Number(roleNumber)];
  if (kind === undefined || role === undefined || typeof id !== 'string') return null;
  const end = 3 + shapeLengths[kind];
  const shape = readShape(kind, packed.slice(3, end));
  const extras = readExtras(packed.slice(end));
  return shape && extras && ({ kind, id, role, ...extras, ...shape } as Primitive);
}

function readShape(kind: Primitive['kind'], shape: readonly unknown[]): object | null {
  const [a, b, c, d, e, f, g] = shape;
  switch (kind) {
    case 'line':
      return areNumbers(shape) && shape.length === 4 ? { x1: a, y1: b, x2: c, y2: d } : null;
    case 'polyline':
    case 'polygon':
      return areNumbers(a) ? { points: a } : null;
    case 'path':
      return Array.isArray(a) && a.every(areNumbers) && (b === 0 || b === 1)
        ? { parts: a, filled: b === 1 }
        : null;
    case 'arc':
      return areNumbers(shape) && shape.length === 5 ? { x: a, y: b, radius: c, from: d, to: e } : null;
    case 'text': {
      const anchor = anchors[Number(e)];
      if (!areNumbers([a, b, d, f, g]) || typeof c !== 'string' || anchor === undefined) return null;
      return { x: a, y: b, text: c, size: d, anchor, width: f, ...(g === 0 ? {} : { angle: g }) };
    }
    case 'group': {
      const items = followPrimitives([], a);
      return items && { items };
    }
  }
}

function readExtras(extras: readonly unknown[]): object | null {
  const [subject, phase, path, source, emphasis, shownFrom] = absent.map(
    (value, index) => extras[index] ?? value,
  );
  const good =
    extras.length <= absent.length &&
    (subject === 0 || isSubject(subject)) &&
    areNumbers([phase, path, emphasis, shownFrom]) &&
    typeof source === 'string' &&
    Number(emphasis) < emphases.length;
  if (!good) return null;
  return {
    ...(subject === 0 ? {} : { subject }),
    ...(phase === -1 ? {} : { phase }),
    ...(path === -1 ? {} : { path }),
    ...(source === '' ? {} : { source }),
    ...(emphasis === -1 ? {} : { emphasis: emphases[Number(emphasis)] }),
    ...(shownFrom === 0 ? {} : { shownFrom }),
  };
}

function areNumbers(value: unknown): value is readonly number[] {
  return Array.isArray(value) && value.every((one) => typeof one === 'number' && Number.isFinite(one));
}

/** A flat record of texts and whole numbers. */
function isSubject(value: unknown): value is Subject {
  if (typeof value !== 'object' || value === null) return false;
  return Object.values(value).every((one) => typeof one === 'string' || Number.isInteger(one));
}
