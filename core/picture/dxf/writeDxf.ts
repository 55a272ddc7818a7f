import { type DxfInterface, Dxfier, DxfWriter, Units } from '@tarikjabiri/dxf';
import { finished, type Steps } from '../../figures/steps.ts';
import { leaves } from '../leaves.ts';
import type { Picture } from '../picture.ts';
import { fullSize, fullSizeFactor } from './fullSize.ts';
import { colorIndices, dxfLayers } from './layers.ts';
import { type DxfPage, drawInModel, place } from './shapes.ts';
import { cadFont, cadTextStyle } from './text.ts';

export interface DxfOptions {
  /** Names of the phases, which end the names of their layers; by default 1, 2, 3 ... */
  readonly phaseNames?: readonly string[];
}

/** Distance between pictures side by side, in millimeters. */
const pageGap = 20;

/**
 * The pictures as one DXF file (AutoCAD 2007 format, UTF-8), in millimeters, side by side from the origin to the
 * right. A picture that is to scale is written in full size, its letters and dashes in proportion: a length in the
 * file is that of the machine. All others are as large as on paper. Every primitive is one entity on the layer of its
 * role and phase (`BAR-U`, `JOINT-W`, `SLOT-NUMBER`); one that has several parts is one block reference. Line types,
 * widths and colors belong to the layers. The same pictures give the same text. Throws RangeError for numbers that
 * are not finite.
 */
export function pictureToDxf(pictures: Picture | readonly Picture[], options: DxfOptions = {}): string {
  return finished(dxfSteps(pictures, options));
}

/** The same in steps. */
export function* dxfSteps(pictures: Picture | readonly Picture[], options: DxfOptions = {}): Steps<string> {
  const papers = Array.isArray(pictures) ? (pictures as readonly Picture[]) : [pictures as Picture];
  const pages: Picture[] = [];
  for (const paper of papers) {
    pages.push(fullSize(paper));
    yield;
  }
  const writer = new DxfWriter();
  const width = pages.reduce((sum, page) => sum + page.width, pageGap * Math.max(0, pages.length - 1));
  const height = Math.max(0, ...pages.map((page) => page.height));
  writeHeader(writer, width, height);
  const colorIndexOf = colorIndices();
  const layerOf = dxfLayers(writer, options.phaseNames ?? [], colorIndexOf);
  let left = 0;
  let blocks = 0;
  for (const [index, picture] of pages.entries()) {
    const page: DxfPage = {
      model: writer.modelSpace,
      layerOf,
      colorIndexOf,
      newBlock: (id) => writer.addBlock(`${++blocks}-${id.replace(/[^A-Za-z0-9_-]+/g, '_').slice(0, 60)}`),
      left,
      height: picture.height,
      dashScale: fullSizeFactor(papers[index]!),
    };
    let number = 0;
    for (const item of leaves(picture.items)) {
      if (number++ % itemsAtOnce === 0) yield;
      drawInModel(page, item);
    }
    left += picture.width + pageGap;
  }
  return yield* textSteps(writer);
}

/** Primitives, and entities as text, from one step to the next. */
const itemsAtOnce = 100;

/** The file's text, section by section as the library writes it, which would do it all at once. */
function* textSteps({ document }: DxfWriter): Steps<string> {
  const { header, classes, tables, blocks, entities, objects } = document;
  // Without sections the library only settles what the header says: handles and the opening view.
  document.dxfy = () => undefined;
  document.stringify();
  const sink = new Dxfier();
  const chunks: string[] = [];
  const flush = () => chunks.push(`${sink.lines.splice(0).join('\n')}\n`);
  function* each(items: readonly DxfInterface[]): Steps<void> {
    for (const [number, item] of items.entries()) {
      item.dxfy(sink);
      if (number % itemsAtOnce !== itemsAtOnce - 1) continue;
      flush();
      yield;
    }
  }
  for (const section of [header, classes, tables]) section.dxfy(sink);
  sink.start('BLOCKS');
  yield* each(blocks.blocks);
  sink.end();
  sink.start('ENTITIES');
  yield* each(entities.paperSpace.entities);
  yield* each(entities.modelSpace.entities);
  sink.end();
  objects.dxfy(sink);
  flush();
  return chunks.join('');
}

function writeHeader(writer: DxfWriter, width: number, height: number): void {
  writer.setUnits(Units.Millimeters);
  writer.setVariable('$MEASUREMENT', { 70: 1 });
  writer.setVariable('$LTSCALE', { 40: 1 });
  writer.setVariable('$LWDISPLAY', { 290: 1 });
  writer.setVariable('$EXTMIN', { 10: 0, 20: 0, 30: 0 });
  writer.setVariable('$EXTMAX', { 10: place(width), 20: place(height), 30: 0 });
  writer.setVariable('$TEXTSTYLE', { 7: cadTextStyle });
  writer.tables.addStyle(cadTextStyle).fontFileName = cadFont;
  // The library would guess the opening view from its entities, texts as 200 mm squares.
  const view = { tl: { x: 0, y: height, z: 0 }, br: { x: width, y: 0, z: 0 } };
  writer.modelSpace.boundingBox = () => view;
}
