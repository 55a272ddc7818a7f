import type { Primitive } from './picture.ts';

/**
 * Whether two primitives look the same and stand for the same thing. Of groups only the group itself is compared,
 * not its items.
 */
export function samePrimitive(one: Primitive, other: Primitive): boolean {
  if (one === other) return true;
  if (
    one.id !== other.id ||
    one.role !== other.role ||
    one.phase !== other.phase ||
    one.path !== other.path ||
    one.emphasis !== other.emphasis ||
    one.source !== other.source ||
    one.shownFrom !== other.shownFrom ||
    !sameValue(one.subject, other.subject)
  )
    return false;
  return sameShape(one, other);
}

function sameShape(one: Primitive, other: Primitive): boolean {
  switch (one.kind) {
    case 'path':
      return other.kind === 'path' && one.filled === other.filled && sameParts(one.parts, other.parts);
    case 'text':
      return (
        other.kind === 'text' &&
        one.x === other.x &&
        one.y === other.y &&
        one.text === other.text &&
        one.size === other.size &&
        one.anchor === other.anchor &&
        one.width === other.width &&
        one.angle === other.angle
      );
    case 'polyline':
    case 'polygon':
      return other.kind === one.kind && sameNumbers(one.points, other.points);
    case 'line':
      return (
        other.kind === 'line' &&
        one.x1 === other.x1 &&
        one.y1 === other.y1 &&
        one.x2 === other.x2 &&
        one.y2 === other.y2
      );
    case 'arc':
      return (
        other.kind === 'arc' &&
        one.x === other.x &&
        one.y === other.y &&
        one.radius === other.radius &&
        one.from === other.from &&
        one.to === other.to
      );
    case 'group':
      return other.kind === 'group';
  }
}

function sameParts(one: readonly (readonly number[])[], other: readonly (readonly number[])[]): boolean {
  return one.length === other.length && one.every((points, index) => sameNumbers(points, other[index]!));
}

function sameNumbers(one: readonly number[], other: readonly number[]): boolean {
  if (one.length !== other.length) return false;
  for (let index = 0; index < one.length; index++) if (one[index] !== other[index]) return false;
  return true;
}

/** Subjects: flat records of strings and numbers. */
function sameValue(one: object | undefined, other: object | undefined): boolean {
  if (one === undefined || other === undefined) return one === other;
  const [mine, theirs] = [
    one as Readonly<Record<string, unknown>>,
    other as Readonly<Record<string, unknown>>,
  ];
  for (const name in mine) if (mine[name] !== theirs[name]) return false;
  for (const name in theirs) if (!(name in mine)) return false;
  return true;
}
