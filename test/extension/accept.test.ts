// Takes its time: drives the extension with whole windings.

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { study } from '../support/study.ts';
import { actionsAt, activateOnStub } from './activated.ts';
import {
  codeOf,
  DiagnosticSeverity,
  editorState,
  openStubDocument,
  type StubDocument,
  uncanceled,
  workspace,
} from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

// 9 slots and 8 poles: a warning of a net pull, and no other.
const warned = `winding "Slipway winch"

machine {
  slots  9
  poles  8
  phases 3
}

layout {
  layers 2
  span   1
}
`;
const title = 'Accept this warning with a reason';

const diagnosticsOf = (document: StubDocument) => editorState.diagnostics.get(document.uri.toString()) ?? [];
const severities = (document: StubDocument) =>
  diagnosticsOf(document).map((each) => [codeOf(each), each.severity]);

/** The text after accepting the warning where `at` stands; `¦` is the cursor. */
async function accepted(text: string, at = '9'): Promise<string> {
  const document = openStubDocument('winch.winding', text);
  const action = (await actionsAt(document, at)).find((each) => each.title === title);
  await workspace.applyEdit(action!.edit!);
  return document.getText();
}

describe('accepting a warning', () => {
  test('is offered where it stands, and asks for the reason in a block of its own', async () => {
    const document = openStubDocument('winch.winding', warned);
    const [action] = (await actionsAt(document, '9')).filter((each) => each.title === title);
    expect(action!.diagnostics!.map(codeOf)).toEqual(['unbalanced-pull']);
    expect((await actionsAt(document, 'layers')).map((each) => each.title)).not.toContain(title);
    expect(await accepted(warned)).toBe(`${warned}\nrequire {\n  accept unbalanced-pull "¦"\n}\n`);
  });

  test.each([
    [
      'require {\n  winding-factor >= 0.9\n}\n',
      'require {\n  winding-factor >= 0.9\n  accept unbalanced-pull "¦"\n}\n',
    ],
    [
      'require {\n  winding-factor >= 0.9 }\n',
      'require {\n  winding-factor >= 0.9\n  accept unbalanced-pull "¦"\n}\n',
    ],
    [
      'require { winding-factor >= 0.9 }\n',
      'require { winding-factor >= 0.9  accept unbalanced-pull "¦" }\n',
    ],
    ['require { }\n', 'require { accept unbalanced-pull "¦" }\n'],
    ['require {}\n', 'require { accept unbalanced-pull "¦" }\n'],
    ['require {\n  # none yet\n}', 'require {\n  # none yet\n  accept unbalanced-pull "¦"\n}'],
    ['require {\n  }\n', 'require {\n  accept unbalanced-pull "¦"\n  }\n'],
  ])('goes into the block that is there: %j', async (block, after) => {
    expect(await accepted(warned + block)).toBe(warned + after);
    const windows = (text: string) => text.replaceAll('\n', '\r\n');
    expect(await accepted(windows(warned + block))).toBe(windows(warned + after));
  });

  test('is not offered where the block has no end, nor for errors and infos', async () => {
    const open = openStubDocument('open.winding', `${warned}require {\n  winding-factor >= 0.9\n`);
    expect((await actionsAt(open, '9')).map((each) => each.title)).not.toContain(title);
    const failed = openStubDocument('failed.winding', `${warned}require { winding-factor >= 1 }\n`);
    expect((await actionsAt(failed, 'winding-factor')).map((each) => each.title)).not.toContain(title);
  });

  test('is an error until the reason is given, then an info with it', async () => {
    const text = await accepted(warned);
    const document = openStubDocument('asked.winding', text.replace('¦', ''));
    expect(severities(document)).toContainEqual(['reason-missing', DiagnosticSeverity.Error]);
    document.edit(text.replace('¦', 'Bearings are sized for it'));
    expect(severities(document)).toEqual([['unbalanced-pull', DiagnosticSeverity.Information]]);
    expect(diagnosticsOf(document)[0]!.message).toMatch(/\. Accepted: Bearings are sized for it$/);
    expect((await actionsAt(document, '9')).map((each) => each.title)).not.toContain(title);
  });

  test('that is not needed any more can be removed', async () => {
    const text = `${warned.replace('slots  9', 'slots  12')}require {\n  accept unbalanced-pull "Bearings"\n}\n`;
    const document = openStubDocument('winch.winding', text);
    expect(severities(document)).toContainEqual(['accept-unused', DiagnosticSeverity.Warning]);
    const actions = await actionsAt(document, 'unbalanced-pull');
    expect(actions.map((each) => each.title)).toEqual(['Remove this accept']);
    await workspace.applyEdit(actions[0]!.edit!);
    expect(document.getText()).toBe(`${warned.replace('slots  9', 'slots  12')}require {\n}\n`);
  });
});

describe('warnings of paths that are found in the background', () => {
  const text = (accept: string) =>
    `winding "x"\nmachine { slots 36 poles 4 phases 3 }\nlayout { layers 4 span 9 }\nconnect { star route paths 2 fewest joints }\nrequire {\n  ${accept}\n}\n`;

  test('are accepted when they come, and until then the accept is not called unused', () => {
    const code = study(text('')).findings.find(({ severity }) => severity === 'warning')!.code;
    let time = 0;
    const waiting: (() => void)[] = [];
    end();
    end = activateOnStub({
      now: () => {
        time += 6;
        return time;
      },
      later: (work) => {
        waiting.push(work);
      },
    });
    for (const start of waiting.splice(0)) start();
    const document = openStubDocument('slow.winding', text(`accept ${code} "seen in the shop"`));
    expect(waiting).toHaveLength(1);
    expect(severities(document)).toEqual([]);
    for (let work = waiting.shift(); work; work = waiting.shift()) work();
    const found = diagnosticsOf(document).filter((each) => codeOf(each) === code);
    expect(found.length).toBeGreaterThan(0);
    for (const { severity, message } of found) {
      expect(severity).toBe(DiagnosticSeverity.Information);
      expect(message).toContain('Accepted: seen in the shop');
    }
    expect(severities(document).flat()).not.toContain('accept-unused');
  });
});

describe('the code of an accept', () => {
  const place = (marked: string) => {
    const document = openStubDocument('winch.winding', marked.replace('¦', ''));
    return { document, at: document.positionAt(marked.indexOf('¦')) };
  };
  const offered = async (lines: string, triggerCharacter?: string) => {
    const { document, at } = place(`${warned}require {\n  ${lines}\n}\n`);
    const context = triggerCharacter === undefined ? {} : { triggerCharacter };
    return editorState.providers.completion!.provideCompletionItems(document, at, undefined, context);
  };
  const hovered = async (lines: string) => {
    const { document, at } = place(`${warned}require {\n  ${lines}\n}\n`);
    return (await editorState.providers.hover!.provideHover(document, at, uncanceled))?.contents.value ?? '';
  };

  test('is offered where a warning occurs, with what it says; its reason is asked for', async () => {
    for (const lines of ['accept ¦', 'accept unb¦', 'accept ¦ "seen"', 'accept jumpers¦']) {
      const items = await offered(lines, lines === 'accept ¦' ? ' ' : undefined);
      expect(
        items.map(({ label }) => label),
        lines,
      ).toEqual(['unbalanced-pull']);
      expect(items[0]!.detail).toContain('pull');
      expect(items[0]!.documentation!.value).toContain('symmetry');
      const inserted = items[0]!.insertText as { value: string } | undefined;
      expect(inserted?.value, lines).toBe(lines.endsWith('"seen"') ? undefined : 'unbalanced-pull "$1"$0');
    }
    expect(await offered('accept unbalanced-pull ¦')).toEqual([]);
    expect((await offered('acc¦')).map(({ label }) => label)).toContain('accept');
  });

  test('shows its meaning and which warnings are accepted, a code that is a quantity too', async () => {
    const text = await hovered('accept unbalanced-p¦ull "seen"');
    expect(text).toContain('**unbalanced-pull**');
    expect(text).toContain('Without rotational symmetry');
    expect(text).toMatch(/Accepted here:\n\n- Line 4: 9 slots and 8 poles/);
    const other = await hovered('accept jum¦pers "seen"');
    expect(other).toContain('separate connecting pieces');
    expect(other).toContain('There is no such warning at present.');
    expect(await hovered('acc¦ept jumpers "seen"')).toContain('Errors cannot be accepted.');
  });
});
