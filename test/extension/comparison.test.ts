import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type ComparisonContent, readComparison } from '../../extension/comparisonMessages.ts';
import { activateOnStub, brokenText, soundText } from './activated.ts';
import {
  editorState,
  openStubDocument,
  StubDocument,
  StubPanel,
  TabInputTextDiff,
  Uri,
} from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

const shorter = soundText.replace('span   5', 'span   4');
const run = (name: string, ...args: unknown[]) => editorState.commands.get(`slotwright.${name}`)?.(...args);
const content = () => editorState.panels.at(-1)?.sent.at(-1) as ComparisonContent;

function openPair() {
  return [openStubDocument('old.winding', soundText), openStubDocument('new.winding', shorter)] as const;
}

describe('comparing two windings', () => {
  test('the two files selected in the explorer', async () => {
    const [old, now] = openPair();
    await run('compareWindings', now.uri, [old.uri, now.uri]);
    const shown = content();
    expect(readComparison(shown)).toBe(shown);
    expect([shown.old.name, shown.now.name]).toEqual(['old.winding', 'new.winding']);
    expect(shown.headline).toBe('The winding changed.');
    const statements = shown.tables.find(({ title }) => title === 'Changed statements');
    expect(statements?.rows).toEqual([['layout span', '5', '4']]);
    expect(shown.differences.length).toBeGreaterThan(0);
    for (const { old: before, now: after } of shown.differences) expect(before ?? after).not.toBeNull();
    expect(shown.overlay?.title).toContain('comparison');
  });

  test('two that its reader picks', async () => {
    openPair();
    const pick = (index: number) => (items: readonly unknown[]) => items[index];
    editorState.answers.push(pick(0), pick(0));
    await run('compareWindings');
    expect([content().old.name, content().now.name]).toEqual(['new.winding', 'old.winding']);
  });

  test('it follows edits of both, and can be swapped', async () => {
    const [old, now] = openPair();
    await run('compareWindings', now.uri, [old.uri, now.uri]);
    now.edit(soundText);
    expect(content().headline).toBe('The same winding.');
    expect(content().differences).toEqual([]);
    old.edit(shorter);
    expect(content().headline).toBe('The winding changed.');
    editorState.panels[0]?.say({ kind: 'swap' });
    expect([content().old.name, content().now.name]).toEqual(['new.winding', 'old.winding']);
    editorState.panels[0]?.say({ kind: 'run' });
    expect(editorState.panels).toHaveLength(1);
  });

  test('a text that yields no winding is compared as far as that goes', async () => {
    const [old, now] = openPair();
    now.edit(brokenText);
    await run('compareWindings', now.uri, [old.uri, now.uri]);
    expect(content().overlay).toBeNull();
    expect(content().details.join(' ')).toMatch(/winding/);
    expect(readComparison(content())).not.toBeNull();
  });

  test('the texts of a text comparison in the editor', async () => {
    const [old, now] = openPair();
    editorState.activeTab = new TabInputTextDiff(old.uri, now.uri);
    await run('compareShown');
    expect([content().old.name, content().now.name]).toEqual(['old.winding, before', 'new.winding']);
    editorState.activeTab = undefined;
    await run('compareShown');
    expect(editorState.information).toEqual(['Open the text comparison of a winding file first.']);
  });

  test('a reloaded window brings it back; a spoilt state closes it', async () => {
    const [old, now] = openPair();
    const serializer = editorState.serializers.get('slotwright.comparison')!;
    const restored = new StubPanel();
    const state = { old: old.uri.toString(), now: now.uri.toString(), oldName: 'before', view: 'numbers' };
    await serializer.deserializeWebviewPanel(restored, state);
    expect((restored.sent.at(-1) as ComparisonContent).old.name).toBe('before');
    const spoilt = new StubPanel();
    let closed = false;
    spoilt.onDidDispose(() => {
      closed = true;
    });
    await serializer.deserializeWebviewPanel(spoilt, { old: 3 });
    expect(closed).toBe(true);
  });
});

describe('comparing with a committed version', () => {
  /** A git extension as documented: one repository with one commit of one file. */
  function installGit(asked: string[] = []) {
    const repository = {
      show: async (ref: string, path: string) => {
        asked.push(ref);
        if (path !== '/pump.winding' || ref === 'v0') throw new Error('no such path');
        return soundText;
      },
      log: async () => [{ hash: '0123456789abcdef0123', message: 'Shorten the span\n\nBecause.' }],
      getRefs: async () => [{ name: 'main' }, {}],
    };
    const api = {
      getRepository: (uri: Uri) => (uri.path.startsWith('/elsewhere') ? null : repository),
      toGitUri: (uri: Uri, ref: string) => {
        const committed = Uri.parse(`git:${uri.path}?${ref}`);
        editorState.documents.push(new StubDocument(committed, soundText));
        return committed;
      },
    };
    editorState.extensions.set('vscode.git', {
      activate: async () => ({ getAPI: () => api }),
    });
    return asked;
  }
  const labelled = (label: string) => (items: readonly { readonly label: string }[]) =>
    items.find((item) => item.label === label);

  test('without git it explains itself', async () => {
    openStubDocument('pump.winding', shorter);
    await run('compareCommitted');
    expect(editorState.information[0]).toMatch(/^Git is not to be had in this editor/);
    editorState.extensions.set('vscode.git', {
      activate: async () => ({
        getAPI: () => {
          throw new Error('Git model not found');
        },
      }),
    });
    await run('compareCommitted');
    expect(editorState.information).toHaveLength(2);
    expect(editorState.panels).toHaveLength(0);
  });

  test('the last commit, from the text, the explorer or the source control view', async () => {
    const asked = installGit();
    const pump = openStubDocument('pump.winding', shorter);
    for (const target of [undefined, pump.uri, { resourceUri: pump.uri }]) {
      editorState.answers.push(labelled('HEAD'));
      await run('compareCommitted', target);
      await vi.waitFor(() => expect(content().old.name).toBe('pump.winding at HEAD'));
      expect(content().headline).toBe('The winding changed.');
    }
    expect(asked).toEqual(['HEAD', 'HEAD', 'HEAD']);
    pump.edit(soundText);
    expect(content().headline).toBe('The same winding.');
  });

  test('commits of the file, branches, and any revision that is typed', async () => {
    const asked = installGit();
    openStubDocument('pump.winding', shorter);
    editorState.answers.push((items: readonly { readonly label: string; readonly description: string }[]) => {
      expect(items.map(({ label }) => label)).toEqual(['HEAD', '0123456789', 'main', 'Another revision...']);
      expect(items[1]?.description).toBe('Shorten the span');
      return items[1];
    });
    await run('compareCommitted');
    editorState.answers.push(labelled('Another revision...'), ' v1 ');
    await run('compareCommitted');
    editorState.answers.push(labelled('Another revision...'), ' ');
    await run('compareCommitted');
    await run('compareCommitted');
    expect(asked).toEqual(['0123456789', 'v1']);
  });

  test('a file outside, one that git does not have, and no winding are explained', async () => {
    installGit();
    openStubDocument('pump.winding', shorter);
    editorState.answers.push(labelled('Another revision...'), 'v0');
    await run('compareCommitted');
    await run('compareCommitted', Uri.parse('memory:/elsewhere/pump.winding'));
    await run('compareCommitted', Uri.parse('memory:/readme.md'));
    expect(editorState.information).toEqual([
      'Git has no pump.winding at v0.',
      'pump.winding does not lie in a git repository.',
      'Open or select a winding file to compare it with its committed version.',
    ]);
    expect(editorState.panels).toHaveLength(0);
  });
});
