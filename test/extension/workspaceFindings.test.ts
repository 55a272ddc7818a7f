import { afterEach, expect, test } from 'vitest';
import { activateOnStub, brokenText, soundText } from './activated.ts';
import { DiagnosticSeverity, editorState, events, openStubDocument, Uri } from './vscodeStub.ts';

let end: (() => void) | null = null;
afterEach(() => end?.());

const encoded = (text: string) => new TextEncoder().encode(text);
const errorsAt = (address: string) =>
  (editorState.diagnostics.get(address) ?? []).filter(({ severity }) => severity === DiagnosticSeverity.Error)
    .length;

/** Waits for a state, however busy the machine is. */
const soon = <Value>(value: () => Value) => expect.poll(value, { timeout: 90_000 });

/** Starts with a clock that goes on by a second whenever it is asked, and a workspace of these files. */
function started(files: Readonly<Record<string, string>>, settings: Readonly<Record<string, unknown>> = {}) {
  const clock = { now: 0 };
  end = activateOnStub({ now: () => (clock.now += 1000), later: (work) => void setImmediate(work) });
  for (const [name, value] of Object.entries(settings)) editorState.settings.set(name, value);
  editorState.workspaceFolders = ['memory:/yard'];
  editorState.folder = 'memory:/yard';
  for (const [name, text] of Object.entries(files))
    editorState.files.set(`memory:/yard/${name}`, encoded(text));
  for (const name of Object.keys(files))
    for (let at = name.lastIndexOf('/'); at > 0; at = name.lastIndexOf('/', at - 1))
      editorState.folders.add(`memory:/yard/${name.slice(0, at)}`);
}

test('every winding file of the workspace has its findings, wherever it lies, and others have none', async () => {
  started({
    'a.winding': brokenText,
    'sound.winding': soundText,
    'drives/pumps/b.winding': brokenText,
    'drives/notes.txt': brokenText,
    'node_modules/kit/c.winding': brokenText,
    '.store/d.winding': brokenText,
  });
  await soon(() => errorsAt('memory:/yard/drives/pumps/b.winding')).toBe(1);
  expect(errorsAt('memory:/yard/a.winding')).toBe(1);
  expect(errorsAt('memory:/yard/sound.winding')).toBe(0);
  expect([...editorState.diagnostics.keys()].filter((address) => /notes|kit|store/.test(address))).toEqual(
    [],
  );
});

test('the copy of a winding in a handover package does not tell its findings twice', async () => {
  const manifest = (file: string) =>
    JSON.stringify({ schema: 'slotwright-manifest/1', files: [{ file, what: 'the winding' }] });
  started({
    'handover/a.winding': brokenText,
    'handover/other.winding': brokenText,
    'handover/manifest.json': manifest('a.winding'),
    'page/c.winding': brokenText,
    'page/manifest.json': '{ "name": "a page", "files": 3 }',
    'z.winding': brokenText,
  });
  // The last that is looked at: files are looked at in the order of their paths.
  await soon(() => errorsAt('memory:/yard/z.winding')).toBe(1);
  expect(errorsAt('memory:/yard/handover/a.winding')).toBe(0);
  expect(errorsAt('memory:/yard/handover/other.winding')).toBe(1);
  expect(errorsAt('memory:/yard/page/c.winding')).toBe(1);
  // A package is written file by file, its manifest last.
  editorState.files.set('memory:/yard/page/manifest.json', encoded(manifest('c.winding')));
  events.fileCreated.fire(Uri.parse('memory:/yard/page/manifest.json'));
  await soon(() => errorsAt('memory:/yard/page/c.winding')).toBe(0);
});

test('a file that changes, comes or goes is looked at again', async () => {
  started({ 'a.winding': brokenText });
  await soon(() => errorsAt('memory:/yard/a.winding')).toBe(1);
  editorState.files.set('memory:/yard/a.winding', encoded(soundText));
  events.fileChanged.fire(Uri.parse('memory:/yard/a.winding'));
  await soon(() => errorsAt('memory:/yard/a.winding')).toBe(0);
  editorState.files.set('memory:/yard/b.winding', encoded(brokenText));
  events.fileCreated.fire(Uri.parse('memory:/yard/b.winding'));
  await soon(() => errorsAt('memory:/yard/b.winding')).toBe(1);
  editorState.files.delete('memory:/yard/b.winding');
  events.fileDeleted.fire(Uri.parse('memory:/yard/b.winding'));
  expect(editorState.diagnostics.has('memory:/yard/b.winding')).toBe(false);
});

test('files of a folder that was moved away lose their findings', async () => {
  started({ 'old/a.winding': brokenText });
  await soon(() => errorsAt('memory:/yard/old/a.winding')).toBe(1);
  editorState.files.delete('memory:/yard/old/a.winding');
  editorState.folders.delete('memory:/yard/old');
  editorState.files.set('memory:/yard/new/a.winding', encoded(brokenText));
  editorState.folders.add('memory:/yard/new');
  events.renamed.fire({ files: [] });
  await soon(() => errorsAt('memory:/yard/new/a.winding')).toBe(1);
  expect(editorState.diagnostics.has('memory:/yard/old/a.winding')).toBe(false);
});

test('an open text has the findings of what stands in the editor, and those of the file once it is closed', async () => {
  started({ 'yard/a.winding': brokenText, 'z.winding': brokenText });
  const document = openStubDocument('yard/z.winding', soundText);
  await soon(() => errorsAt('memory:/yard/yard/a.winding')).toBe(1);
  expect(errorsAt('memory:/yard/z.winding')).toBe(0);
  editorState.documents.splice(editorState.documents.indexOf(document), 1);
  events.closed.fire(document);
  await soon(() => errorsAt('memory:/yard/z.winding')).toBe(1);
});

test('a text that is closed before its paths are found says nothing any more', async () => {
  started({ 'z.winding': brokenText });
  const document = openStubDocument('yard/z.winding', soundText);
  editorState.documents.splice(editorState.documents.indexOf(document), 1);
  events.closed.fire(document);
  await soon(() => errorsAt('memory:/yard/z.winding')).toBe(1);
  for (let turn = 0; turn < 300; turn++) await new Promise(setImmediate);
  expect(errorsAt('memory:/yard/z.winding')).toBe(1);
});

test('beyond two thousand files the rest is said', async () => {
  const many = Array.from({ length: 2003 }, (_, index) => [`${index}.winding`, ''] as const);
  started({ ...Object.fromEntries(many) });
  await soon(() => editorState.log.join('\n')).toContain(
    'first 2000 winding files of the workspace; those of 3 more',
  );
});

test('a folder that cannot be read is told, and the others are looked at', async () => {
  started({ 'a.winding': brokenText, 'locked/b.winding': brokenText });
  editorState.failing = (call, uri) => {
    if (call === 'readDirectory' && uri.path.endsWith('/locked')) throw new Error('access denied');
  };
  await soon(() => errorsAt('memory:/yard/a.winding')).toBe(1);
  expect(editorState.log.join('\n')).toContain('Not looked into for findings: /yard/locked: access denied');
  expect(editorState.diagnostics.has('memory:/yard/locked/b.winding')).toBe(false);
});

test('where it is not wanted, only open texts have findings', async () => {
  started({ 'a.winding': brokenText }, { workspaceFindings: false });
  const document = openStubDocument('yard/b.winding', brokenText);
  for (let turn = 0; turn < 20; turn++) await new Promise(setImmediate);
  expect(errorsAt(document.uri.toString())).toBe(1);
  expect(editorState.diagnostics.has('memory:/yard/a.winding')).toBe(false);
});

function configured(wanted: boolean): void {
  editorState.settings.set('workspaceFindings', wanted);
  events.configured.fire({ affectsConfiguration: (section) => section === 'slotwright' });
}

test('turned off while files are looked at, those that still wait are left out', async () => {
  started(Object.fromEntries(Array.from({ length: 200 }, (_, file) => [`${file}.winding`, brokenText])));
  while (editorState.diagnostics.size === 0) await new Promise(setImmediate);
  configured(false);
  for (let turn = 0; turn < 500; turn++) await new Promise(setImmediate);
  expect([...editorState.diagnostics.keys()]).toEqual([]);
});

test('turned off before the files are found, none is looked at', async () => {
  started({ 'a.winding': brokenText });
  await new Promise(setImmediate);
  configured(false);
  for (let turn = 0; turn < 500; turn++) await new Promise(setImmediate);
  expect([...editorState.diagnostics.keys()]).toEqual([]);
});

test('turned off, the findings of files that are not open go, and turned on they come back', async () => {
  started({ 'a.winding': brokenText });
  await soon(() => errorsAt('memory:/yard/a.winding')).toBe(1);
  configured(false);
  expect(editorState.diagnostics.has('memory:/yard/a.winding')).toBe(false);
  configured(true);
  await soon(() => errorsAt('memory:/yard/a.winding')).toBe(1);
});

test('a file that has become too large to be looked at loses its findings', async () => {
  started({ 'a.winding': brokenText });
  await soon(() => errorsAt('memory:/yard/a.winding')).toBe(1);
  editorState.files.set('memory:/yard/a.winding', new Uint8Array(2_000_001));
  events.fileChanged.fire(Uri.parse('memory:/yard/a.winding'));
  await soon(() => editorState.diagnostics.has('memory:/yard/a.winding')).toBe(false);
});
