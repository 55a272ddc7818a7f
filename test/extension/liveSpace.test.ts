// Takes its time: drives the extension with whole windings.

import * as fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { SolidThing } from '../../core/views/space/solids.ts';
import { firstWish, readWish, type Wish } from '../../extension/protocol/wish.ts';
import {
  type Belonging,
  colorIndex,
  isMarked,
  isSeen,
  stepsBack,
} from '../../extension/webview/space/coloring.ts';
import {
  between,
  cameraOf,
  firstEye,
  halfSeen,
  moved,
  readEye,
  turned,
  turnedIntoSight,
  turnedTo,
  wrapped,
  zoomed,
} from '../../extension/webview/space/eye.ts';
import { type Eye, readLook } from '../../extension/webview/space/liveSpace.ts';
import { smallHairpins } from '../space/machines.ts';
import { activateOnStub, soundText } from './activated.ts';
import { loadPage, type PageTwin } from './pageTwin.ts';
import { editorState, openStubDocument } from './vscodeStub.ts';

const text = smallHairpins();
const live: Wish = { ...firstWish, view: 'space', live: true };

describe('the bars in space on their way to the page', () => {
  let deactivate = () => {};
  beforeEach(() => {
    deactivate = activateOnStub();
  });
  afterEach(() => deactivate());

  async function opened(
    winding: string,
    wish = live,
  ): Promise<{ page: PageTwin; edit: (to: string) => void }> {
    const document = openStubDocument('ring.winding', winding);
    await editorState.commands.get('slotwright.showLayoutPanel')!();
    const page = loadPage(editorState.panels.at(-1)!, wish);
    return { page, edit: (to) => document.edit(to) };
  }

  test('surfaces go once, as typed arrays; a letter, a current and a mark send none of them', async () => {
    const { page, edit } = await opened(text);
    const { solids, description } = page.solids();
    expect(description).toMatch(/^Bars in space of a winding with 6 slots/);
    expect(solids.parts[0]!.fine.positions).toBeInstanceOf(Float32Array);
    expect(page.bytes()).toBeLessThan(250_000);
    const before = page.bytes();
    edit(text.replace('Bars in space', 'Bars in spaces'));
    expect(page.solids().title).toMatch(/^Bars in spaces:/);
    expect(page.solids().solids.parts).toBe(solids.parts);
    edit(`\n${text.replace('machine {', 'machine { current 40 A')}`);
    expect(page.bytes() - before).toBeLessThan(8000);
    expect(page.solids().solids.parts).toBe(solids.parts);
  });

  test('another bend radius sends the surfaces anew, and the colors not', async () => {
    const { page, edit } = await opened(text);
    const { parts, phases } = page.solids().solids;
    edit(text.replace('bend-radius 3 mm', 'bend-radius 3.4 mm'));
    expect(page.solids().solids.parts).not.toBe(parts);
    expect(page.solids().solids.phases).toBe(phases);
  });

  test('a page that cannot turn them gets the picture, as does any page where sizes lack', async () => {
    const { page } = await opened(text, { ...live, live: false });
    expect(page.picture().items.length).toBeGreaterThan(1);
    page.say({ kind: 'show', wish: live });
    expect(page.solids().solids.slots).toBe(6);
    page.say({ kind: 'show', wish: { ...live, live: false } });
    expect(page.picture().width).toBeGreaterThan(0);
  });

  test('a view that begins with words alone arrives, and says what it needs', async () => {
    const { page } = await opened(soundText);
    const words = JSON.stringify(page.picture().items);
    expect(words).toContain('Not drawn');
    expect(words).toContain('bar width');
    expect(readWish({ ...live, live: 'yes' })?.live).toBe(false);
  });
});

describe('the eye of the live view', () => {
  const reach = { radius: 0.1, low: -0.06, high: 0.09 };
  const area = { width: 640, height: 400 };
  const eyes = fc.record({
    turn: fc.double({ min: -3, max: 3, noNaN: true }),
    above: fc.double({ min: -1.5, max: 1.5, noNaN: true }),
    zoom: fc.double({ min: 0.5, max: 60, noNaN: true }),
    right: fc.double({ min: -0.1, max: 0.1, noNaN: true }),
    up: fc.double({ min: -0.1, max: 0.1, noNaN: true }),
  });

  test('opens with everything in the area, from wherever it is turned to', () => {
    fc.assert(
      fc.property(eyes, fc.double({ min: 0, max: 7, noNaN: true }), (eye, angle) => {
        const whole = { ...eye, zoom: 1, right: 0, up: 0 };
        const half = halfSeen(whole, reach, area);
        const { right, up } = cameraOf(whole);
        const middle = (reach.low + reach.high) / 2;
        for (const z of [reach.low, reach.high]) {
          const at = [reach.radius * Math.cos(angle), reach.radius * Math.sin(angle), z - middle];
          const along = (way: readonly number[]) =>
            at.reduce((sum, part, axis) => sum + part * way[axis]!, 0);
          expect(Math.abs(along(right))).toBeLessThan(half.width);
          expect(Math.abs(along(up))).toBeLessThan(half.height);
        }
      }),
      { seed: 3, numRuns: 40 },
    );
  });

  test('zooms at a point, which stays where it is', () => {
    const point = fc.record({ x: fc.integer({ min: 0, max: 640 }), y: fc.integer({ min: 0, max: 400 }) });
    const under = (eye: Eye, { x, y }: { readonly x: number; readonly y: number }) => {
      const half = halfSeen(eye, reach, area);
      return [
        eye.right + ((2 * x) / area.width - 1) * half.width,
        eye.up + (1 - (2 * y) / area.height) * half.height,
      ] as const;
    };
    fc.assert(
      fc.property(eyes, point, fc.double({ min: 0.2, max: 5, noNaN: true }), (eye, at, factor) => {
        const [before, after] = [under(eye, at), under(zoomed(eye, reach, area, at, factor), at)];
        expect(after[0]).toBeCloseTo(before[0], 9);
        expect(after[1]).toBeCloseTo(before[1], 9);
      }),
      { seed: 4, numRuns: 40 },
    );
  });

  test('turns no further than straight above, moves with the pointer, and brings bars to the front', () => {
    expect(turned(firstEye, { x: 0, y: 1e4 }).above).toBe(Math.PI / 2);
    expect(turned(firstEye, { x: 50, y: 0 }).turn).not.toBe(firstEye.turn);
    const half = halfSeen(firstEye, reach, area);
    expect(moved(firstEye, reach, area, { x: 160, y: 0 }).right).toBeCloseTo(-half.width / 2, 9);
    expect(moved(firstEye, reach, area, { x: 9999, y: 0 }).right).toBe(-0.15);
    for (const angle of [0, 1, 2, 3, 4, 5, 6]) {
      const { towards } = cameraOf(turnedTo(firstEye, angle));
      expect(Math.abs(wrapped(Math.atan2(towards[1], towards[0]) - angle))).toBeLessThan(1e-9);
      const nearer = (eye: Eye) => {
        const seen = cameraOf(eye).towards;
        return seen[0] * Math.cos(angle) + seen[1] * Math.sin(angle) > -1e-9;
      };
      const brought = turnedIntoSight(firstEye, angle);
      expect(nearer(brought)).toBe(true);
      if (nearer(firstEye)) expect(brought).toBe(firstEye);
    }
    const far = { ...firstEye, turn: firstEye.turn + 6 };
    expect(Math.abs(wrapped(between(firstEye, far, 0.5).turn - firstEye.turn))).toBeLessThan(0.2);
  });

  test('is taken up from what was saved, and nothing else', () => {
    expect(readEye(JSON.parse(JSON.stringify(firstEye)))).toEqual(firstEye);
    for (const wrong of [
      null,
      3,
      {},
      { ...firstEye, zoom: 0 },
      { ...firstEye, above: 2 },
      { ...firstEye, up: '1' },
    ])
      expect(readEye(wrong)).toBeNull();
    expect(readLook({ coloring: 'layer', opened: 2 })).toEqual({ coloring: 'layer', opened: 2 });
    for (const wrong of [null, {}, { coloring: 'heat', opened: 1 }, { coloring: 'path', opened: -1 }])
      expect(readLook(wrong)).toEqual({ coloring: 'phase', opened: 0 });
  });
});

describe('what bars look like', () => {
  const bar: Belonging = { phase: 1, path: 2, layers: [3], bar: '7d', thing: null };
  const thing: SolidThing = { kind: 'ring', side: 'far', layers: [0, 3], joint: null, name: 'N', star: true };
  const ring: Belonging = { phase: -1, path: 0, layers: thing.layers, bar: null, thing };

  test('they are colored by phase, path or layer; rings by none', () => {
    expect((['phase', 'path', 'layer'] as const).map((by) => colorIndex(bar, by))).toEqual([1, 1, 3]);
    expect(colorIndex({ ...bar, phase: 8 }, 'phase')).toBe(1);
    expect(colorIndex({ ...bar, path: 0 }, 'path')).toBeNull();
    expect(colorIndex(ring, 'layer')).toBeNull();
  });

  test('what is not asked for steps back', () => {
    const all = { phase: null, path: null, layer: null, side: null };
    expect(stepsBack(bar, 'far', all)).toBe(false);
    expect(stepsBack(bar, 'far', { ...all, phase: 0 })).toBe(true);
    expect(stepsBack(bar, 'far', { ...all, phase: 1, path: 2, layer: 3, side: 'far' })).toBe(false);
    expect(stepsBack(bar, 'far', { ...all, side: 'connection' })).toBe(true);
    expect(stepsBack(bar, null, { ...all, side: 'connection' })).toBe(false);
    expect(stepsBack(ring, 'far', { ...all, phase: 1 })).toBe(true);
  });

  test('marks are by bar, joint or path; layers are taken away with all that ends in them', () => {
    const nothing = { bars: [], joints: [], paths: [], chosen: null };
    expect(isMarked(bar, 4, nothing)).toBe(false);
    expect(isMarked(bar, 4, { ...nothing, bars: ['7d'] })).toBe(true);
    expect(isMarked(bar, 4, { ...nothing, joints: [4] })).toBe(true);
    expect(isMarked(bar, 0, { ...nothing, joints: [0] })).toBe(false);
    expect(isMarked(bar, 0, { ...nothing, paths: [{ phase: 1, path: 2 }] })).toBe(true);
    expect([0, 1].map((opened) => isSeen(bar, 4, opened))).toEqual([true, false]);
    expect(isSeen(ring, 4, 1)).toBe(false);
  });
});
