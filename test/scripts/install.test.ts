import { expect, test } from 'vitest';
import { installNeeded } from '../../scripts/install.mjs';

const entry = (version: string) => ({ version, integrity: `sha512-${version}` });
const locked = {
  packages: {
    '': { name: 'slotwright' },
    'node_modules/a': entry('1.0.0'),
    'node_modules/b-other-system': { ...entry('2.0.0'), optional: true },
  },
};

test('nothing is installed when exactly the locked packages are there', () => {
  expect(installNeeded(locked, { packages: { 'node_modules/a': entry('1.0.0') } })).toBe(false);
});

test('packages for other systems may be there, but not in another version', () => {
  const present = { 'node_modules/a': entry('1.0.0'), 'node_modules/b-other-system': entry('2.0.0') };
  expect(installNeeded(locked, { packages: present })).toBe(false);
  expect(
    installNeeded(locked, { packages: { ...present, 'node_modules/b-other-system': entry('1.9.0') } }),
  ).toBe(true);
});

test('packages are installed when none, another version, other content or too few are there', () => {
  expect(installNeeded(locked, null)).toBe(true);
  expect(installNeeded(locked, { packages: {} })).toBe(true);
  expect(installNeeded(locked, { packages: { 'node_modules/a': entry('1.0.1') } })).toBe(true);
  const other = { version: '1.0.0', integrity: 'sha512-other' };
  expect(installNeeded(locked, { packages: { 'node_modules/a': other } })).toBe(true);
});

test('a clone without its lock is refused', () => {
  expect(() => installNeeded(null, null)).toThrow('package-lock.json');
});
