// Takes its time: drives the extension with whole windings.

import * as fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Primitive } from '../../../core/picture/picture.ts';
import { pictureToSvg } from '../../../core/picture/svg.ts';
import { drawView, viewNames } from '../../../core/views/views.ts';
import { followList, type ItemRule, listChange } from '../../../extension/protocol/listChange.ts';
import {
  followPrimitives,
  packPrimitive,
  primitiveRule,
} from '../../../extension/protocol/packedPrimitive.ts';
import type { PanelState } from '../../../extension/protocol/panelState.ts';
import { followView, type ViewContent, viewChange } from '../../../extension/protocol/viewContent.ts';
import { firstWish, panelViews, type Wish } from '../../../extension/protocol/wish.ts';
import { examples } from '../../support/files.ts';
import { study } from '../../support/study.ts';
import { tries, withMore } from '../../support/tries.ts';
import { activateOnStub, brokenText, soundText } from '../activated.ts';
import { loadPage, type PageTwin } from '../pageTwin.ts';
import { editorState, openStubDocument, type StubPanel, selectText } from '../vscodeStub.ts';

describe('changes of lists', () => {
  interface Item {
    readonly name: string;
    readonly size: number;
  }
  const rule: ItemRule<Item> = {
    key: ({ name }) => name,
    pack: (item) => item,
    change: (before, item) => (before.size === item.size ? null : undefined),
  };
  const items = fc.array(
    fc.record({ name: fc.constantFrom(...'abcdefgh'), size: fc.integer({ min: 0, max: 2 }) }),
    {
      maxLength: 12,
    },
  );

  test('lead from any list to any other, and are nothing where nothing changes', () => {
    fc.assert(
      fc.property(items, items, (before, after) => {
        const change = listChange(before, after, rule);
        expect(change === null).toBe(JSON.stringify(before) === JSON.stringify(after));
        const read = (step: unknown) => ({ item: step as Item, takesNext: false });
        expect(change === null ? before : followList(before, change, read)).toEqual(after);
      }),
      { seed: 5, numRuns: tries(120) },
    );
  });

  test('send only what is put in or another', () => {
    const list = (names: string): Item[] => [...names].map((name) => ({ name, size: 0 }));
    const change = (before: string, after: string) => listChange(list(before), list(after), rule);
    const put = (name: string) => ({ name, size: 0 });
    expect(change('abcd', 'abcd')).toBeNull();
    expect(change('abcd', 'abxcd')).toEqual([2, put('x'), 2]);
    expect(change('abcd', 'ad')).toEqual([1, -2, 1]);
    expect(change('abcdefgh', 'habcdefg')).toEqual([put('h'), 7]);
    expect(change('abcdefgh', 'bcdefgha')).toEqual([-1, 7, put('a')]);
    expect(change('abcd', '')).toEqual([]);
  });
});

describe('pictures on their way', () => {
  test('arrive as every writer would write them, from nothing and from any other', () => {
    let before: readonly Primitive[] = [];
    const few = examples.filter(({ name }) => /pod-drive|tidal|ballast/.test(name));
    for (const { text } of withMore(few, examples)) {
      const { facts, title, specification } = study(text);
      if (!facts) continue;
      for (const view of viewNames) {
        const picture = drawView({ title, specification, facts }, view, { coarse: true });
        const change = JSON.parse(
          JSON.stringify(listChange(before, picture.items, primitiveRule) ?? [before.length]),
        );
        const items = followPrimitives(before, change);
        expect(items).not.toBeNull();
        expect(pictureToSvg({ ...picture, items: items! })).toBe(pictureToSvg(picture));
        before = items!;
      }
    }
  });

  test('of a head only what changes is sent, and all of it where a part is gone or nothing else stays', () => {
    const head = { title: 'Pump', description: 'Layout', width: 10, height: 5 };
    const notes = ['Not to scale.'];
    const shown = (more: object): ViewContent => ({
      kind: 'picture',
      picture: { ...head, items: [], ...more },
    });
    const sent = (before: ViewContent | null, after: ViewContent) => {
      const change = viewChange(before, after);
      const followed = change === null ? before : followView(before, JSON.parse(JSON.stringify(change)));
      expect(followed).toEqual(after);
      return change;
    };
    const whole = shown({ notes });
    expect(sent(whole, shown({ notes, title: 'Ferry' }))).toEqual({
      kind: 'picture',
      head: { title: 'Ferry' },
    });
    expect(sent(whole, shown({ notes: [...notes, 'q = 2'] }))).toMatchObject({
      head: { notes: [...notes, 'q = 2'] },
    });
    expect(sent(shown({}), whole)).toMatchObject({ head: { ...head, notes } });
    expect(sent(whole, shown({}))).toEqual({ kind: 'picture', head });
    const other = { title: 'Ferry', description: 'Section', width: 11, height: 6 };
    expect(sent(whole, shown({ notes, ...other }))).toEqual({ kind: 'picture', head: { ...other, notes } });
    expect(sent(whole, shown({ notes }))).toBeNull();
    const table = (title: string): ViewContent => ({
      kind: 'table',
      table: { title, columns: ['bar'], rows: [] },
    });
    expect(sent(table('Bars'), table('Slots'))).toEqual({ kind: 'table', head: { title: 'Slots' } });
    expect(sent(whole, table('Bars'))).toEqual({ kind: 'table', head: { title: 'Bars', columns: ['bar'] } });
    // Against something else than was meant.
    expect(followView(null, { kind: 'picture', head: { title: 'Ferry' } })).toBeUndefined();
    expect(followView(table('Bars'), { kind: 'picture', head: { title: 'Ferry' } })).toBeUndefined();
    expect(followView(whole, { kind: 'picture', head: 'Ferry' })).toBeUndefined();
    expect(followView(whole, { kind: 'picture', head: { title: 7 } })).toBeUndefined();
  });

  test('every part of a primitive arrives, the smallest scale at which it shows among them', () => {
    const common = { id: 'a b', role: 'curve' } as const;
    const shapes: readonly Primitive[] = [
      { ...common, kind: 'line', x1: 1, y1: 2, x2: 3.5, y2: -4 },
      { ...common, kind: 'polyline', points: [1, 2, 3, 4] },
      {
        ...common,
        kind: 'path',
        parts: [
          [1, 2],
          [3, 4, 5, 6],
        ],
        filled: true,
      },
      { ...common, kind: 'arc', x: 1, y: 2, radius: 3, from: -12.345678, to: 360 },
      { ...common, kind: 'polygon', points: [] },
      { ...common, kind: 'text', x: 1, y: 2, text: '⌀ "x"', size: 2.5, anchor: 'end', width: 7, angle: -90 },
      { ...common, kind: 'group', items: [{ ...common, kind: 'line', x1: 0, y1: 0, x2: 0, y2: 0 }] },
    ];
    const extras = [
      {},
      { subject: { bar: '7b' } },
      { phase: 0 },
      { path: 2, shownFrom: 1.5 },
      { source: 'path U 1', emphasis: 'faded' },
      {
        subject: { star: 'N', joint: 3 },
        phase: 2,
        path: 1,
        source: 'path W 1',
        emphasis: 'strong',
        shownFrom: 3,
      },
    ] as const;
    for (const shape of shapes)
      for (const extra of extras) {
        const primitive = { ...shape, ...extra } as Primitive;
        expect(followPrimitives([], JSON.parse(JSON.stringify([packPrimitive(primitive)])))).toEqual([
          primitive,
        ]);
      }
  });

  test('a primitive is sent anew where any part of it changes', () => {
    const line: Primitive = { kind: 'line', id: 'a', role: 'curve', x1: 0, y1: 0, x2: 1, y2: 1 };
    for (const other of [{ shownFrom: 2 }, { source: 'limit 1' }, { x2: 2 }, { role: 'axis' as const }])
      expect(listChange([line], [{ ...line, ...other }], primitiveRule)).toHaveLength(2);
    expect(listChange([line], [{ ...line }], primitiveRule)).toBeNull();
  });
});

/** A text of 48 slots and 4 layers by span, by rows, and by written paths; all with limits and copper. */
function frozenTexts(): Readonly<Record<'generated' | 'rows' | 'paths', string>> {
  const generated = examples.find(({ name }) => name.startsWith('harbor-ferry'))!.text;
  const studied = study(generated);
  const { table, slots, layers, phases } = studied.winding!;
  const rows = Array.from({ length: layers }, (_, layer) => {
    const cells = Array.from({ length: slots }, (_, slot) => {
      const cell = table.cells[layer * slots + slot]!;
      return `${cell > 0 ? '+' : '-'}${phases.names[Math.abs(cell) - 1]}`;
    });
    return `  layer ${'abcd'[layer]} ${cells.join(' ')}`;
  });
  const edit = studied.writeOutPaths()!;
  return {
    generated,
    rows: generated.replace('  span   6\n', `${rows.join('\n')}\n`),
    paths: generated.slice(0, edit.range.start) + edit.text + generated.slice(edit.range.end),
  };
}

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

async function openPage(): Promise<{ readonly panel: StubPanel; readonly page: PageTwin }> {
  await editorState.commands.get('slotwright.showLayoutPanel')?.();
  const panel = editorState.panels.at(-1)!;
  return { panel, page: loadPage(panel) };
}

describe('what a keystroke costs', () => {
  const kilobyte = 1000;

  test('<= 4 kB where the drawing stays the same, however the winding is written', async () => {
    for (const [name, text] of Object.entries(frozenTexts())) {
      const document = openStubDocument(`${name}.winding`, text);
      const { page } = await openPage();
      expect(study(text).facts?.connection.kind, name).toBe('connected');
      const edits = {
        'a letter of the title': text.replace('stator B', 'stator Bx'),
        'a letter of a comment': text.replace('# Integer', '# xInteger'),
        'a first line': `# one more\n${text}`,
        current: text.replace('current 210 A', 'current 215 A'),
      };
      for (const [what, edited] of Object.entries(edits)) {
        document.edit(text);
        const [bytes, updates, before] = [page.bytes(), page.updates.length, page.picture()];
        document.edit(edited);
        expect(edited).not.toBe(text);
        expect(page.bytes() - bytes, `${name}: ${what}`).toBeLessThanOrEqual(4 * kilobyte);
        expect(page.updates.length - updates, `${name}: ${what}`).toBeLessThanOrEqual(1);
        if (what !== 'a letter of the title') expect(page.picture(), `${name}: ${what}`).toBe(before);
      }
      page.unload();
    }
  });

  test('<= 120 kB where all of it changes, and where a page begins', async () => {
    const texts = frozenTexts();
    const other = texts.generated.replace('poles   8', 'poles   16').replace('span   6', 'span   3');
    for (const [name, text] of Object.entries(texts)) {
      const document = openStubDocument(`${name}.winding`, text);
      const { page } = await openPage();
      expect(page.bytes(), name).toBeLessThanOrEqual(120 * kilobyte);
      const bytes = page.bytes();
      document.edit(other);
      expect(page.state().notice).toBeNull();
      expect(page.bytes() - bytes, name).toBeGreaterThan(60 * kilobyte);
      expect(page.bytes() - bytes, name).toBeLessThanOrEqual(120 * kilobyte);
      page.unload();
    }
  });

  test('one update is under way at a time, and what is overtaken is never sent', async () => {
    const document = openStubDocument('pump.winding', soundText);
    const { page } = await openPage();
    page.hold(true);
    const before = page.updates.length;
    for (let n = 1; n <= 100; n++)
      document.edit(
        soundText.replace('trial', `trial ${'x'.repeat(n)}`).replace('span   5', `span   ${4 + (n % 2)}`),
      );
    expect(page.updates.length - before).toBe(1);
    page.hold(false);
    expect(page.updates.length - before).toBe(2);
    expect(page.state().heading.title).toBe(`Tidal pump, trial ${'x'.repeat(100)}`);
  });

  test('what changes nothing on the page sends nothing', async () => {
    const document = openStubDocument('pump.winding', soundText);
    const { page } = await openPage();
    const before = page.updates.length;
    document.edit(`${soundText}# a remark\n`);
    expect(page.updates.length).toBe(before);
  });
});

type Act =
  | { readonly kind: 'edit'; readonly text: string }
  | { readonly kind: 'open'; readonly name: string }
  | { readonly kind: 'cursor'; readonly at: number }
  | { readonly kind: 'wish'; readonly wish: Partial<Wish> }
  | { readonly kind: 'hold'; readonly held: boolean }
  | { readonly kind: 'lose' }
  | { readonly kind: 'hide' }
  | { readonly kind: 'show' };

describe('the page', () => {
  const texts = [
    soundText,
    brokenText,
    '',
    soundText.replace('span   5', 'span   4'),
    soundText.replace('poles  2', 'poles  4').replace('span   5', 'span   3'),
    soundText.replace('star', 'delta'),
    soundText.replace('slots  12', 'slots  24'),
    `${soundText}require {\n  winding-factor harmonic 1 >= 0.999\n}\n`,
    soundText.replace('connect {\n  star\n}', ''),
  ];
  const act: fc.Arbitrary<Act> = fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom(...texts).map((text) => ({ kind: 'edit' as const, text })) },
    { weight: 1, arbitrary: fc.constantFrom('a', 'b').map((name) => ({ kind: 'open' as const, name })) },
    { weight: 1, arbitrary: fc.nat(150).map((at) => ({ kind: 'cursor' as const, at })) },
    {
      weight: 3,
      arbitrary: fc
        .record({ view: fc.constantFrom(...panelViews), phase: fc.constantFrom(null, 'U', 'Q') })
        .map((wish) => ({ kind: 'wish' as const, wish })),
    },
    { weight: 4, arbitrary: fc.boolean().map((held) => ({ kind: 'hold' as const, held })) },
    { weight: 1, arbitrary: fc.constantFrom<Act>({ kind: 'lose' }, { kind: 'hide' }, { kind: 'show' }) },
  );

  test('shows what a page that has just begun would, after any edits, answers, and turns of the panel', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(act, { minLength: 1, maxLength: 25 }), async (acts) => {
        end();
        end = activateOnStub();
        const documents = new Map(
          ['b', 'a'].map((name) => [name, openStubDocument(`${name}.winding`, soundText)] as const),
        );
        const { panel, page: first } = await openPage();
        let document = documents.get('a')!;
        let page: PageTwin | null = first;
        let wish = firstWish;
        const unload = () => {
          page?.unload();
          page = null;
        };
        for (const one of acts) {
          if (one.kind === 'edit') document.edit(one.text);
          if (one.kind === 'open') {
            document = documents.get(one.name)!;
            openStubDocument(`${one.name}.winding`, document.getText());
            document = editorState.documents.at(-1)!;
            documents.set(one.name, document);
          }
          if (one.kind === 'cursor') selectText(document, Math.min(one.at, document.getText().length));
          if (one.kind === 'wish' && page) {
            wish = { ...firstWish, ...one.wish };
            page.say({ kind: 'show', wish });
          }
          if (one.kind === 'hold') page?.hold(one.held);
          if (one.kind === 'lose' && page) {
            // The page could not follow: it forgets, and says so.
            page.hold(false);
            page.lose();
          }
          if (one.kind === 'hide') {
            panel.turn(false);
            unload();
          }
          if (one.kind === 'show' && !page) {
            const sent = panel.sent.length;
            panel.turn(true);
            expect(panel.sent.length).toBe(sent);
            page = loadPage(panel, wish);
          }
          await Promise.resolve();
        }
        await new Promise((resolve) => setTimeout(resolve, 0));
        if (page === null) page = loadPage(panel, wish);
        page.hold(false);
        const shown: PanelState = page.state();
        unload();
        panel.turn(false);
        panel.turn(true);
        expect(loadPage(panel, wish).state()).toEqual(shown);
      }),
      { seed: 12, numRuns: tries(5) },
    );
  });
});
