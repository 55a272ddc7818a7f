import { expect, it } from 'vitest';
import { withBuiltInsKept } from './builtIns.ts';

it('functions that a library replaces are put back, and what it adds stays', async () => {
  const { push } = Array.prototype;
  const loaded = await withBuiltInsKept(async () => {
    Object.defineProperty(Array.prototype, 'push', { value: () => 0 });
    Object.defineProperty(JSON, 'added', { value: 'here', configurable: true });
    return 'loaded';
  });
  expect(loaded).toBe('loaded');
  expect(Array.prototype.push).toBe(push);
  expect(Reflect.get(JSON, 'added')).toBe('here');
  Reflect.deleteProperty(JSON, 'added');
});
