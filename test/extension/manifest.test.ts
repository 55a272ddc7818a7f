import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { comparisonPanelType, layoutPanelType } from '../../extension/panelTypes.ts';
import { referencedFiles } from '../../scripts/packageFiles.mjs';

const root = join(import.meta.dirname, '../..');
const text = readFileSync(join(root, 'package.json'), 'utf8');
const manifest = JSON.parse(text);
const words: Record<string, string> = JSON.parse(readFileSync(join(root, 'package.nls.json'), 'utf8'));

test('every file it points to, outside dist/, is in the repository and on the allow-list', () => {
  const files = referencedFiles(manifest).filter((path) => !path.startsWith('dist/'));
  expect(files.length).toBeGreaterThan(4);
  for (const path of files) {
    expect(existsSync(join(root, path)), path).toBe(true);
    expect(
      manifest.files.some((entry: string) => path === entry || path.startsWith(`${entry}/`)),
      path,
    ).toBe(true);
  }
});

test('every word for readers is in package.nls.json, and none there is unused', () => {
  const used = new Set([...text.matchAll(/"%([\w.]+)%"/g)].map((match) => match[1]));
  expect([...used].sort()).toEqual(Object.keys(words).sort());
});

test('the extension wakes for windings and for its panels, never for everything', () => {
  expect(manifest.contributes.languages[0].configuration).toBeDefined();
  expect(manifest.activationEvents).toEqual(
    ['workspaceContains:**/*.winding'].concat(
      [layoutPanelType, comparisonPanelType].map((type) => `onWebviewPanel:${type}`),
    ),
  );
});

test('nothing is offered while typing but what the language has there: no words that stand elsewhere in the text', () => {
  const { '[winding]': defaults } = manifest.contributes.configurationDefaults;
  expect(defaults['editor.wordBasedSuggestions']).toBe('off');
});

test('the group of the layout panel is kept for it, and the groups the editor keeps by itself stay kept', () => {
  // A default of an extension replaces the editor's whole list: VS Code 1.91 has the first three, later ones all four.
  expect(manifest.contributes.configurationDefaults['workbench.editor.autoLockGroups']).toEqual({
    terminalEditor: true,
    'mainThreadWebview-simpleBrowser.view': true,
    'mainThreadWebview-browserPreview': true,
    'workbench.editor.chatSession': true,
    [`mainThreadWebview-${layoutPanelType}`]: true,
  });
});

test('no menu of files or texts has an entry on what is no winding', () => {
  const { commandPalette, 'file/newFile': _, ...menus } = manifest.contributes.menus;
  const entries = Object.entries<readonly { readonly command: string; readonly when?: string }[]>(menus);
  expect(entries.map(([menu]) => menu).sort()).toEqual([
    'editor/context',
    'editor/title',
    'explorer/context',
  ]);
  for (const [menu, items] of entries)
    for (const { command, when } of items)
      expect(when, `${command} in ${menu}`).toMatch(
        /resourceExtname == \.winding|editorLangId == winding|activeWebviewPanelId == slotwright\.layout/,
      );
});

test('all commands stand in one category', () => {
  for (const command of manifest.contributes.commands) expect(command.category).toBe('%command.category%');
  expect(words['command.category']).toBe('Slotwright');
});

test('the icon is a PNG of at least 128 pixels a side', () => {
  const icon = readFileSync(join(root, manifest.icon));
  expect(icon.subarray(1, 4).toString('latin1')).toBe('PNG');
  expect(icon.readUInt32BE(16)).toBeGreaterThanOrEqual(128);
  expect(icon.readUInt32BE(20)).toBeGreaterThanOrEqual(128);
});

test('the types of the editor are no newer than the editor asked for', () => {
  expect(`^${manifest.devDependencies['@types/vscode']}`).toBe(manifest.engines.vscode);
});
