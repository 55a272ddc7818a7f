import { readFileSync } from 'node:fs';
import { chromium } from 'playwright-core';
import { connectNow } from '../../core/facts/connection.ts';
import { checkText } from '../../core/findings/checkedText.ts';
import { type Solids, solidsOf } from '../../core/views/space/solids.ts';
import type {} from '../../extension/webview/space/liveSpace.ts';
import { toWire } from '../extension/wire.ts';

/** Hairpins of 48 slots and 4 layers, and of 288 and 8. */
export const liveCases = [
  { what: '48 x 4', text: hairpins(48, 8, 4, 300) },
  { what: '288 x 8', text: hairpins(288, 48, 8, 1800) },
] as const;

function hairpins(slots: number, poles: number, layers: number, bore: number): string {
  return `winding "Bench"
machine { slots ${slots} poles ${poles} phases 3 gap inner bore ${bore} mm stack 160 mm }
slot { width 7.2 mm depth 60 mm opening 2 mm opening-height 1 mm }
bar { width 6.4 mm height 4.6 mm corner 0.6 mm coating 0.1 mm form hairpin bend-radius 8 mm end-straight 10 mm end-clearance 0.8 mm joint-straight 12 mm }
layout { layers ${layers} span 6 }
connect { star route paths 2 }
`;
}

/** The bars of a text as solids; throws where it is not known how they stand. */
export function solidsOfText(text: string): Solids {
  const { facts } = checkText(text, connectNow, () => null);
  const solids = facts && solidsOf(facts);
  if (!solids) throw new Error('The bars of the bench are not known');
  return solids;
}

/** Milliseconds of a frame, drawn in full and waited for, and how many draw calls and triangles it takes. */
export interface FrameCost {
  readonly frame: number;
  readonly calls: number;
  readonly triangles: number;
}

/** Medians of frames of the live view, 900 x 600 pixels, by a browser that draws without a graphics processor. */
export async function frameCosts(
  executable: string,
  list: readonly Solids[],
  times = 7,
): Promise<readonly FrameCost[]> {
  const browser = await chromium.launch({
    executablePath: executable,
    args: ['--no-sandbox', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'],
  });
  try {
    const page = await browser.newPage({ viewport: { width: 1000, height: 700 } });
    await page.setContent('<main></main>');
    await page.addStyleTag({
      content: `${readFileSync('dist/extension/panel.css', 'utf8')} .bench { position: relative; width: 900px; height: 600px }`,
    });
    await page.addScriptTag({ content: readFileSync('dist/extension/space.js', 'utf8') });
    const costs: FrameCost[] = [];
    for (const solids of list)
      costs.push(await page.evaluate(measureFrames, [toWire(solids), times] as const));
    return costs;
  } finally {
    await browser.close();
  }
}

/** Runs in the page. */
async function measureFrames([wire, times]: readonly [string, number]): Promise<FrameCost> {
  const kinds = { Float32Array, Int8Array, Uint8Array, Uint16Array, Uint32Array };
  const solids = JSON.parse(wire, (_, value) => {
    const make = kinds[value?.typedArray as keyof typeof kinds];
    if (make === undefined) return value;
    return new make(Uint8Array.from(atob(value.bytes), (byte) => byte.charCodeAt(0)).buffer);
  }) as Solids;
  const area = document.createElement('div');
  area.className = 'bench';
  document.body.replaceChildren(area);
  const nothing = () => {};
  const live = window.slotwrightSpace!(area, null, {
    point: nothing,
    choose: nothing,
    step: () => false,
    release: nothing,
    moved: nothing,
    lost: nothing,
  });
  const drawn = () => Number(area.dataset.frames ?? 0);
  const spent: number[] = [];
  live.show(solids);
  for (let turn = 0; turn < times; turn++) {
    const before = drawn();
    live.recolor();
    while (drawn() === before) await new Promise(requestAnimationFrame);
    // Reading a pixel waits for what was drawn.
    const gl = area.querySelector('canvas')!.getContext('webgl2')!;
    const begun = performance.now();
    const again = drawn();
    live.recolor();
    while (drawn() === again) await new Promise(requestAnimationFrame);
    gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
    spent.push(performance.now() - begun);
  }
  spent.sort((a, b) => a - b);
  const { calls, triangles } = area.dataset;
  live.end();
  return { frame: spent[spent.length >> 1]!, calls: Number(calls), triangles: Number(triangles) };
}
