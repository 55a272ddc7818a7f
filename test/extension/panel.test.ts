import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { HostMessage, PanelContent, PanelNotice } from '../../extension/messages.ts';
import { activateOnStub, brokenText, soundText } from './activated.ts';
import { editorState, openStubDocument, StubPanel } from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

const show = (...args: unknown[]) => editorState.commands.get('slotwright.showLayoutPanel')?.(...args);

async function openPanel(): Promise<StubPanel> {
  await show();
  const panel = editorState.panels.at(-1);
  if (panel === undefined) throw new Error('No panel was opened');
  return panel;
}

const messages = (panel: StubPanel) => panel.sent as HostMessage[];
const lastContent = (panel: StubPanel) =>
  messages(panel)
    .filter((message): message is PanelContent => message.kind === 'content')
    .at(-1);
const lastNotice = (panel: StubPanel) =>
  messages(panel)
    .filter((message): message is PanelNotice => message.kind === 'notice')
    .at(-1);

describe('the layout panel', () => {
  test('shows the active winding: picture, key figures, factors', async () => {
    openStubDocument('pump.winding', soundText);
    const content = lastContent(await openPanel());
    expect(content?.title).toBe('Tidal pump, trial');
    const bars = JSON.stringify(content?.picture).match(/"bar":"\d+[ab]"/g);
    expect(new Set(bars).size).toBe(24);
    expect(content?.keyFigures.length).toBeGreaterThan(0);
    expect(content?.factorRows[0]?.order).toBe('1');
  });

  test('follows every edit and the active editor, and is opened once', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    const panel = await openPanel();
    pump.edit(soundText.replace('Tidal pump', 'Dredge pump'));
    expect(lastContent(panel)?.title).toBe('Dredge pump, trial');
    openStubDocument('winch.winding', soundText.replace('Tidal pump', 'Winch'));
    expect(lastContent(panel)?.title).toBe('Winch, trial');
    expect(panel.title).toBe('Layout of winch.winding');
    await show();
    expect(editorState.panels).toHaveLength(1);
    expect(panel.reveals).toBe(1);
  });

  test('an edit of a text that is not shown changes nothing', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    openStubDocument('winch.winding', soundText.replace('Tidal pump', 'Winch'));
    const panel = await openPanel();
    const before = panel.sent.length;
    pump.edit(brokenText);
    expect(panel.sent).toHaveLength(before);
  });

  test('keeps the last good picture under a notice while the text is broken', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    const panel = await openPanel();
    const contents = () => messages(panel).filter(({ kind }) => kind === 'content').length;
    const before = contents();
    pump.edit(brokenText);
    expect(contents()).toBe(before);
    expect(lastNotice(panel)?.stamp).toBe('Out of date');
    expect(lastNotice(panel)?.places.map(({ text }) => text.split(':')[0])).toContain('Line 5');
    pump.edit(soundText);
    expect(messages(panel).at(-1)?.kind).toBe('content');
  });

  test('a failed limit is no reason to call the picture out of date', async () => {
    openStubDocument('pump.winding', `${soundText}\nrequire {\n  winding-factor harmonic 1 >= 0.999\n}\n`);
    const panel = await openPanel();
    expect(lastContent(panel)?.title).toBe('Tidal pump, trial');
    expect(lastNotice(panel)).toBeUndefined();
  });

  test('a page that was hidden gets everything again, the notice last', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    const panel = await openPanel();
    pump.edit(brokenText);
    panel.sent.length = 0;
    panel.say({ kind: 'ready' });
    expect(messages(panel).map(({ kind }) => kind)).toEqual(['content', 'notice']);
  });

  test('a text that never could be drawn says so', async () => {
    openStubDocument('empty.winding', '');
    const panel = await openPanel();
    expect(lastContent(panel)).toBeUndefined();
    expect(lastNotice(panel)).toMatchObject({ stamp: '', source: 'memory:/empty.winding' });
  });

  test('comes back after a reload with the text it showed', async () => {
    openStubDocument('pump.winding', soundText);
    openStubDocument('winch.winding', soundText.replace('Tidal pump', 'Winch'));
    const restored = new StubPanel();
    const serializer = editorState.serializers.get('slotwright.layout');
    await serializer?.deserializeWebviewPanel(restored, { source: 'memory:/pump.winding', view: null });
    expect(lastContent(restored)?.title).toBe('Tidal pump, trial');
  });

  test('comes back with the active text where the old one is gone or the state is spoilt', async () => {
    openStubDocument('winch.winding', soundText.replace('Tidal pump', 'Winch'));
    const serializer = editorState.serializers.get('slotwright.layout');
    for (const state of [{ source: 'memory:/gone.winding' }, 7, undefined]) {
      const restored = new StubPanel();
      await serializer?.deserializeWebviewPanel(restored, state);
      expect(lastContent(restored)?.title).toBe('Winch, trial');
    }
  });

  test('a place named on the page is shown in the text; anything else the page says is ignored', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    const panel = await openPanel();
    panel.say({ kind: 'reveal', source: pump.uri.toString(), range: { start: 9, end: 4 } });
    panel.say({ kind: 'run', command: 'anything' });
    panel.say({ kind: 'reveal', source: pump.uri.toString(), range: { start: 9, end: 14 } });
    await vi.waitFor(() => expect(editorState.shown).toHaveLength(1));
    expect(editorState.shown[0]?.options).toMatchObject({ selection: { start: { line: 0, character: 9 } } });
  });

  test('without a winding text the command says what to do', async () => {
    await show();
    expect(editorState.panels).toHaveLength(0);
    expect(editorState.information).toEqual(['Open a winding file to see its layout.']);
  });

  test('the page loads nothing but its own script and style, by a nonce of its own', async () => {
    openStubDocument('pump.winding', soundText);
    const first = (await openPanel()).webview.html;
    const nonce = /script-src 'nonce-([0-9a-f]{32})'/.exec(first)?.[1];
    expect(first).toContain(
      `default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'; img-src data:`,
    );
    expect(first).not.toMatch(/ style="| on[a-z]+="|https?:/);
    expect(first.match(/<(script|link|style|img|iframe)\b/g)).toEqual(['<link', '<script']);
    editorState.panels[0]?.dispose();
    const second = (await openPanel()).webview.html;
    expect(second).not.toContain(String(nonce));
  });
});
