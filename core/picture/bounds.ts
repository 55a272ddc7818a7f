import { ascent, descent } from './fontMetrics.ts';
import type { Primitive, Text } from './picture.ts';
import { roleStyles, strongWidening } from './roleStyle.ts';

/** A box with sides parallel to the axes, in millimeters from the top left of the picture: right of it and down. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The box of a line of text from its font's ascent to its descent, turned texts in the box round them. */
export function textBox(text: Text): Box {
  const { x, y, width, size, anchor, angle = 0 } = text;
  const left = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width;
  if (angle === 0)
    return {
      left: x + left,
      top: y - ascent * size,
      right: x + (left + width),
      bottom: y + descent * size,
    };
  const turn = (angle * Math.PI) / 180;
  const xs: number[] = [];
  const ys: number[] = [];
  for (const across of [left, left + width])
    for (const down of [-ascent * size, descent * size]) {
      xs.push(x + across * Math.cos(turn) - down * Math.sin(turn));
      ys.push(y + across * Math.sin(turn) + down * Math.cos(turn));
    }
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}

/** The box round a primitive with its line width, or null for one that draws nothing (an empty group). */
export function primitiveBox(primitive: Primitive): Box | null {
  switch (primitive.kind) {
    case 'text':
      return textBox(primitive);
    case 'line':
      return pointsBox([primitive.x1, primitive.y1, primitive.x2, primitive.y2], primitive);
    case 'polyline':
    case 'polygon':
      return pointsBox(primitive.points, primitive);
    case 'path':
      return joined(primitive.parts.map((part) => pointsBox(part, primitive)));
    case 'arc': {
      // The whole circle: never too small.
      const { x, y, radius } = primitive;
      return pointsBox([x - radius, y - radius, x + radius, y + radius], primitive);
    }
    case 'group':
      return joined(primitive.items.map(primitiveBox));
  }
}

function pointsBox(points: readonly number[], primitive: Primitive): Box | null {
  if (points.length < 2) return null;
  const width = roleStyles[primitive.role].width * (primitive.emphasis === 'strong' ? strongWidening : 1);
  const box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  for (let index = 0; index + 1 < points.length; index += 2) {
    box.left = Math.min(box.left, points[index]! - width / 2);
    box.right = Math.max(box.right, points[index]! + width / 2);
    box.top = Math.min(box.top, points[index + 1]! - width / 2);
    box.bottom = Math.max(box.bottom, points[index + 1]! + width / 2);
  }
  return box;
}

function joined(boxes: readonly (Box | null)[]): Box | null {
  return boxes.reduce((all, box) => {
    if (all === null || box === null) return all ?? box;
    return {
      left: Math.min(all.left, box.left),
      top: Math.min(all.top, box.top),
      right: Math.max(all.right, box.right),
      bottom: Math.max(all.bottom, box.bottom),
    };
  }, null);
}
