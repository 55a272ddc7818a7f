// Takes its time: drives the extension with whole windings.

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { DrawAct, Subject } from '../../extension/protocol/subject.ts';
import { lockGate, writtenGate } from '../support/lockGate.ts';
import { study } from '../support/study.ts';
import { activateOnStub } from './activated.ts';
import { loadPage } from './pageTwin.ts';
import { editorState, openStubDocument } from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

const source = 'memory:/gate.winding';

/** The editor makes edits in turns of its loop. */
const turn = () => new Promise((resolve) => setTimeout(resolve, 0));

async function openPage(text: string) {
  const document = openStubDocument('gate.winding', text);
  await editorState.commands.get('slotwright.showLayoutPanel')?.();
  const page = loadPage(editorState.panels.at(-1)!);
  const act = async (name: DrawAct, subject: Subject | string | null = null, by: 1 | -1 | 0 = 0) => {
    const what = typeof subject === 'string' ? { bar: subject } : subject;
    page.say({ kind: 'draw', source, act: name, subject: what, by });
    await turn();
  };
  const drawing = () => page.state().drawing;
  return {
    document,
    page,
    act,
    drawing,
    errors: () => study(document.getText()).findings.filter(({ severity }) => severity === 'error'),
  };
}

describe('a path drawn by hand', () => {
  test('that is the only one of its phase is told as such, and its angle with a true minus', async () => {
    // 1.5 slots a pole and phase: the second bar stands 40 electrical degrees from the first.
    const { act, drawing } = await openPage(`winding "Hub"
machine { slots 9 poles 2 phases 3 }
layout { layers 2 span 4 }
connect { delta }
`);
    await act('path', '2a');
    for (let steps = 0; steps < 2; steps++) await act('take');
    const lines = drawing()!.lines.join('\n');
    expect(lines).toMatch(
      /^Path U 1: 3 bars, [\d.]+ % of an even share of the voltage, turned by \u2212[\d.]+\u00b0;/,
    );
    expect(lines).toContain('One path takes all 6 bars');
  });

  test('is written when it is ended, as one edit, and says at every step where it is', async () => {
    const { document, page, act, drawing, errors } = await openPage(writtenGate);
    await act('path', '7a');
    // 7a is of path 1; the other path keeps its bars.
    expect(drawing()?.words).toContain('Bar 7, layer a, start of path U 1; 1 of 4.');
    expect(drawing()?.words).toContain('Next: Bar 10, layer b, regular; 1 of 2.');
    expect(drawing()?.words).toContain('V, W follow, as copies of U.');
    expect(drawing()?.next).toEqual([
      { bar: '10b', kind: 'regular' },
      { bar: '4b', kind: 'piece' },
    ]);
    expect(drawing()?.lines[0]).toBe(
      'Path U 1: 1 bar, 25 % of an even share of the voltage; layers a 1, b 0',
    );
    expect(page.state().notice?.stamp).toBe('Drawing by hand');
    expect(page.state().marks.bars).toEqual(['7a']);
    await act('mark', null, 1);
    expect(drawing()).toMatchObject({ marked: 1 });
    await act('mark', null, -1);
    await act('take');
    expect(drawing()?.words).toMatch(/^Bar 10, layer b, regular; 2 of 4\./);
    await act('back');
    expect(page.state().marks.bars).toEqual(['7a']);
    await act('take', '10b');
    await act('take', '3a');
    expect(drawing()?.words).toContain('3a cannot follow here.');
    await act('take', '1a');
    await act('end');
    expect(drawing()?.words).toContain('ends on the connection side');
    await act('take');
    expect(drawing()?.words).toContain('All bars of U are used');
    expect(document.getText()).toBe(writtenGate);
    await act('end');
    expect(document.getText()).toBe(writtenGate.replace('1a +3b +3a +3b', '7a +3b +3a +3b'));
    expect(drawing()).toBeNull();
    expect(page.state().marks.words).toContain('Written: the paths of U.');
    expect(page.state().notice).toBeNull();
    expect(errors()).toEqual([]);
  });

  test('is seen as it grows, and the drawing is as before once it is left', async () => {
    const { page, act } = await openPage(writtenGate);
    const picture = () => JSON.stringify(page.state().view);
    const before = picture();
    const seen = [before];
    await act('path', '7a');
    seen.push(picture());
    for (const bar of ['10b', '1a']) {
      await act('take', bar);
      seen.push(picture());
    }
    expect(new Set(seen).size).toBe(seen.length);
    await act('back');
    expect(picture()).toBe(seen[2]);
    await act('leave');
    expect(picture()).toBe(before);
  });

  test('of a routed winding has the found paths written out first, and says so', async () => {
    const { document, act, drawing } = await openPage(lockGate('  route paths 2'));
    await act('path');
    expect(document.getText()).toContain('path U 2 from');
    expect(drawing()?.words).toContain('The found paths were written into the text first');
    const before = document.getText();
    await act('leave');
    expect(drawing()).toBeNull();
    expect(document.getText()).toBe(before);
  });

  test('of all paths of a phase goes from one to the next; two of twelve slots by keys alone', async () => {
    const { document, act, drawing, errors } = await openPage(lockGate('  route paths 3'));
    await act('phase');
    expect(drawing()?.words).toContain('Start of path U 1: Bar 1, layer a; 1 of 4.');
    for (let bar = 0; bar < 4; bar++) await act('take');
    await act('end');
    expect(drawing()?.words).toContain('Path U 1 ends. Start of path U 2: Bar 1, layer b; 1 of 2.');
    for (let bar = 0; bar < 4; bar++) await act('take');
    await act('end');
    expect(document.getText()).toBe(
      lockGate(`  path U 1 from U1 1a +3b +3a +3b to N
  path U 2 from U1 1b -3a -3b -3a to N
  repeat U as V shift 2
  repeat U as W shift 4`),
    );
    expect(errors()).toEqual([]);
  });

  test('is left untouched by Escape, and gone on with', async () => {
    const { document, act, drawing, page } = await openPage(writtenGate);
    await act('path', '1a');
    await act('take');
    await act('leave');
    expect(page.state().marks.words).toContain('nothing was written');
    await act('path');
    expect(drawing()?.words).toContain('Going on with the drawing that was left.');
    document.edit(writtenGate.replace('Lock gate', 'Sluice gate'));
    expect(drawing()).toBeNull();
    expect(page.state().marks.words).toContain('The text changed');
  });

  test('is refused, with the reason, where there is nothing to draw on', async () => {
    const { act, drawing } = await openPage(writtenGate.replace('star #', '#'));
    await act('path', '1a');
    expect(drawing()).toBeNull();
    expect(editorState.information.at(-1)).toContain('how the phases are joined');
  });
});

describe('a joint that is to lead elsewhere', () => {
  test('changes the text where both bars stand, at once', async () => {
    const { document, act, drawing, errors } = await openPage(writtenGate);
    await act('joint', '4b');
    expect(drawing()).toMatchObject({
      joint: true,
      next: [
        { bar: '1b', kind: 'piece' },
        { bar: '7b', kind: 'piece' },
        { bar: '1a', kind: 'piece' },
      ],
    });
    expect(drawing()?.words).toContain(
      'Joint 4b to 7a: lead it to Bar 1, layer b instead, piece: within one layer; 1 of 3.',
    );
    expect(drawing()?.lines[1]).toContain('Path U 1: 4 bars');
    await act('mark', null, 1);
    await act('take');
    expect(document.getText()).toContain('path U 1 from U1 1a +3b | +3b -3a -3b -3a to N');
    expect(document.getText()).toContain('path U 2 from U1 7a +3b to N # by hand');
    expect(errors().map(({ code }) => code)).not.toContain('bar-used-twice');
    expect(drawing()).toBeNull();
  });

  test('is not there at the end of a path', async () => {
    const { act, drawing } = await openPage(writtenGate);
    await act('joint', '10b');
    expect(drawing()).toBeNull();
    expect(editorState.information.at(-1)).toContain('No joint of a path leads on from there');
  });
});
