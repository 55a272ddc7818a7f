import type { PDFDocument } from 'pdfkit';
import { hasGlyph, printable, textWidth } from '../fontMetrics.ts';
import type { Leaf } from '../leaves.ts';
import { type PaintStyle, paintStyle } from '../paintStyle.ts';
import type { Arc, Text } from '../picture.ts';

/** The name under which the document knows its one font. */
export const pdfFontName = 'drawing';

/** The outline of bold text, in em: the font is embedded in one weight only. */
const boldStroke = 0.04;

/** A length to a tenth of a micrometer. Throws RangeError where it is not finite or beyond 1e6 mm. */
export function millimeters(length: number): number {
  if (!(Math.abs(length) < 1e6))
    throw new RangeError(`A page cannot hold the length ${length} mm (limit 1e6 mm)`);
  return Math.round(length * 1e4) / 1e4;
}

/** Draws a primitive on the document's last page, whose units are millimeters from the top left. */
export function drawOnPage(document: PDFDocument, primitive: Leaf): void {
  const style = paintStyle(primitive);
  if (style.opacity < 1) document.save().opacity(style.opacity);
  if (primitive.kind === 'text') drawText(document, primitive, style);
  else drawShape(document, primitive, style);
  if (style.opacity < 1) document.restore();
}

type Shape = Exclude<Leaf, Text>;

function drawShape(document: PDFDocument, shape: Shape, style: PaintStyle): void {
  const filled = shape.kind === 'polygon' || (shape.kind === 'path' && shape.filled);
  if (!filled && style.width === 0) return;
  const tinted = filled && style.fillOpacity < 1;
  if (tinted) document.save().fillOpacity(style.opacity * style.fillOpacity);
  if (filled) document.fillColor(style.color);
  if (style.width > 0) {
    document.strokeColor(style.color).lineWidth(millimeters(style.width));
    if (style.dashes.length > 0 && !filled) document.dash(style.dashes);
    else document.undash();
  }
  tracePath(document, shape);
  if (!filled) document.stroke();
  else if (style.width > 0) document.fillAndStroke();
  else document.fill();
  if (tinted) document.restore();
}

function tracePath(document: PDFDocument, shape: Shape): void {
  if (shape.kind === 'arc') traceArc(document, shape);
  else if (shape.kind === 'line') traceRun(document, [shape.x1, shape.y1, shape.x2, shape.y2], false);
  else if (shape.kind === 'path') for (const part of shape.parts) traceRun(document, part, shape.filled);
  else traceRun(document, shape.points, shape.kind === 'polygon');
}

function traceRun(document: PDFDocument, points: readonly number[], closed: boolean): void {
  for (let index = 0; index + 1 < points.length; index += 2) {
    const [x, y] = [millimeters(points[index]!), millimeters(points[index + 1]!)];
    if (index === 0) document.moveTo(x, y);
    else document.lineTo(x, y);
  }
  if (closed && points.length >= 2) document.closePath();
}

function traceArc(document: PDFDocument, arc: Arc): void {
  const [x, y, radius] = [millimeters(arc.x), millimeters(arc.y), millimeters(arc.radius)];
  if (Math.abs(arc.to - arc.from) >= 360) document.circle(x, y, radius);
  else {
    const [from, to] = [arc.from, arc.to].map((degrees) => (degrees * Math.PI) / 180) as [number, number];
    document.arc(x, y, radius, from, to, to < from);
  }
}

/**
 * One line of text within exactly its width. Characters that the font lacks are shown as U+FFFD; their
 * text stays in the file for search and reading aloud (as ActualText).
 */
function drawText(document: PDFDocument, text: Text, style: PaintStyle): void {
  const words = printable(text.text);
  const shown = [...words].map((character) => (hasGlyph(character) ? character : '\ufffd')).join('');
  const width = textWidth(shown, text.size);
  if (width === 0) return;
  const angle = text.angle ?? 0;
  const [x, y] = [millimeters(text.x), millimeters(text.y)];
  if (angle !== 0) document.save().rotate(angle, { origin: [x, y] });
  document.fontSize(text.size).fillColor(style.color);
  if (style.bold)
    document
      .strokeColor(style.color)
      .lineWidth(millimeters(boldStroke * text.size))
      .undash();
  if (shown !== words) document.markContent('Span', { actual: words });
  document.text(shown, millimeters(x - anchorShare[text.anchor] * text.width), y, {
    lineBreak: false,
    baseline: 'alphabetic',
    fill: style.bold,
    stroke: style.bold,
    horizontalScaling: Math.round((1e6 * text.width) / width) / 1e4,
  });
  if (shown !== words) document.endMarkedContent();
  if (angle !== 0) document.restore();
}

/** How much of a text lies left of its place. */
const anchorShare = { start: 0, middle: 0.5, end: 1 } as const;
