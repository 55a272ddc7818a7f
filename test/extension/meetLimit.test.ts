// Takes its time: drives the extension with whole windings.

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { study } from '../support/study.ts';
import { actionsAt, activateOnStub } from './activated.ts';
import { editorState, openStubDocument } from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

const winch = `winding "Capstan, trial"

machine {
  slots 12  poles 4  phases 3
  bore 80 mm
}
slot { width 6 mm  depth 14 mm  liner 0.3 mm }
bar { width 5 mm  height 6.2 mm  corner 0.4 mm  coating 0.1 mm }
layout { layers 2  span 2 }
require {
  slot-fill <= 70 %
  winding-factor harmonic 1 >= 0.95
}
`;

interface Item {
  readonly label: string;
  readonly description: string;
  readonly detail: string;
}

const title = 'What would meet this?';
const asked = async (place: string) =>
  (await actionsAt(openStubDocument('capstan.winding', winch), place)).filter((each) => each.title === title);

/** Asks what would meet the limit at a place, and takes the answer with these words. */
async function answersAt(place: string, chosen: string): Promise<readonly Item[]> {
  const [action] = await asked(place);
  let seen: readonly Item[] = [];
  editorState.answers.push((items: readonly Item[]) => {
    seen = items;
    return items.find(({ label }) => label.includes(chosen));
  });
  const { command, arguments: values = [] } = action!.command!;
  await editorState.commands.get(command)!(...values);
  return seen;
}

const fillOf = (text: string) => study(text).limits[0]!;

describe('what would meet a limit', () => {
  test('tells of answers that cannot be connected, and lists them last', async () => {
    const text = `winding "Capstan, joined"
machine { slots 24  poles 4  phases 3 }
layout { layers 2  span 6 }
connect { star  route paths 2 }
require { winding-factor harmonic 5 <= 0.2 }
`;
    const document = openStubDocument('joined.winding', text);
    const [action] = (await actionsAt(document, 'winding-factor')).filter((each) => each.title === title);
    let seen: readonly Item[] = [];
    editorState.answers.push((items: readonly Item[]) => {
      seen = items;
    });
    await editorState.commands.get('slotwright.meetLimit')!(...action!.command!.arguments!);
    const told = seen.map(({ label, detail }) => [label, /^No paths/.test(detail)] as const);
    const unjoined = told.filter(([, without]) => without).map(([label]) => label);
    expect(unjoined.length).toBeGreaterThan(0);
    for (const label of unjoined) expect(label).toMatch(/^machine (slots|poles) /);
    expect(told.slice(-unjoined.length).map(([label]) => label)).toEqual(unjoined);
    expect(told[0]![0]).toMatch(/^layout span 6 /);
  });

  test('is asked of limits that fail, and of nothing else', async () => {
    expect(await asked('slot-fill')).toHaveLength(1);
    expect(await asked('span 2')).toHaveLength(0);
  });

  test('lists single values by as few steps as it takes, and writes the chosen one', async () => {
    const items = await answersAt('slot-fill', 'bar height');
    const { text } = { text: editorState.documents.at(-1)!.getText() };
    const [, height] = /height (\S+) mm/.exec(text)!;
    expect(text).toBe(winch.replace('height 6.2 mm', `height ${height} mm`));
    // One step more would not do.
    const before = winch.replace('height 6.2', `height ${(Number(height) + 0.1).toFixed(1)}`);
    expect([fillOf(text).met, fillOf(before).met]).toEqual([true, false]);
    const labels = items.map(({ label }) => label.split(' ').slice(0, 2).join(' '));
    expect(labels).toEqual(expect.arrayContaining(['bar height', 'bar width', 'slot depth', 'slot width']));
    const own = items.find(({ label }) => label.startsWith('bar height'))!;
    expect(own.label).toBe(`bar height 6.2 mm \u2192 ${height} mm`);
    expect(own.description).toMatch(/^slot-fill = 6[89]\.\d* ?%/);
    expect(own.detail).toBe('still fails: winding-factor harmonic 1');
  });

  test('tries whole numbers as far as they make windings', async () => {
    const items = await answersAt('winding-factor', 'layout span');
    expect(items[0]!.label).toBe('layout span 2 \u2192 3');
    expect(editorState.documents.at(-1)!.getText()).toBe(winch.replace('span 2', 'span 3'));
  });

  test('says so where no single value does', async () => {
    const document = openStubDocument('capstan.winding', winch.replace('>= 0.95', '>= 1.2'));
    const [action] = (await actionsAt(document, 'winding-factor')).filter((each) => each.title === title);
    await editorState.commands.get('slotwright.meetLimit')!(...action!.command!.arguments!);
    expect(editorState.information.at(-1)).toMatch(/No single value .* winding-factor harmonic 1 >= 1.2/);
  });
});
