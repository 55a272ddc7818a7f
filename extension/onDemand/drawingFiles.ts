import type { Facts } from '../../core/facts/facts.ts';
import type { Picture } from '../../core/picture/picture.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import { stacked } from '../../core/review/movePicture.ts';
import { sheets } from '../../core/sheets/sheets.ts';
import type { Study } from '../../core/study.ts';
import { drawView, type ViewName } from '../../core/views/views.ts';
import type { Parts } from '../loadOnDemand.ts';
import { sha256 } from './digest.ts';

export const drawingFormats = ['pdf', 'svg', 'dxf'] as const;
export type DrawingFormat = (typeof drawingFormats)[number];

/** A study that has a winding to draw. */
export type Drawable = Study & { readonly facts: Facts };

/** Whether there is anything to draw. */
export function isDrawable(study: Study): study is Drawable {
  return study.facts !== null;
}

/** The pictures of a view for a file of a format, or the handover sheets, one picture a sheet. */
export async function picturesOf(
  study: Drawable,
  view: ViewName | 'sheet',
  format: DrawingFormat,
): Promise<readonly Picture[]> {
  const { facts, title, specification, findings, limits, text } = study;
  if (view !== 'sheet')
    return [drawView({ title, specification, facts }, view, { fullSize: format === 'dxf' })];
  const fileHash = await sha256(new TextEncoder().encode(text));
  return sheets({ facts, specification, title, findings, limits, fileHash });
}

/** Pictures as the bytes of one file: pages of a PDF file, else one above the other. */
export async function drawingFile(
  study: Drawable,
  pictures: readonly Picture[],
  format: DrawingFormat,
  parts: Parts,
): Promise<Uint8Array> {
  if (format === 'svg') return new TextEncoder().encode(pictureToSvg(stacked(pictures)));
  const { pictureToDxf, pictureToPdf } = await parts.fileFormats();
  if (format === 'dxf') {
    const phaseNames = study.facts.winding.phases.names;
    return new TextEncoder().encode(pictureToDxf(pictures, { phaseNames }));
  }
  const { sheet } = study.specification;
  const author = sheet?.drawnBy?.value ?? sheet?.owner?.value;
  return pictureToPdf(pictures, {
    fontBytes: await parts.font(),
    metadata: { title: study.title, ...(author === undefined ? {} : { author }) },
    bookmarks: pictures.map(({ title }) => title),
  });
}
