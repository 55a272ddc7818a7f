// Takes its time: searches connections.

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { study } from '../support/study.ts';
import { activateOnStub } from './activated.ts';
import { loadPage } from './pageTwin.ts';
import { editorState, openStubDocument, Range, uncanceled } from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

const text = `winding "Lock gate, trial"
machine { slots 12 poles 2 phases 3 }
layout { layers 2 span 6 }
connect {
  star # of the gate
  route paths 2
}
`;
const source = 'memory:/gate.winding';

const run = (name: string) => editorState.commands.get(`slotwright.${name}`)?.();
/** Work in slices goes on in turns of the loop. */
const settled = async (there: () => boolean) => {
  while (!there()) await new Promise((resolve) => setTimeout(resolve, 0));
};

async function openPage() {
  const document = openStubDocument('gate.winding', text);
  await run('showLayoutPanel');
  const page = loadPage(editorState.panels.at(-1)!);
  return { document, page, connections: () => page.state().connections };
}

/** The joints of the drawing, to tell one from another. */
const drawn = (picture: unknown) => JSON.stringify(picture);

describe('the list of connections in the panel', () => {
  test('is made when it is opened, draws one on trial, and writes it into the text', async () => {
    const { document, page, connections } = await openPage();
    expect(connections()).toEqual({ status: 'none', rows: [], drawn: 0 });
    const usual = drawn(page.picture());
    page.say({ kind: 'connections', open: true });
    await settled(() => connections().status === 'found');
    const { rows } = connections();
    expect(rows.length).toBeGreaterThan(1);
    expect(rows[0]!.join()).not.toContain('(');
    expect(rows[1]![2]).toContain('(+1)');
    // A difference is in the unit of its value, which is told once.
    expect(rows[1]!.filter((cell) => /\(.*[^-+\u2212\d.].*\)/.test(cell))).toEqual([]);

    page.say({ kind: 'try', source, index: 1 });
    expect(connections().drawn).toBe(1);
    expect(drawn(page.picture())).not.toBe(usual);
    expect(page.state().notice).toMatchObject({ stamp: 'On trial: connection 2 of 2', headline: '' });
    expect(document.getText()).toBe(text);
    page.say({ kind: 'try', source, index: 0 });
    expect(drawn(page.picture())).toBe(usual);
    expect(page.state().notice).toBeNull();

    page.say({ kind: 'try', source, index: 1 });
    const trial = page.picture();
    page.say({ kind: 'write', source, index: 1 });
    await settled(() => document.getText() !== text);
    expect(document.getText()).toContain('star # of the gate');
    expect(study(document.getText()).report({ orders: 1 }).routing).toMatchObject({
      wishes: null,
      jointShapes: 2,
    });
    expect(connections()).toMatchObject({ status: 'written', rows: [] });
    expect(page.state().notice).toBeNull();
    expect(JSON.stringify(page.picture()).match(/"joint":\d+/g)).toEqual(
      JSON.stringify(trial).match(/"joint":\d+/g),
    );
  });

  test('follows the text, and forgets a trial with it or with the list', async () => {
    const { document, page, connections } = await openPage();
    page.say({ kind: 'connections', open: true });
    await settled(() => connections().status === 'found');
    page.say({ kind: 'try', source, index: 1 });
    document.edit(text.replace('Lock gate', 'Sluice'));
    expect(connections()).toMatchObject({ status: 'found', drawn: 1 });
    page.say({ kind: 'connections', open: false });
    expect(connections().drawn).toBe(0);
    page.say({ kind: 'connections', open: true });
    page.say({ kind: 'try', source, index: 1 });
    document.edit(text.replace('paths 2', 'paths 1'));
    expect(page.state().notice).toBeNull();
    expect(connections().drawn).toBe(0);
    await settled(() => connections().status === 'found');
    document.edit(text.replace('connect {', 'connect'));
    expect(connections().status).toBe('none');
  });
});

describe('Choose a Connection', () => {
  test('draws what is marked, writes out what is chosen, and leaves all as it was after Escape', async () => {
    const { document, page } = await openPage();
    const usual = drawn(page.picture());
    const seen: string[] = [];
    const look = (items: readonly unknown[], options: { onDidSelectItem: (item: unknown) => void }) => {
      for (const item of items) {
        options.onDidSelectItem(item);
        // As a page does that begins only now.
        page.say({ kind: 'connections', open: false });
        seen.push(drawn(page.picture()));
      }
      return undefined;
    };
    editorState.answers.push(look);
    await run('chooseConnection');
    expect(new Set(seen).size).toBe(seen.length);
    expect(seen[0]).toBe(usual);
    expect(drawn(page.picture())).toBe(usual);
    expect(document.getText()).toBe(text);

    editorState.answers.push((items: readonly { readonly detail: string }[]) => {
      expect(items[1]!.detail).toMatch(
        /bar shapes .* in a slot .* m of bars and pieces|bar shapes .* in a slot/,
      );
      return items[1];
    });
    await run('chooseConnection');
    expect(document.getText()).toContain('path U 1 from U1');
    await run('chooseConnection');
    expect(editorState.information.at(-1)).toContain('written in the text');
  });

  test('says what else there is to ask for where no other connection is better', async () => {
    openStubDocument(
      'pump.winding',
      'winding "Pump"\nmachine { slots 9 poles 2 phases 3 }\nlayout { layers 2 span 4 }\nconnect { star }\n',
    );
    await run('showLayoutPanel');
    await run('chooseConnection');
    expect(editorState.information.at(-1)).toMatch(
      /^No other connection was found that is better in anything\. Another number in 'route paths', .* asks anew\.$/,
    );
  });

  test('is offered where connect stands, as long as paths are found', async () => {
    const { document } = await openPage();
    const start = document.positionAt(document.getText().indexOf('route'));
    const offered = async () => {
      const at = new Range(start, start);
      const asked = editorState.actions.map((provider) =>
        provider.provideCodeActions(document, at, { diagnostics: [] }, uncanceled),
      );
      return (await Promise.all(asked)).flat().flatMap(({ command }) => command?.command ?? []);
    };
    expect(await offered()).toContain('slotwright.chooseConnection');
    await run('writeOutPaths');
    expect(await offered()).not.toContain('slotwright.chooseConnection');
  });
});

describe('another connection that other sizes make the best one', () => {
  // A slot pitch of 10 mm at the bore: joint tips need one slot with the small clearance, one and a half with the large.
  const sized = (clearance: string) => `winding "Lock gate, trial"
machine { slots 12 poles 4 phases 3 bore ${120 / Math.PI} mm }
layout { layers 4 span 3 }
slot { width 7 mm depth 15 mm opening 2 mm opening-height 1 mm }
bar { width 6 mm height 3 mm end-clearance ${clearance} }
connect {
  star
  route paths 4
}
`;
  const hashOf = (words: string) => study(words).report({ orders: 1 }).routing!.hash;

  test('is offered, while the one found before stays, and comes when it is taken', async () => {
    const [small, large] = [sized('0.5 mm'), sized('9 mm')];
    expect(hashOf(large)).not.toBe(hashOf(small));
    const document = openStubDocument('gate.winding', small);
    await run('showLayoutPanel');
    const page = loadPage(editorState.panels.at(-1)!);
    const joints = () => JSON.stringify(page.picture()).match(/"joint":\d+/g);
    const before = joints();
    document.edit(large);
    expect(joints()).toEqual(before);
    // The best one is looked for between keys.
    await expect.poll(() => page.state().notice?.stamp).toBe('Found before');
    const told = () =>
      editorState.diagnostics
        .get(source)!
        .filter(({ code }) => JSON.stringify(code).includes('"connection-offered"'));
    expect(told()).toHaveLength(1);
    expect(told()[0]!.message).toMatch(new RegExp(`${hashOf(large)} .*; ${hashOf(small)} `));
    editorState.commands.get('slotwright.takeConnection')!(document.uri);
    expect(told()).toEqual([]);
    expect(page.state().notice).toBeNull();
    expect(joints()).not.toEqual(before);
    expect(document.getText()).toBe(large);
  });
});
