import { printable } from './fontMetrics.ts';
import { fontName } from './fontTable.ts';
import { numberText } from './numberText.ts';
import { phaseStyle } from './phaseStyle.ts';
import type { Arc, PathShape, Primitive, Subject } from './picture.ts';
import { fadedOpacity, type Ink, inkColors, roleStyles, strongWidening } from './roleStyle.ts';

/** One SVG element as data: the same for the text writer and for live drawing. */
export interface SvgElement {
  readonly tag: 'path' | 'circle' | 'line' | 'polyline' | 'polygon' | 'text' | 'g';
  /** In the order of writing; values are not yet escaped. */
  readonly attributes: Readonly<Record<string, string>>;
  readonly text?: string;
  readonly children?: readonly Primitive[];
}

/** Attributes of the root element that all primitives of a picture rely on. */
export const rootAttributes = {
  'font-family': `'${fontName}', 'DejaVu Sans', 'Liberation Sans', Arial, sans-serif`,
  'font-stretch': 'condensed',
  'stroke-linejoin': 'round',
} as const;

/** The name of a primitive's element; throws RangeError for an unknown kind. */
export function elementTag(primitive: Primitive): SvgElement['tag'] {
  switch (primitive.kind) {
    case 'arc':
      return isCircle(primitive) ? 'circle' : 'path';
    case 'group':
      return 'g';
    case 'path':
    case 'text':
    case 'line':
    case 'polyline':
    case 'polygon':
      return primitive.kind;
    default:
      throw new RangeError(`A picture has no primitive of kind ${(primitive as Primitive).kind}`);
  }
}

/**
 * The SVG element of a primitive: presentation attributes and classes only, since style attributes are refused by a
 * strict content security policy. Classes are the role (`ROLE-group` for a group), `phase-N` (from 0), `path-N`
 * (from 1) and `strong` or `faded`. Throws RangeError for a number that is not finite and for an unknown kind.
 */
export function toElement(primitive: Primitive): SvgElement {
  switch (primitive.kind) {
    case 'path':
      return pathElement(primitive);
    case 'text':
      return textElement(primitive);
    case 'line':
      return shape(primitive, {
        x1: numberText(primitive.x1),
        y1: numberText(primitive.y1),
        x2: numberText(primitive.x2),
        y2: numberText(primitive.y2),
      });
    case 'polyline':
    case 'polygon':
      return shape(primitive, { points: pointList(primitive.points) });
    case 'arc':
      return arcElement(primitive);
    case 'group':
      return { tag: elementTag(primitive), attributes: common(primitive), children: primitive.items };
    default:
      throw new RangeError(`A picture has no primitive of kind ${(primitive as Primitive).kind}`);
  }
}

function pathElement(primitive: PathShape): SvgElement {
  let d = '';
  for (const points of primitive.parts) {
    for (let index = 0; index + 1 < points.length; index += 2)
      d += `${index === 0 ? 'M' : 'L'}${numberText(points[index]!)} ${numberText(points[index + 1]!)}`;
    if (primitive.filled) d += 'Z';
  }
  return shape(primitive, { d });
}

function pointList(points: readonly number[]): string {
  let text = '';
  for (let index = 0; index + 1 < points.length; index += 2)
    text += `${index === 0 ? '' : ' '}${numberText(points[index]!)},${numberText(points[index + 1]!)}`;
  return text;
}

function arcElement(arc: Arc): SvgElement {
  const { x, y, radius, from, to } = arc;
  if (isCircle(arc)) return shape(arc, { cx: numberText(x), cy: numberText(y), r: numberText(radius) });
  const point = (degrees: number): string => {
    const angle = (degrees * Math.PI) / 180;
    return `${numberText(x + radius * Math.cos(angle))} ${numberText(y + radius * Math.sin(angle))}`;
  };
  const large = Math.abs(to - from) > 180 ? 1 : 0;
  const r = numberText(radius);
  return shape(arc, {
    d: `M${point(from)}A${r} ${r} 0 ${large} ${to > from ? 1 : 0} ${point(to)}`,
  });
}

function isCircle({ from, to }: Arc): boolean {
  return Math.abs(to - from) >= 360;
}

function textElement(primitive: Extract<Primitive, { kind: 'text' }>): SvgElement {
  const { x, y, text, size, anchor, width, angle } = primitive;
  const attributes = common(primitive);
  attributes.x = numberText(x);
  attributes.y = numberText(y);
  attributes['font-size'] = numberText(size);
  if (anchor !== 'start') attributes['text-anchor'] = anchor;
  if (roleStyles[primitive.role].bold) attributes['font-weight'] = 'bold';
  if (angle !== undefined && angle !== 0)
    attributes.transform = `rotate(${numberText(angle)} ${numberText(x)} ${numberText(y)})`;
  // Holds the width in any font, so that texts that do not overlap here never do.
  attributes.textLength = numberText(width);
  attributes.lengthAdjust = 'spacingAndGlyphs';
  attributes.fill = inkOf(primitive, roleStyles[primitive.role].stroke);
  fade(primitive, attributes);
  return { tag: elementTag(primitive), attributes, text: printable(text) };
}

type Attributes = Record<string, string>;

function shape(primitive: Primitive, geometry: Readonly<Attributes>): SvgElement {
  const filled = primitive.kind === 'polygon' || (primitive.kind === 'path' && primitive.filled);
  const style = roleStyles[primitive.role];
  const color = inkOf(primitive, style.stroke);
  const attributes = Object.assign(common(primitive), geometry);
  attributes.fill = filled ? color : 'none';
  if (filled && style.fillOpacity !== undefined) attributes['fill-opacity'] = numberText(style.fillOpacity);
  if (style.width > 0) {
    const widening = primitive.emphasis === 'strong' ? strongWidening : 1;
    attributes.stroke = color;
    attributes['stroke-width'] = numberText(style.width * widening);
    const dashes = style.dashes ?? (primitive.phase === undefined ? [] : phaseStyle(primitive.phase).dashes);
    if (dashes.length > 0 && !filled)
      attributes['stroke-dasharray'] = dashes.map((length) => numberText(length)).join(' ');
  }
  fade(primitive, attributes);
  return { tag: elementTag(primitive), attributes };
}

function inkOf(primitive: Primitive, ink: Ink): string {
  if (ink !== 'phase') return inkColors[ink];
  return primitive.phase === undefined ? inkColors.ink : phaseStyle(primitive.phase).color;
}

function fade(primitive: Primitive, attributes: Attributes): void {
  if (primitive.emphasis === 'faded') attributes.opacity = numberText(fadedOpacity);
}

function common(primitive: Primitive): Attributes {
  const { role, phase, path, emphasis } = primitive;
  let classes: string = primitive.kind === 'group' ? `${role}-group` : role;
  if (phase !== undefined) classes += ` phase-${phase}`;
  if (path !== undefined) classes += ` path-${path}`;
  if (emphasis !== undefined) classes += ` ${emphasis}`;
  const attributes: Attributes = { id: primitive.id, class: classes };
  if (primitive.subject !== undefined) addSubject(primitive.subject, attributes);
  return attributes;
}

function addSubject(subject: Subject, attributes: Attributes): void {
  for (const [name, value] of Object.entries(subject)) attributes[`data-${name}`] = String(value);
}
