import { afterEach, expect, test } from 'vitest';
import { german } from '../../extension/german/main.ts';
import { createParts } from '../../extension/loadOnDemand.ts';
import { speak } from '../../extension/wording.ts';
import { editorState, resetStub, Uri } from './vscodeStub.ts';

afterEach(() => speak('en', null));

/** Bundles that share what is spoken, as the built ones do. */
const bundles: Readonly<Record<string, string>> = {
  'shared.js':
    "let spoken = 'en'; exports.speak = (name) => { spoken = name; }; exports.spoken = () => spoken;",
  'engine.js': "const { speak } = require('./shared.js'); exports.speak = speak;",
  'onDemand.js': "const { spoken } = require('./shared.js'); exports.spoken = spoken;",
};

test('what is read on demand speaks the language wanted, before anything of the engine was asked for', async () => {
  resetStub();
  for (const [name, code] of Object.entries(bundles))
    editorState.files.set(`memory:/extension/dist/extension/${name}`, new TextEncoder().encode(code));
  speak('de', german);
  const { onDemand } = createParts(Uri.parse('memory:/extension') as never);
  const { spoken } = (await onDemand()) as unknown as { readonly spoken: () => string };
  expect(spoken()).toBe('de');
});
