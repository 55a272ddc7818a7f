import { withBuiltInsKept } from '../support/builtIns.ts';

/** The part of pdf.js that reads, which would else be loaded with the first file; it comes without types. */
const reader = 'pdfjs-dist/legacy/build/pdf.worker.mjs';

const { getDocument, OPS } = await withBuiltInsKept(async () => {
  await import(reader);
  return import('pdfjs-dist/legacy/build/pdf.mjs');
});

const millimetersPerPoint = 25.4 / 72;

/** A line of text; millimeters from the page's top left. */
export interface ReadText {
  readonly words: string;
  /** The start of the base line. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly size: number;
}

/** A painted path: the pens it is painted with. */
export interface ReadPath {
  readonly paint: 'stroke' | 'fill' | 'both';
  readonly stroke: string;
  readonly fill: string;
  readonly width: number;
  readonly dashes: readonly number[];
  readonly fillOpacity: number;
  /** In the units of the drawing: x, y, x, y ... of the points moved to and drawn to. */
  readonly points: readonly number[];
}

export interface ReadPage {
  readonly width: number;
  readonly height: number;
  /** All its text, as a viewer would copy it. */
  readonly selectable: string;
  readonly texts: readonly ReadText[];
  readonly paths: readonly ReadPath[];
}

export interface ReadPdf {
  readonly pages: readonly ReadPage[];
  readonly info: Readonly<Record<string, unknown>>;
  /** From the XMP metadata. */
  readonly xmpTitle: string | null;
  /** Title and page number (from 1) of every bookmark. */
  readonly bookmarks: readonly (readonly [string, number])[];
}

type Document = Awaited<ReturnType<typeof getDocument>['promise']>;
type Page = Awaited<ReturnType<Document['getPage']>>;

/** Reads a PDF file with pdf.js; throws where it is broken. */
export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const task = getDocument({ data: bytes.slice(), verbosity: 0, stopAtErrors: true });
  const document = await task.promise;
  const pages: ReadPage[] = [];
  for (let number = 1; number <= document.numPages; number++)
    pages.push(await readPage(await document.getPage(number)));
  const { info, metadata } = await document.getMetadata();
  const bookmarks = await Promise.all(
    ((await document.getOutline()) ?? []).map(
      async ({ title, dest }) =>
        [title, (await document.getPageIndex((dest as unknown as [never])[0])) + 1] as const,
    ),
  );
  await task.destroy();
  return {
    pages,
    info: info as Record<string, unknown>,
    xmpTitle: metadata?.get('dc:title') ?? null,
    bookmarks,
  };
}

async function readPage(page: Page): Promise<ReadPage> {
  const [left, bottom, right, top] = page.view as [number, number, number, number];
  const scale = page.userUnit * millimetersPerPoint;
  const { items } = await page.getTextContent({ disableNormalization: true });
  const drawn = await readOperators(page);
  return {
    width: (right - left) * scale,
    height: (top - bottom) * scale,
    selectable: items.map((item) => ('str' in item ? `${item.str}${item.hasEOL ? '\n' : ''}` : '')).join(''),
    paths: drawn.paths,
    texts: drawn.texts.map((text) => ({
      words: text.words,
      x: (text.x - left) * scale,
      y: (top - text.y) * scale,
      width: text.width * scale,
      size: text.size * scale,
    })),
  };
}

type Matrix = readonly [number, number, number, number, number, number];

/** What is drawn after `inner` when `outer` already applies (ISO 32000-1, 8.3.4). */
function times(inner: Matrix, outer: Matrix): Matrix {
  const [a, b, c, d, e, f] = inner;
  const [A, B, C, D, E, F] = outer;
  return [a * A + b * C, a * B + b * D, c * A + d * C, c * B + d * D, e * A + f * C + E, e * B + f * D + F];
}

interface Pen {
  readonly stroke: string;
  readonly fill: string;
  readonly width: number;
  readonly dashes: readonly number[];
  readonly fillOpacity: number;
  readonly matrix: Matrix;
  readonly fontSize: number;
  /** Horizontal scale of text, 1: as it is. */
  readonly stretch: number;
}

const firstPen: Pen = {
  stroke: '#000000',
  fill: '#000000',
  width: 1,
  dashes: [],
  fillOpacity: 1,
  matrix: [1, 0, 0, 1, 0, 0],
  fontSize: 0,
  stretch: 1,
};

const paints = new Map<number, ReadPath['paint']>([
  [OPS.stroke, 'stroke'],
  [OPS.fill, 'fill'],
  [OPS.fillStroke, 'both'],
]);

type Given = Readonly<Record<number, never>>;

/** How an operator changes the pen; undefined for one that does not. */
const penChanges = new Map<number, (pen: Pen, given: Given) => Partial<Pen>>([
  [OPS.setStrokeRGBColor, (_, given) => ({ stroke: given[0]! })],
  [OPS.setFillRGBColor, (_, given) => ({ fill: given[0]! })],
  [OPS.setLineWidth, (_, given) => ({ width: given[0]! })],
  [OPS.setDash, (_, given) => ({ dashes: given[0]! })],
  [
    OPS.setGState,
    (pen, given) => ({
      fillOpacity: new Map(given[0] as unknown as [string, number][]).get('ca') ?? pen.fillOpacity,
    }),
  ],
  [OPS.transform, (pen, given) => ({ matrix: times(given as unknown as Matrix, pen.matrix) })],
  [OPS.setFont, (_, given) => ({ fontSize: given[1]! })],
  [OPS.setHScale, (_, given) => ({ stretch: given[0]! / 100 })],
]);

interface Glyph {
  readonly unicode: string;
  readonly width: number;
}

async function readOperators(page: Page): Promise<Pick<ReadPage, 'paths' | 'texts'>> {
  const { fnArray, argsArray } = await page.getOperatorList();
  const saved: Pen[] = [];
  const paths: ReadPath[] = [];
  const texts: ReadText[] = [];
  let pen = firstPen;
  let line: Matrix = [1, 0, 0, 1, 0, 0];
  for (const [index, operator] of fnArray.entries()) {
    const given = argsArray[index];
    const change = penChanges.get(operator);
    if (change) pen = { ...pen, ...change(pen, given) };
    else if (operator === OPS.save) saved.push(pen);
    else if (operator === OPS.restore) pen = saved.pop() ?? pen;
    else if (operator === OPS.setTextMatrix) line = Object.values(given[0] as object) as unknown as Matrix;
    else if (operator === OPS.showText) texts.push(readText(given[0], pen, times(line, pen.matrix)));
    else if (operator === OPS.constructPath) {
      const paint = paints.get(given[0]);
      if (paint === undefined) throw new Error(`An unexpected way of painting: ${given[0]}`);
      const { stroke, fill, width, dashes, fillOpacity } = pen;
      const points = pointsOf(Object.values(given[1][0] as object));
      paths.push({ paint, stroke, fill, width, dashes, fillOpacity, points });
    }
  }
  return { paths, texts };
}

/** Glyph widths are those of the embedded font, in thousandths of its size. */
function readText(shown: readonly (Glyph | number)[], pen: Pen, matrix: Matrix): ReadText {
  const glyphs = shown.filter((each): each is Glyph => typeof each !== 'number');
  const units = glyphs.reduce((sum, { width }) => sum + width, 0);
  const scale = Math.hypot(matrix[0], matrix[1]);
  return {
    words: glyphs.map(({ unicode }) => unicode).join(''),
    x: matrix[4],
    y: matrix[5],
    width: (units / 1000) * pen.fontSize * pen.stretch * scale,
    size: pen.fontSize * scale,
  };
}

/** pdf.js's packed paths: 0 x y (move), 1 x y (line), 2 and six numbers (curve), 4 (close). */
function pointsOf(packed: readonly number[]): readonly number[] {
  const points: number[] = [];
  for (let index = 0; index < packed.length; ) {
    const length = { 0: 2, 1: 2, 2: 6, 4: 0 }[packed[index]!];
    if (length === undefined) throw new Error(`An unknown path operator ${packed[index]}`);
    index += 1 + length;
    if (length > 0) points.push(packed[index - 2]!, packed[index - 1]!);
  }
  return points;
}
