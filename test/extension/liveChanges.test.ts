import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Baseline } from '../../extension/protocol/shownParts.ts';
import { writtenGate } from '../support/lockGate.ts';
import { activateOnStub } from './activated.ts';
import { loadPage } from './pageTwin.ts';
import { editorState, openStubDocument, StubDocument, Uri } from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => {
  editorState.extensions.delete('vscode.git');
  end();
});

const source = 'memory:/gate.winding';

/** What is told comes in a turn of its own. */
const turn = () => new Promise((resolve) => setTimeout(resolve, 5));

async function openPage() {
  const document = openStubDocument('gate.winding', writtenGate);
  await editorState.commands.get('slotwright.showLayoutPanel')?.();
  const page = loadPage(editorState.panels.at(-1)!);
  const against = async (baseline: Baseline) => {
    page.say({ kind: 'against', source, against: baseline });
    await turn();
  };
  const edit = async (text: string) => {
    document.edit(text);
    await turn();
  };
  return { page, against, edit, difference: () => page.state().difference };
}

/** A git as the editor has it, that knows one file at its last commit, or none. */
function withGit(text: string | null): void {
  editorState.extensions.set('vscode.git', {
    activate: async () => ({ getAPI: () => api(text) }),
  });
}

function api(text: string | null) {
  return {
    getRepository: () => ({
      show: async (ref: string) => {
        if (text === null || ref === '') throw new Error('not there');
        return text;
      },
      log: async () => [],
      getCommit: async () => ({ hash: 'a1b2c3d4e5'.repeat(4), message: 'Draw the gate' }),
    }),
    toGitUri: (uri: Uri, ref: string) => {
      const committed = Uri.parse(`git:${uri.path}?${ref}`);
      if (text !== null) editorState.documents.push(new StubDocument(committed, text));
      return committed;
    },
  };
}

describe('what changed while typing', () => {
  test('is told against a state that was kept, when asked to', async () => {
    const { page, against, edit, difference } = await openPage();
    await edit(writtenGate.replace('Lock', 'Sluice'));
    expect(difference()).toBeNull();
    await against('kept');
    expect(difference()?.words).toContain('Nothing in bars, joints and key figures');
    await edit(writtenGate.replace('Lock', 'Sluice').replace('7b -3a -3b -3a', '1b -3a -3b -3a'));
    expect(difference()?.words).toMatch(/^Changed against the state that was kept: .*joints or leads new/);
    expect(difference()?.joints.length).toBeGreaterThan(0);
    const before = page.bytes();
    await edit(writtenGate.replace('Lock', 'Sluices').replace('7b -3a -3b -3a', '1b -3a -3b -3a'));
    // A letter of the title costs no more than without the comparison.
    expect(page.bytes() - before).toBeLessThan(4000);
    expect(page.updates.at(-1)?.changes).not.toHaveProperty('difference');
    await edit(writtenGate.replace('span 3', 'span three'));
    expect(difference()?.words).toContain('The text has errors');
    await against('off');
    expect(difference()).toBeNull();
  });

  test('shows figures before and now', async () => {
    const { against, edit, difference } = await openPage();
    await against('kept');
    await edit(writtenGate.replace(/connect[^}]*\}/, '').replace('span 3', 'span 2'));
    const rows = difference()?.rows ?? [];
    expect(rows.map(([label]) => label)).toContain('Winding factor');
    for (const row of rows) expect(row).toHaveLength(3);
  });

  test('is told against the last commit', async () => {
    withGit(writtenGate.replace('7b -3a -3b -3a', '1b -3a -3b -3a'));
    const { against, difference } = await openPage();
    await against('commit');
    await turn();
    expect(difference()?.words).toMatch(/^Changed against gate\.winding at a1b2c3d4e5: /);
  });

  test('says plainly why there is no commit to compare with', async () => {
    const { against, difference } = await openPage();
    await against('commit');
    expect(difference()?.words).toContain('Git is not to be had in this editor');
    withGit(null);
    await against('commit');
    await turn();
    expect(difference()?.words).toContain('gate.winding is not tracked by git');
    editorState.extensions.set('vscode.git', {
      activate: async () => ({ getAPI: () => ({ getRepository: () => null }) }),
    });
    await against('commit');
    await turn();
    expect(difference()?.words).toContain('does not lie in a git repository');
  });
});
