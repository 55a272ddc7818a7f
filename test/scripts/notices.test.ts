// Takes its time: it reads what was built.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { bundledPackages, noticesFile, noticesText } from '../../scripts/notices.mjs';
import { root } from '../../scripts/shell.mjs';

test('packages with code in some bundle are found, scoped and nested ones too, each once', () => {
  const inputs = {
    'core/study.ts': { bytesInOutput: 5 },
    'node_modules/zod/v4/core/api.js': { bytesInOutput: 5 },
    'node_modules/zod/v4/core/util.js': { bytesInOutput: 5 },
    'node_modules/@noble/hashes/md5.js': { bytesInOutput: 5 },
    'node_modules/linebreak/node_modules/base64-js/index.js': { bytesInOutput: 5 },
    'node_modules/shaken-off/index.js': { bytesInOutput: 0 },
  };
  expect(bundledPackages([{ outputs: { a: { inputs } } }, { outputs: { b: { inputs } } }])).toEqual([
    'node_modules/@noble/hashes',
    'node_modules/linebreak/node_modules/base64-js',
    'node_modules/zod',
  ]);
});

test('a package without a license stops the build', () => {
  const silent = () => ({
    name: 'silent',
    version: '1.0.0',
    license: 'MIT',
    author: undefined,
    text: undefined,
  });
  expect(() => noticesText(['node_modules/silent'], silent)).toThrow(/silent is bundled/);
});

test('the notices of the build hold the text of every bundled package', () => {
  const notices = readFileSync(join(root, noticesFile), 'utf8');
  for (const name of ['pdfkit', '@tarikjabiri/dxf', 'zod', 'papaparse', 'commander']) {
    const { version } = JSON.parse(readFileSync(join(root, 'node_modules', name, 'package.json'), 'utf8'));
    expect(notices).toContain(`\n${name} ${version}, MIT`);
  }
  expect(notices.match(/Permission is hereby granted/g)?.length).toBeGreaterThan(15);
});
