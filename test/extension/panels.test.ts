import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { activateOnStub, brokenText, soundText } from './activated.ts';
import { loadPage } from './pageTwin.ts';
import {
  editorState,
  events,
  openStubDocument,
  StubDocument,
  StubPanel,
  Uri,
  ViewColumn,
} from './vscodeStub.ts';

let end: () => void;
let pump: StubDocument;
let winch: StubDocument;
beforeEach(() => {
  end = activateOnStub();
  pump = openStubDocument('pump.winding', soundText);
  winch = openStubDocument('winch.winding', soundText.replace('Tidal pump', 'Winch'));
});
afterEach(() => end());

const run = (name: string, ...args: unknown[]) => editorState.commands.get(`slotwright.${name}`)?.(...args);
const titles = () => editorState.panels.map(({ title }) => title);
const turnTo = (document: StubDocument) => {
  editorState.active = { document };
  events.activated.fire(editorState.active);
};

describe('several layout panels', () => {
  test('one follows the text, others are pinned to theirs, each titled by its file', async () => {
    await run('showLayoutPanel');
    await run('showPinnedPanel', pump.uri);
    expect(titles()).toEqual(['Layout of winch.winding', 'Layout of pump.winding (pinned)']);
    turnTo(pump);
    expect(titles()).toEqual(['Layout of pump.winding', 'Layout of pump.winding (pinned)']);
    turnTo(winch);
    expect(titles()).toEqual(['Layout of winch.winding', 'Layout of pump.winding (pinned)']);
    await run('showLayoutPanel');
    expect(editorState.panels).toHaveLength(2);
    expect(editorState.panels[0]?.reveals).toBe(1);
  });

  test('a letter costs messages to the panels of its text alone', async () => {
    await run('showLayoutPanel');
    await run('showPinnedPanel', pump.uri);
    await run('showPinnedPanel', winch.uri);
    const [follower, other, same] = editorState.panels.map((panel) => loadPage(panel));
    const sent = () => editorState.panels.map((panel) => panel.sent.length);
    const before = sent();
    winch.edit(soundText.replace('Tidal pump', 'Old winch'));
    expect(sent()).toEqual([before[0]! + 1, before[1], before[2]! + 1]);
    expect(follower?.state().heading.title).toBe('Old winch, trial');
    expect(same?.state().heading.title).toBe('Old winch, trial');
    expect(other?.state().heading.title).toBe('Tidal pump, trial');
  });

  test('the group that a panel leaves empty is free for the next text where it is the last one', async () => {
    const freed = () =>
      editorState.executed.filter(([name]) => name === 'workbench.action.unlockEditorGroup').length;
    await run('showLayoutPanel');
    editorState.groups = [['text'], ['panel']];
    editorState.panels[0]!.dispose();
    editorState.groups = [['text']];
    events.tabsChanged.fire(null);
    expect(freed()).toBe(0);
    await run('showLayoutPanel');
    editorState.groups = [['panel']];
    editorState.panels[1]!.dispose();
    expect(freed()).toBe(0);
    editorState.groups = [[]];
    events.tabsChanged.fire(null);
    events.tabsChanged.fire(null);
    expect(freed()).toBe(1);
    editorState.groups = [];
  });

  test('the panel with the focus is pinned, and let go again', async () => {
    await run('pinPanel');
    await run('showLayoutPanel');
    const [panel] = editorState.panels;
    const page = loadPage(panel!);
    const isPinned = () => editorState.executed.filter(([name]) => name === 'setContext').at(-1)?.[2];
    panel!.focus(true);
    expect(isPinned()).toBe(false);
    await run('pinPanel');
    expect(isPinned()).toBe(true);
    expect(page.pinned()).toBe(true);
    turnTo(pump);
    expect(titles()).toEqual(['Layout of winch.winding (pinned)']);
    panel!.focus(false);
    expect(isPinned()).toBe(false);
    // With none to follow, that of the text is brought forward, and another text gets a new one beside it.
    turnTo(winch);
    await run('showLayoutPanel');
    expect(editorState.panels).toHaveLength(1);
    panel!.viewColumn = 2;
    turnTo(pump);
    await run('showLayoutPanel');
    expect(titles()).toEqual(['Layout of winch.winding (pinned)', 'Layout of pump.winding']);
    expect(editorState.panels.map(({ viewColumn }) => viewColumn)).toEqual([2, 2]);
    panel!.focus(true);
    await run('unpinPanel');
    turnTo(pump);
    expect(titles()).toEqual(['Layout of pump.winding', 'Layout of pump.winding']);
  });

  test('the keyboard goes to the panel and back to its text', async () => {
    await run('focusPanel');
    const [panel] = editorState.panels;
    expect([panel?.title, panel?.active]).toEqual(['Layout of winch.winding', true]);
    editorState.visible = [{ document: winch, viewColumn: 3 }];
    await run('backToText');
    expect(editorState.shown).toEqual([{ document: winch, options: { viewColumn: 3 } }]);
    panel!.focus(false);
    await run('backToText');
    expect(editorState.shown).toHaveLength(1);
  });

  test('one moves into a window of its own, and new ones do not join it there', async () => {
    await run('movePanelToNewWindow');
    expect(editorState.panels[0]?.active).toBe(true);
    expect(editorState.executed.at(-1)).toEqual(['workbench.action.moveEditorToNewWindow']);
    editorState.panels[0]!.viewColumn = 2;
    await run('showPinnedPanel', pump.uri);
    expect(editorState.panels[1]?.viewColumn).toBe(ViewColumn.Beside);
  });

  test('they come back with a reloaded window, pinned ones to their texts', async () => {
    const serializer = editorState.serializers.get('slotwright.layout')!;
    const [own, other] = [new StubPanel(), new StubPanel()];
    const restored = serializer.deserializeWebviewPanel(own, { source: pump.uri.toString(), pinned: true });
    expect(own.webview.html).toContain('<p role="status">Waiting for the winding …</p>');
    await restored;
    await serializer.deserializeWebviewPanel(other, { source: pump.uri.toString() });
    const [page] = [own, other].map((panel) => loadPage(panel));
    expect(page?.pinned()).toBe(true);
    expect([own.title, other.title]).toEqual(['Layout of pump.winding (pinned)', 'Layout of pump.winding']);
    turnTo(winch);
    expect([own.title, other.title]).toEqual(['Layout of pump.winding (pinned)', 'Layout of winch.winding']);
    const lost = new StubPanel();
    await serializer.deserializeWebviewPanel(lost, { source: 'memory:/gone.winding', pinned: true });
    expect(loadPage(lost).state().notice?.headline).toBe(
      'gone.winding cannot be read any more. Shown is what was known of it.',
    );
  });

  test('where the file is gone, what leads to the text says so; an untitled text that is closed is gone, too', async () => {
    const draft = new StubDocument(Uri.parse('untitled:Untitled-1'), soundText);
    editorState.documents.push(draft);
    turnTo(draft);
    await run('showLayoutPanel');
    const page = loadPage(editorState.panels[0]!);
    expect(page.state().notice).toBeNull();
    // So the editor does it where its text is not to be saved.
    draft.edit('');
    editorState.documents = [winch];
    events.closed.fire(draft);
    await vi.waitFor(() =>
      expect(page.state().notice?.headline).toBe(
        'Untitled-1 cannot be read any more. Shown is what was known of it.',
      ),
    );
    expect(page.state().heading.title).toBe('Tidal pump, trial');
    const told = () =>
      editorState.information.filter((words) => words === 'Untitled-1 cannot be read any more.').length;
    const panel = editorState.panels[0]!;
    panel.say({ kind: 'reveal', source: draft.uri.toString(), place: 'layout' });
    await vi.waitFor(() => expect(told()).toBe(1));
    panel.active = true;
    await run('backToText');
    expect(told()).toBe(2);
    expect(editorState.documents).toEqual([winch]);
  });

  test('a text that the editor lets go stays shown and followed; one that is gone keeps its picture', async () => {
    await run('showPinnedPanel', pump.uri);
    const page = loadPage(editorState.panels[0]!);
    events.closed.fire(pump);
    pump.edit(soundText.replace('Tidal pump', 'Dredge pump'));
    await vi.waitFor(() => expect(page.state().heading.title).toBe('Dredge pump, trial'));
    editorState.documents = [winch];
    events.closed.fire(pump);
    await vi.waitFor(() =>
      expect(page.state().notice?.headline).toBe(
        'pump.winding cannot be read any more. Shown is what was known of it.',
      ),
    );
    expect(page.picture().title).toContain('Dredge pump');
    // Its file is back, as after a checkout, and is opened beside the text that is read.
    const back = openStubDocument('pump.winding', soundText);
    turnTo(winch);
    await vi.waitFor(() =>
      expect(page.state()).toMatchObject({ notice: null, heading: { title: 'Tidal pump, trial' } }),
    );
    back.edit(brokenText);
    expect(page.state().notice).not.toBeNull();
  });

  test('a file that is renamed, or whose folder is, keeps its panel', async () => {
    await run('showPinnedPanel', pump.uri);
    const page = loadPage(editorState.panels[0]!);
    openStubDocument('ferry/pump.winding', brokenText);
    events.renamed.fire({ files: [{ oldUri: pump.uri, newUri: Uri.parse('memory:/ferry/pump.winding') }] });
    await vi.waitFor(() => expect(page.state().heading.source).toBe('memory:/ferry/pump.winding'));
    openStubDocument('barge/pump.winding', soundText);
    events.renamed.fire({
      files: [{ oldUri: Uri.parse('memory:/ferry'), newUri: Uri.parse('memory:/barge') }],
    });
    await vi.waitFor(() => expect(page.state().heading.source).toBe('memory:/barge/pump.winding'));
    expect(titles()).toEqual(['Layout of pump.winding (pinned)']);
  });
});
