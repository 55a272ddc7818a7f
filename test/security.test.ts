import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isPlainName, safeStem } from '../extension/onDemand/exporting/safeName.ts';
import { pageHead } from '../extension/onDemand/page.ts';
import { readComparison, readComparisonPage } from '../extension/protocol/comparisonMessages.ts';
import { readHostMessage, readPageMessage } from '../extension/protocol/messages.ts';
import { waitingPage } from '../extension/waitingPage.ts';
import { page as demoPage } from '../scripts/demo/html.mjs';
import { projectFolder } from './support/files.ts';

const read = (...path: readonly string[]) => readFileSync(join(projectFolder, ...path), 'utf8');

describe('policies of pages', () => {
  test.each([
    ['panel and comparison', pageHead('0'.repeat(32), 'style.css', 'Title')],
    ['waiting', waitingPage('Waiting')],
    ['demo', demoPage({ title: 'Title', body: '' })],
  ])('%s: nothing is allowed that is not named, no base and no form', (_, html) => {
    const [, policy] = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(html)!;
    const directives = policy!.split('; ');
    expect(directives[0]).toBe("default-src 'none'");
    expect(directives).toEqual(expect.arrayContaining(["base-uri 'none'", "form-action 'none'"]));
    expect(policy).not.toMatch(/\*|https?:|unsafe-eval|script-src[^;]*unsafe/);
    const read = html.search(/<link|<style|<script/);
    expect(html.indexOf('Content-Security-Policy')).toBeLessThan(read < 0 ? html.length : read);
  });
});

describe('names of exported files', () => {
  const hostile = [
    '..',
    '../../etc/passwd',
    '..\\..\\autoexec',
    'C:\\boot',
    'c:stream',
    'con',
    'NUL.tar',
    'com1',
    'lpt¹',
    'a\0b',
    'pump\u202egnp',
    ' pump. ',
    '',
    '.',
    '.hidden',
  ];

  test('cannot leave the folder, on any system', () => {
    for (const name of hostile) {
      const stem = safeStem(name);
      expect(stem).toMatch(/^[^\\/:*?"<>|\p{Cc}\p{Cf}]+$/u);
      expect(stem).not.toMatch(/^\.|[. ]$|^(?:con|prn|aux|nul|com\d|lpt[\d¹])(?:\.|$)/i);
      expect(isPlainName(`${stem}-bars.csv`)).toBe(true);
    }
    expect(['..', '.', '', 'a/b', 'a\\b', 'a\0', 'c:a'].filter(isPlainName)).toEqual([]);
  });

  test('stay as they are where they do no harm', () => {
    for (const name of ['tidal-pump', 'Wärter Ω 2', 'pump.v2', 'console', 'com12'])
      expect(safeStem(name)).toBe(name);
  });
});

test('messages that are none of ours are dropped on either side, whatever they hold', () => {
  const kinds = [
    'update',
    'pinned',
    'name',
    'ready',
    'shown',
    'show',
    'reveal',
    'point',
    'choose',
    'release',
    'step',
    'export',
    'divide',
    'copy',
    'comparison',
    'swap',
    '__proto__',
    'constructor',
  ];
  const keys = [
    'kind',
    'version',
    'base',
    'changes',
    'source',
    'words',
    'wish',
    'place',
    'subject',
    'bar',
    'by',
    'text',
    'followed',
    'lower',
    'pinned',
    'old',
    'now',
    'view',
    '__proto__',
  ];
  const message = fc
    .tuple(
      fc.constantFrom(...kinds),
      fc.dictionary(fc.constantFrom(...keys), fc.jsonValue({ maxDepth: 2 }), { maxKeys: 6 }),
    )
    .map(([kind, rest]) => ({ ...rest, kind }));
  fc.assert(
    fc.property(fc.oneof(message, fc.jsonValue()), (value) => {
      for (const reader of [readHostMessage, readPageMessage, readComparison, readComparisonPage]) {
        const known: unknown = reader(value);
        if (known !== null) expect(typeof (known as { kind: unknown }).kind).toBe('string');
      }
      const known = readPageMessage(value);
      // What the extension acts on holds only what the kind has, each of its type.
      if (known?.kind === 'copy') expect(typeof known.text).toBe('string');
      if (known && 'source' in known) expect(typeof known.source).toBe('string');
      if (known?.kind === 'step') expect([1, -1]).toContain(known.by);
    }),
    { seed: 18, numRuns: 300 },
  );
});

describe('what comes from others', () => {
  test('actions in templates and docs are named by commit', () => {
    const uses = ['docs/review.md', 'docs/variants.md', 'action.yml', 'ci-templates/gitlab.yml']
      .flatMap((file) => [...read(file).matchAll(/^\s*(?:- )?uses:\s*(\S+)/gm)].map(([, name]) => name!))
      .filter((name) => !name.startsWith('OWNER/'));
    expect(uses.length).toBeGreaterThan(1);
    for (const name of uses) expect(name).toMatch(/^[\w-]+\/[\w/-]+@[0-9a-f]{40}$/);
  });

  test('SECURITY.md names every package that is bundled by choice, with the version and license it has', () => {
    const { dependencies } = JSON.parse(read('package.json')) as {
      readonly dependencies: Readonly<Record<string, string>>;
    };
    const listed = [...read('SECURITY.md').matchAll(/^\| (\S+) (\d\S*) \| (\S+) \|/gm)].map(
      ([, name, version, license]) => [name, version, license],
    );
    const installed = Object.keys(dependencies).map((name) => {
      const { version, license } = JSON.parse(read('node_modules', name, 'package.json'));
      return [name, version, license];
    });
    expect(listed).toEqual(installed);
    expect(read('.npmrc')).toContain('ignore-scripts=true');
  });
});
