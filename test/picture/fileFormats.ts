import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createContext, runInContext } from 'node:vm';
import * as esbuild from 'esbuild';
import type * as fileFormats from '../../core/picture/fileFormats.ts';
import type { Picture } from '../../core/picture/picture.ts';
import { fileFormatsBundle } from '../../scripts/fileFormats.mjs';
import { drawingFont } from '../../scripts/font.mjs';
import { type Study, study } from '../support/study.ts';

/** What pages and workers of every host offer, and nothing of Node. */
const hostGlobals = {
  TextEncoder,
  TextDecoder,
  URL,
  atob,
  btoa,
  queueMicrotask,
  // Of this realm, so that bytes and errors can pass between the two.
  Uint8Array,
  RangeError,
};

/** The writers as they are shipped: bundled, run where there is nothing of Node. */
export async function shippedFileFormats(): Promise<typeof fileFormats> {
  const { outputFiles } = await esbuild.build({
    ...(fileFormatsBundle as esbuild.BuildOptions),
    write: false,
  });
  const context = createContext({ ...hostGlobals, module: { exports: {} } });
  runInContext(outputFiles![0]!.text, context);
  return context.module.exports;
}

export async function fontBytes(): Promise<Uint8Array> {
  return new Uint8Array(await drawingFont());
}

/** An example's study; one that has a picture. */
export function example(name: string): Study & { readonly picture: Picture } {
  const text = readFileSync(join(import.meta.dirname, `../../examples/${name}.winding`), 'utf8');
  const studied = study(text);
  const picture = studied.layoutPicture();
  if (!picture) throw new RangeError(`examples/${name}.winding has no picture`);
  return { ...studied, picture };
}

/** Words that break careless writers: markup, quotes, controls, unpaired halves, right-to-left, codes of CAD. */
export const hostileWords = `</title><script>alert("1")</script> ') Tj (\\) & ]]> \u0000\u001b\r\n0\nEOF\u2028 %%u %%c 50% ^J \\U+0041 \\P{} \u202eabc שלום مرحبا \ud800 \u{1f6a2} 漢字 e\u0301 =1+1 ${'W'.repeat(9_800)}`;
