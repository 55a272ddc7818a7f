import type { Facts } from '../../../core/facts/facts.ts';
import { leaves } from '../../../core/picture/leaves.ts';
import type { Picture } from '../../../core/picture/picture.ts';
import { svgSteps } from '../../../core/picture/svg.ts';
import { stacked } from '../../../core/review/movePicture.ts';
import { sheetPlan } from '../../../core/sheets/sheets.ts';
import type { Study } from '../../../core/study.ts';
import { type ViewName, viewSteps } from '../../../core/views/views.ts';
import { l10n } from '../../wording.ts';
import { inSlices } from '../inSlices.ts';
import { sha256 } from './digest.ts';
import type { FileParts } from './fileParts.ts';

export const drawingFormats = ['pdf', 'svg', 'dxf'] as const;
export type DrawingFormat = (typeof drawingFormats)[number];

/** A study that has a winding to draw. */
export type Drawable = Study & { readonly facts: Facts };

/** Whether there is anything to draw. */
export function isDrawable(study: Study): study is Drawable {
  return study.facts !== null;
}

/** What the making of files needs from its surroundings. */
export interface Making {
  readonly parts: FileParts;
  /** Gives way to the editor where it is time to; throws CancellationError once the reader has given up. */
  readonly pause: () => Promise<void>;
  /** Asks whether something large is to be made; throws CancellationError where it is not. */
  readonly confirm: (question: string) => Promise<void>;
}

/** Sheet sets and files from here on are asked about first. */
const manySlots = 960;
const manySheets = 200;
const manyMegabytes = 10;

/** What a file takes, in megabytes: a primitive of a view, and a sheet of large windings (tried: 161 and 252 sheets). */
const megabytes = {
  pdf: { primitive: 0.000_025, sheet: 0.013 },
  svg: { primitive: 0.000_25, sheet: 0.15 },
  dxf: { primitive: 0.000_42, sheet: 0.21 },
} as const satisfies Record<DrawingFormat, unknown>;

/** The pictures of a view for a file of a format, or the handover sheets, one picture a sheet. Asks before very large ones. */
export async function picturesOf(
  study: Drawable,
  view: ViewName | 'sheet',
  format: DrawingFormat,
  making: Making,
): Promise<readonly Picture[]> {
  const { facts, title, specification } = study;
  if (view === 'sheet') return sheetPictures(study, format, making);
  const steps = viewSteps({ title, specification, facts }, view, { fullSize: format === 'dxf' });
  const picture = await inSlices(steps, making.pause);
  await making.pause();
  let count = 0;
  for (const _ of leaves(picture.items)) count++;
  const size = count * megabytes[format].primitive;
  if (size > manyMegabytes)
    await making.confirm(
      l10n.t('This drawing has {0} lines and texts; its file takes about {1} MB.', count, Math.round(size)),
    );
  return [picture];
}

async function sheetPictures(
  study: Drawable,
  format: DrawingFormat,
  making: Making,
): Promise<readonly Picture[]> {
  const { facts, title, specification, findings, limits, text } = study;
  const fileHash = await sha256(new TextEncoder().encode(text));
  const input = { facts, specification, title, findings, limits, fileHash };
  const { count, draw } = await inSlices(sheetPlan(input), making.pause);
  const { slots } = facts.winding;
  if (slots > manySlots || count > manySheets)
    await making.confirm(
      l10n.t(
        'The handover sheets of {0} slots are {1} sheets; their file takes about {2} MB.',
        slots,
        count,
        Math.max(1, Math.round(count * megabytes[format].sheet)),
      ),
    );
  return inSlices(draw(), making.pause);
}

/** Pictures as the bytes of one file: pages of a PDF file, else one above the other. */
export async function drawingFile(
  study: Drawable,
  pictures: readonly Picture[],
  format: DrawingFormat,
  { parts, pause }: Making,
): Promise<Uint8Array> {
  if (format === 'svg') return new TextEncoder().encode(await inSlices(svgSteps(stacked(pictures)), pause));
  const { dxfSteps, pictureToPdf } = await parts.fileFormats();
  if (format === 'dxf') {
    const phaseNames = study.facts.winding.phases.names;
    return new TextEncoder().encode(await inSlices(dxfSteps(pictures, { phaseNames }), pause));
  }
  const { sheet } = study.specification;
  const author = sheet?.drawnBy?.value ?? sheet?.owner?.value;
  return pictureToPdf(pictures, {
    fontBytes: await parts.font(),
    metadata: { title: study.title, ...(author === undefined ? {} : { author }) },
    bookmarks: pictures.map(({ title }) => title),
    pause,
  });
}
