import { PDFDocument } from 'pdfkit';
import { printable } from '../fontMetrics.ts';
import { leaves } from '../leaves.ts';
import type { Picture } from '../picture.ts';
import { drawOnPage, millimeters, pdfFontName } from './shapes.ts';

/** What a PDF file is made with besides its pictures. */
export interface PdfOptions {
  /** The TrueType font whose widths `fontMetrics.ts` knows; what a file uses of it is embedded. */
  readonly fontBytes: Uint8Array;
  readonly metadata: {
    readonly title: string;
    readonly author?: string;
    readonly subject?: string;
    readonly keywords?: string;
  };
  /** The bookmark of each page; by default the picture's title. */
  readonly bookmarks?: readonly string[];
  /** Waits until it may go on, again and again; where it throws, no file is made. By default it is all done at once. */
  readonly pause?: () => Promise<void>;
}

const pointsPerMillimeter = 72 / 25.4;

/** The longest side of a page in its units (ISO 32000-1, annex C); larger pages use larger units. */
const mostUnits = 14_400;

/** Primitives drawn from one pause to the next. */
const itemsAtOnce = 100;

/** Stands for the time of writing, so that the same pictures make the same bytes. */
const created = new Date(Date.UTC(2000, 0, 1));

/**
 * The pictures as the pages of a PDF 1.7 file: lines and areas as such, text that can be selected and
 * searched, each page exactly as large as its picture. The same input gives the same bytes.
 * Throws RangeError for no pages, bookmarks of another number, and numbers that are not finite.
 */
export async function pictureToPdf(pages: readonly Picture[], options: PdfOptions): Promise<Uint8Array> {
  const { bookmarks = pages.map(({ title }) => title) } = options;
  if (pages.length === 0) throw new RangeError('A PDF file needs at least 1 picture, not 0');
  if (bookmarks.length !== pages.length)
    throw new RangeError(`${pages.length} pages need as many bookmarks, not ${bookmarks.length}`);
  const document = new PDFDocument({
    autoFirstPage: false,
    font: null,
    pdfVersion: '1.7',
    lang: 'en',
    displayTitle: true,
    info: documentInfo(options),
  });
  const bytes = bytesOf(document);
  document.registerFont(pdfFontName, options.fontBytes);
  for (const [index, picture] of pages.entries()) {
    await options.pause?.();
    addPage(document, picture);
    document.outline.addItem(printable(bookmarks[index]!));
    let number = 0;
    for (const item of leaves(picture.items)) {
      if (++number % itemsAtOnce === 0) await options.pause?.();
      drawOnPage(document, item);
    }
  }
  await options.pause?.();
  document.end();
  return bytes;
}

function addPage(document: PDFDocument, picture: Picture): void {
  const [width, height] = [picture.width, picture.height].map(
    (length) => millimeters(length) * pointsPerMillimeter,
  ) as [number, number];
  const userUnit = Math.max(1, Math.ceil(Math.max(width, height) / mostUnits));
  document.addPage({ size: [width / userUnit, height / userUnit], margin: 0, userUnit });
  document
    .scale(pointsPerMillimeter / userUnit)
    .lineJoin('round')
    .font(pdfFontName);
}

function documentInfo({ metadata }: PdfOptions): Readonly<Record<string, object | string>> {
  const { title, author, subject, keywords } = metadata;
  const words = { Title: title, Author: author, Subject: subject, Keywords: keywords };
  const given = Object.entries(words).flatMap(([key, value]) =>
    value === undefined || value === '' ? [] : [[key, infoText(value)] as const],
  );
  return {
    Producer: 'Slotwright',
    Creator: 'Slotwright',
    CreationDate: created,
    ...Object.fromEntries(given),
  };
}

/**
 * A text of the document information. pdfkit puts the same value into the information dictionary (by
 * its value) and, unescaped, into the XML of the XMP metadata (as a string): so the string is escaped.
 */
function infoText(text: string): object {
  const plain = printable(text);
  const escaped = plain.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
  return Object.assign(Object(plain), { toString: () => escaped });
}

function bytesOf(document: PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve) => {
    const chunks: Uint8Array[] = [];
    document.on('data', (chunk) => chunks.push(chunk));
    document.on('end', () => {
      const bytes = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
      let offset = 0;
      for (const chunk of chunks) {
        bytes.set(chunk, offset);
        offset += chunk.length;
      }
      resolve(bytes);
    });
  });
}
