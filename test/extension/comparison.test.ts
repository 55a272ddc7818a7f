// Takes its time: drives the extension with whole windings.

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Primitive } from '../../core/picture/picture.ts';
import { type ComparisonContent, readComparison } from '../../extension/protocol/comparisonMessages.ts';
import { legibleScale, openingView } from '../../extension/webview/viewport/viewport.ts';
import { smallHairpins } from '../space/machines.ts';
import { activateOnStub, soundText } from './activated.ts';
import {
  editorState,
  events,
  openStubDocument,
  StubDocument,
  StubPanel,
  TabInputTextDiff,
  Uri,
  workspace,
} from './vscodeStub.ts';

const allOf = (items: readonly Primitive[]): readonly Primitive[] =>
  items.flatMap((item) => [item, ...(item.kind === 'group' ? allOf(item.items) : [])]);

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

const shorter = soundText.replace('span   5', 'span   4');
const run = (name: string, ...args: unknown[]) => editorState.commands.get(`slotwright.${name}`)?.(...args);
const content = () => comparisonOf(editorState.panels.at(-1)!);

/** What a panel's page shows; a page that was not loaded yet is loaded, and answers what it is sent. */
const pages = new WeakSet<StubPanel>();
function comparisonOf(panel: StubPanel): ComparisonContent {
  if (!pages.has(panel)) {
    pages.add(panel);
    panel.posted.event(() => panel.say({ kind: 'shown' }));
    panel.say({ kind: 'ready' });
  }
  return panel.sent.at(-1) as ComparisonContent;
}

function openPair() {
  return [openStubDocument('old.winding', soundText), openStubDocument('new.winding', shorter)] as const;
}

describe('comparing two windings', () => {
  test('no name stands twice on the page, also where bars stand in space', async () => {
    const other = smallHairpins().replace('bend-radius 3 mm', 'bend-radius 3.5 mm');
    const [old, now] = [
      openStubDocument('old.winding', smallHairpins()),
      openStubDocument('new.winding', other),
    ];
    await run('compareWindings', now.uri, [old.uri, now.uri]);
    const shown = content();
    expect(shown.space).not.toBeNull();
    const pictures = [shown.overlay, shown.space, shown.old.picture, shown.now.picture];
    const ids = pictures.flatMap((picture) => allOf(picture!.items)).map(({ id }) => id);
    // The page says what its lines mean, and which winding is which: pictures hold no head, notes and legend of changes.
    expect(ids.filter((id) => /(^|-)(title|notes|legend-kept|change-\d+)$/.test(id))).toEqual([]);
    for (const picture of [shown.overlay!, shown.old.picture!, shown.now.picture!])
      expect(openingView('height', picture, { width: 900, height: 400 }).scale).toBeGreaterThanOrEqual(
        legibleScale,
      );
    expect(shown.space!.notes?.join()).toContain('Orthographic');
    expect(ids.length).toBeGreaterThan(300);
    const seen = new Set<string>();
    expect(ids.filter((id) => seen.size === seen.add(id).size)).toEqual([]);
    expect(shown.counted).toBe('No bar and no joint differs.');
  });

  test('a file that changes on the disk, moves or goes while no editor holds its text is followed, and that is said', async () => {
    const [old, now] = openPair();
    await run('compareWindings', now.uri, [old.uri, now.uri]);
    expect(content().headline).toBe('The winding changed.');
    // Of a file that no editor shows, the editor lets the text go after some minutes.
    const put = (name: string, text: string) => {
      editorState.documents = editorState.documents.filter(({ uri }) => !uri.path.endsWith(`/${name}`));
      const document = new StubDocument(Uri.parse(`memory:/${name}`), text);
      editorState.documents.push(document);
      return document;
    };
    const changed = put('new.winding', soundText);
    events.closed.fire(now);
    await vi.waitFor(() => expect(content().headline).not.toBe('The winding changed.'));
    editorState.documents = [old];
    const moved = put('moved.winding', shorter);
    events.renamed.fire({ files: [{ oldUri: changed.uri, newUri: moved.uri }] });
    await vi.waitFor(() => expect(content().now.name).toBe('moved.winding'));
    expect(content().headline).toBe('The winding changed.');
    expect(editorState.panels[0]?.title).toBe('moved.winding against old.winding');
    editorState.documents = [old];
    events.closed.fire(moved);
    await vi.waitFor(() =>
      expect(content().notice?.headline).toBe(
        'moved.winding cannot be read any more. Compared is what was known of it.',
      ),
    );
    expect(content().headline).toBe('The winding changed.');
    editorState.panels[0]?.say({ kind: 'reveal', source: moved.uri.toString(), place: 'layout' });
    await vi.waitFor(() =>
      expect(editorState.information).toContain('moved.winding cannot be read any more.'),
    );
    openStubDocument('moved.winding', shorter);
    expect(content().notice).toBeNull();
  });

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
    expect(shown.overlay?.notes?.join()).toMatch(/^Numbers at the cut edges/);
  });

  test('its tables tell the worse numbers before the better, and what else the shop makes', async () => {
    const [old, now] = openPair();
    await run('compareWindings', now.uri, [old.uri, now.uri]);
    const table = (name: string) => content().tables.find(({ title }) => title === name)!;
    const verdicts = table('Numbers that moved').rows.map((row) => row[4]);
    expect(verdicts.filter((verdict, index) => verdict !== verdicts[index - 1])).toEqual(['worse', 'better']);
    const shapes = table('Shapes of bars and joints');
    expect(shapes.columns).toEqual(['shape', 'old pieces', 'new pieces']);
    expect(shapes.rows.length).toBeGreaterThan(2);
    // As many joints as before, in other shapes.
    const pieces = (column: 1 | 2) =>
      shapes.rows
        .filter(([shape]) => shape!.startsWith('joint, '))
        .reduce((sum, row) => sum + Number(row[column]), 0);
    expect(pieces(1)).toBeGreaterThan(0);
    expect(pieces(1)).toBe(pieces(2));
  });

  test('its tables begin with what was written otherwise, and end with the numbers that hardly moved', async () => {
    const [old, now] = openPair();
    await run('compareWindings', now.uri, [old.uri, now.uri]);
    const titles = content().tables.map(({ title }) => title);
    const order = [
      'Changed statements',
      'Limits',
      'Findings',
      'Numbers that moved',
      'Shapes of bars and joints',
      'Numbers that hardly moved',
    ];
    expect(titles).toEqual(order.filter((title) => titles.includes(title)));
    expect(titles).toEqual(expect.arrayContaining(['Changed statements', 'Numbers that moved']));
  });

  test('limits that fail stand first, with a sign', async () => {
    const asked = 'require {\n  differential-leakage <= 90 %\n  winding-factor harmonic 1 >= 0.999\n}\n';
    const [old, now] = [soundText, shorter].map((text, index) =>
      openStubDocument(`${index}.winding`, text.replace(/require \{[^}]*\}\n?/, '') + asked),
    );
    await run('compareWindings', now!.uri, [old!.uri, now!.uri]);
    const { rows } = content().tables.find(({ title }) => title === 'Limits')!;
    expect(rows.map((row) => [row[0], row[5]!.replace(/, held before/, '')])).toEqual([
      ['winding-factor harmonic 1', '✗ no'],
      ['differential-leakage', 'yes'],
    ]);
  });

  test('two that its reader picks', async () => {
    openPair();
    const pick = (index: number) => (items: readonly unknown[]) => items[index];
    editorState.answers.push(pick(0), pick(0));
    await run('compareWindings');
    expect([content().old.name, content().now.name]).toEqual(['new.winding', 'old.winding']);
  });

  test('the list holds files of the workspace, open or not, and texts that are no files yet', async () => {
    editorState.workspaceFolders = ['memory:/yard'];
    for (const name of ['a', 'b'])
      editorState.files.set(`memory:/yard/${name}.winding`, new TextEncoder().encode(soundText));
    openStubDocument('yard/b.winding', soundText);
    await workspace.openTextDocument(Uri.parse('untitled:/yard/trial.winding'));
    let offered: readonly { readonly label: string }[] = [];
    editorState.answers.push((items: typeof offered) => {
      offered = items;
    });
    await run('compareWindings');
    expect(offered.map(({ label }) => label)).toEqual([
      'yard/a.winding',
      'yard/b.winding',
      'yard/trial.winding',
    ]);
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
    now.edit('winding "Empty"');
    await run('compareWindings', now.uri, [old.uri, now.uri]);
    expect(content().overlay).toBeNull();
    expect(content().details.join(' ')).toMatch(/winding/);
    expect(content().notice?.headline).toBe('new.winding does not yield a winding.');
    expect(readComparison(content())).not.toBeNull();
  });

  test('while a text breaks its last good winding stays compared, and that is said with the places to mend', async () => {
    const [old, now] = openPair();
    await run('compareWindings', now.uri, [old.uri, now.uri]);
    const good = content();
    expect(good.notice).toBeNull();
    now.edit(shorter.replace('poles  2', 'polse  2'));
    const shown = content();
    expect({ ...shown, notice: null }).toEqual(good);
    expect(readComparison(shown)).toBe(shown);
    expect(shown.notice?.stamp).toBe('Out of date');
    expect(shown.notice?.headline).toBe(
      'new.winding has errors. Compared is its last winding that could be drawn.',
    );
    const place = shown.notice!.places[0]!;
    expect(place.text).toMatch(/^new\.winding, line 5: /);
    editorState.panels[0]?.say({ kind: 'reveal', ...place });
    await vi.waitFor(() => expect(editorState.shown.at(-1)?.document).toBe(now));
    now.edit(soundText);
    expect(content().notice).toBeNull();
    expect(content().headline).toBe('The same winding.');
  });

  test('one comparison is under way at a time, and none for a hidden page', async () => {
    const [old, now] = openPair();
    await run('compareWindings', now.uri, [old.uri, now.uri]);
    const panel = editorState.panels[0]!;
    panel.say({ kind: 'ready' });
    for (const span of ['3', '4', '5']) now.edit(soundText.replace('span   5', `span   ${span}`));
    expect(panel.sent).toHaveLength(1);
    panel.say({ kind: 'shown' });
    expect(panel.sent).toHaveLength(2);
    expect((panel.sent[1] as ComparisonContent).headline).toBe('The same winding.');
    panel.turn(false);
    now.edit(shorter);
    panel.say({ kind: 'shown' });
    expect(panel.sent).toHaveLength(2);
    panel.say({ kind: 'ready' });
    expect((panel.sent[2] as ComparisonContent).headline).toBe('The winding changed.');
  });

  test('two selected files of which one is no winding are told so', async () => {
    const [old] = openPair();
    await run('compareWindings', old.uri, [old.uri, Uri.parse('memory:/readme.md')]);
    expect(editorState.information).toEqual(['Select two winding files, or none to pick them from a list.']);
  });

  test('the texts of a text comparison in the editor', async () => {
    const [old, now] = openPair();
    editorState.activeTab = new TabInputTextDiff(old.uri, now.uri);
    await run('compareShown');
    expect([content().old.name, content().now.name]).toEqual(['old.winding', 'new.winding']);
    for (const [ref, name] of [
      ['', 'new.winding in the index'],
      ['~', 'new.winding in the index'],
      ['HEAD', 'new.winding at HEAD'],
      ['0123456789abcdef0123456789abcdef01234567', 'new.winding at 0123456789'],
      [3, 'new.winding, before'],
    ] as const) {
      const committed = Uri.parse(`git:/new.winding?${JSON.stringify({ path: '/new.winding', ref })}`);
      editorState.documents.push(new StubDocument(committed, soundText));
      editorState.activeTab = new TabInputTextDiff(committed, now.uri);
      await run('compareShown');
      expect([content().old.name, content().now.name]).toEqual([name, 'new.winding']);
    }
    editorState.activeTab = undefined;
    await run('compareShown');
    expect(editorState.information).toEqual(['Open the text comparison of a winding file first.']);
  });

  test('a reloaded window brings it back; a spoilt state closes it', async () => {
    const [old, now] = openPair();
    const serializer = editorState.serializers.get('slotwright.comparison')!;
    const restored = new StubPanel();
    const names = { oldName: 'before', oldAbout: 'tuned', nowName: 'after', nowAbout: '' };
    const state = { old: old.uri.toString(), now: now.uri.toString(), ...names, view: 'numbers' };
    await serializer.deserializeWebviewPanel(restored, state);
    const shown = comparisonOf(restored);
    expect([shown.old.name, shown.old.about, shown.now.name]).toEqual(['before', 'tuned', 'after']);
    expect(restored.title).toBe('after against before');
    const lost = new StubPanel();
    await serializer.deserializeWebviewPanel(lost, { ...state, old: 'memory:/gone.winding' });
    expect(lost.webview.html).toContain('after and before could not be compared again');
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
  const hash = '0123456789abcdef0123456789abcdef01234567';
  const oldHash = 'fedcba9876543210fedcba9876543210fedcba98';

  /** A git extension as documented: one repository with a commit without the file and one with it. */
  function installGit({ commits = [hash, oldHash], staged = [] as string[] } = {}) {
    const asked: string[] = [];
    const names: Readonly<Record<string, string | undefined>> = {
      HEAD: hash,
      main: hash,
      v1: hash,
      v0: oldHash,
    };
    const repository = {
      show: async (ref: string, path: string) => {
        if (ref === '' ? staged.includes(path) : path === '/pump.winding' && ref === hash) return soundText;
        throw new Error('no such path');
      },
      getCommit: async (ref: string) => {
        const name = ref.replace('^{commit}', '');
        asked.push(name);
        const named = commits.find((commit) => commit === names[name] || commit.startsWith(name));
        if (named === undefined) throw new Error('unknown revision');
        return { hash: named, message: 'Shorten the span\n\nBecause.' };
      },
      log: async ({ path }: { readonly path: string }) =>
        path === '/pump.winding' && commits.includes(hash)
          ? [{ hash, message: 'Shorten the span\n\nBecause.' }]
          : [],
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
  const labeled = (label: string) => (items: readonly { readonly label: string }[]) =>
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

  test('the last commit, from the text or the explorer, under the name of the commit', async () => {
    const asked = installGit();
    const pump = openStubDocument('pump.winding', shorter);
    for (const target of [undefined, pump.uri]) {
      editorState.answers.push(labeled('HEAD'));
      await run('compareCommitted', target);
      expect(content().old.name).toBe('pump.winding at 0123456789');
      expect(content().old.about).toBe('HEAD when compared · Shorten the span');
      expect(content().headline).toBe('The winding changed.');
    }
    expect(asked).toEqual(['HEAD', 'HEAD']);
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
    editorState.answers.push(labeled('Another revision...'), ' v1 ');
    await run('compareCommitted');
    editorState.answers.push(labeled('Another revision...'), ' ');
    await run('compareCommitted');
    await run('compareCommitted');
    expect(asked).toEqual(['0123456789', 'v1']);
  });

  const askFor = async (revision: string, uri?: Uri) => {
    editorState.answers.push(labeled('Another revision...'), revision);
    await run('compareCommitted', uri);
    return editorState.information.at(-1);
  };

  test('revisions that are none, and files that git does not have, are told apart', async () => {
    installGit({ staged: ['/staged.winding'] });
    openStubDocument('pump.winding', shorter);
    expect(await askFor('v9')).toBe(
      'Git knows no revision "v9" in the repository of pump.winding. It takes a branch, a tag or a commit.',
    );
    expect(await askFor('v0')).toBe(
      'Git has no pump.winding at v0 (fedcba9876): it came later, or had another name or place then.',
    );
    expect(await askFor('main', Uri.parse('memory:/staged.winding'))).toBe(
      'staged.winding is staged but in no commit yet, so there is nothing to compare with.',
    );
    expect(await askFor('main', Uri.parse('memory:/fresh.winding'))).toBe(
      'fresh.winding is not tracked by git, so there is no committed version to compare with.',
    );
    installGit({ commits: [] });
    expect(await askFor('HEAD')).toBe(
      'The repository of pump.winding has no commit yet, so there is nothing to compare with.',
    );
    expect(editorState.panels).toHaveLength(0);
  });

  test('a file outside a repository, and no winding, are explained', async () => {
    installGit();
    openStubDocument('pump.winding', shorter);
    await run('compareCommitted', Uri.parse('memory:/elsewhere/pump.winding'));
    await run('compareCommitted', Uri.parse('memory:/readme.md'));
    expect(editorState.information).toEqual([
      'pump.winding does not lie in a git repository. "Compare Two Windings" compares any two files.',
      'Open or select a winding file to compare it with its committed version.',
    ]);
    expect(editorState.panels).toHaveLength(0);
  });
});
