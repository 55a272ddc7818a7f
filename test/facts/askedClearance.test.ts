import { expect, it } from 'vitest';
import { askedClearance } from '../../core/facts/ends.ts';
import { specificationOf } from '../views/chartReading.ts';

const asked = (bar: string) => askedClearance(specificationOf(`bar { ${bar} }`));

it('the clearance that is asked for is that of the text, and missing where it has none', () => {
  expect(asked('end-clearance 0.5 mm')).toMatchObject({ known: true, value: { bars: 5e-4, pieces: 5e-4 } });
  expect(asked('end-clearance 0.5 mm piece-clearance 2 mm')).toMatchObject({
    value: { bars: 5e-4, pieces: 2e-3 },
  });
  for (const bar of ['width 3 mm', 'piece-clearance 2 mm'])
    expect(asked(bar)).toEqual({ known: false, needs: ['bar end-clearance'] });
});
