import { finished, type Steps } from '../figures/steps.ts';
import { rootAttributes, toElement } from './element.ts';
import { printable } from './fontMetrics.ts';
import { numberText } from './numberText.ts';
import type { Picture, Primitive } from './picture.ts';
import { paperColor } from './roleStyle.ts';

/** The picture as one self-contained SVG document (SVG 1.1 and 2), black and colors on white, sized in millimeters. */
export function pictureToSvg(picture: Picture): string {
  return finished(svgSteps(picture));
}

/** Lines from one step to the next. */
const linesAtOnce = 1000;

/** The same in steps. */
export function* svgSteps(picture: Picture): Steps<string> {
  const width = numberText(picture.width);
  const height = numberText(picture.height);
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}"` +
      ` role="img" aria-labelledby="picture-title picture-description"${attributeText(rootAttributes)}>`,
    `<title id="picture-title">${escapeText(picture.title)}</title>`,
    `<desc id="picture-description">${escapeText(picture.description)}</desc>`,
    `<rect class="paper" width="${width}" height="${height}" fill="${paperColor}"/>`,
  ];
  const chunks: string[] = [];
  for (const item of picture.items) yield* writePrimitive(item, lines, chunks);
  lines.push('</svg>', '');
  return [...chunks, ...lines].join('\n');
}

function* writePrimitive(primitive: Primitive, lines: string[], chunks: string[]): Steps<void> {
  const { tag, attributes, text, children } = toElement(primitive);
  const start = `<${tag}${attributeText(attributes)}`;
  if (text !== undefined) lines.push(`${start}>${escapeText(text)}</${tag}>`);
  else if (children === undefined) lines.push(`${start}/>`);
  else {
    lines.push(`${start}>`);
    for (const child of children) yield* writePrimitive(child, lines, chunks);
    lines.push(`</${tag}>`);
  }
  if (lines.length < linesAtOnce) return;
  chunks.push(lines.splice(0).join('\n'));
  yield;
}

function attributeText(attributes: Readonly<Record<string, string>>): string {
  let text = '';
  for (const name in attributes) text += ` ${name}="${escapeText(attributes[name]!)}"`;
  return text;
}

const special = /[&<>"]|[^\u0020-\u007e]/;

/** Text for element content and for attribute values in double quotes. */
function escapeText(text: string): string {
  if (!special.test(text)) return text;
  return printable(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
