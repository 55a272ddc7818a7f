import { createHash } from 'node:crypto';
import type { Steps } from '../../../core/figures/steps.ts';
import { dxfSteps as dxfOf, pictureToPdf as pdfOf } from '../../../core/picture/fileFormats.ts';
import { keeping } from '../keeping.ts';
import { remembered } from './remembered.ts';

export { pictureToDxf } from '../../../core/picture/fileFormats.ts';

/** Stands for a question, which may be long. */
const keyOf = (question: unknown) => createHash('sha256').update(JSON.stringify(question)).digest('hex');

const drawings = new Map<string, unknown>();

export function dxfSteps(...given: Parameters<typeof dxfOf>): Steps<string> {
  return remembered(drawings, keyOf(given), () => dxfOf(...given));
}

const keep = keeping<ReturnType<typeof pdfOf>>(20);

/** Pauses before and behind all of it, so that what is kept is always whole. */
export async function pictureToPdf(...[pages, options]: Parameters<typeof pdfOf>): ReturnType<typeof pdfOf> {
  const { pause, fontBytes, ...words } = options;
  await pause?.();
  const made = await keep(keyOf([pages, words, fontBytes.length]), () =>
    pdfOf(pages, { ...words, fontBytes }),
  );
  await pause?.();
  return made.slice();
}
