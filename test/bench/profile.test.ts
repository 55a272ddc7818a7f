import { expect, test } from 'vitest';
import { type Profile, samplesByOwner } from './profile.ts';

const node = (id: number, url: string, ...children: number[]) => ({
  id,
  callFrame: { functionName: '', url },
  children,
});

test('a sample is its outermost owner’s, whatever that calls', () => {
  const profile: Profile = {
    nodes: [
      node(1, '', 2, 5, 7),
      node(2, 'editor.js', 3),
      node(3, 'slotwright/engine.js', 4),
      node(4, 'editor.js'),
      node(5, 'bench.js', 6),
      node(6, 'slotwright/engine.js'),
      node(7, ''),
    ],
    samples: [2, 3, 4, 4, 6, 7, 7],
  };
  const owner = (url: string) =>
    url === 'bench.js' ? 'bench' : url.startsWith('slotwright/') ? 'own' : null;
  expect([...samplesByOwner(profile, owner)].sort()).toEqual([
    ['bench', 1],
    ['own', 3],
  ]);
  expect(samplesByOwner({ nodes: [], samples: [] }, owner).size).toBe(0);
});
