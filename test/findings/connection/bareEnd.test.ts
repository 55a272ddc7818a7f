import { expect, test } from 'vitest';
import { study } from '../../support/study.ts';

const withBar = (bar: string) =>
  study(`winding "Bared ends"
machine { slots 24 poles 4 phases 3 }
bar { ${bar} }
layout { layers 2 span 5 }
connect { star }`);

const found = (bar: string) => withBar(bar).findings.filter(({ code }) => code === 'bare-end-too-long');

test('bared ends longer than the straight part for the joint are told at their statement', () => {
  const [finding, ...more] = found('joint-straight 8 mm bare-end 10 mm');
  expect(more).toEqual([]);
  expect(finding).toMatchObject({ severity: 'warning' });
  expect(finding!.message).toContain('10 mm');
  expect(finding!.message).toContain('8 mm');
});

test.each([
  ['as long as the straight part', 'joint-straight 8 mm bare-end 8 mm'],
  ['shorter', 'joint-straight 8 mm bare-end 6 mm'],
  ['without a straight part', 'bare-end 10 mm'],
])('nothing is told where they are %s', (_, bar) => {
  expect(found(bar)).toEqual([]);
});
