import { describe, expect, it } from 'vitest';
import {
  allOf,
  derive,
  deriveFigure,
  figureAt,
  known,
  missing,
  undetermined,
} from '../../core/figures/figure.ts';
import { sortedPart, sortFigures, valuesOf } from '../../core/figures/groups.ts';

describe('figures', () => {
  it('known where all inputs are, with every assumption once', () => {
    const sum = derive({ a: known(2, 'x'), b: known(3, 'x', 'y') }, ({ a, b }) => a + b);
    expect(sum).toEqual({ known: true, value: 5, assumptions: ['x', 'y'] });
  });

  it('missing with the needs of everything that is missing, each once', () => {
    const sum = derive({ a: missing('p'), b: known(1, 'x'), c: missing('q', 'p') }, () => 0);
    expect(sum).toEqual({ known: false, needs: ['p', 'q'] });
  });

  it('what no statement would supply makes what follows from it missing, with its reason', () => {
    const none = undetermined('no path has a voltage');
    expect(derive({ a: none, b: known(1) }, () => 0)).toEqual(none);
    expect(allOf([known(1), none])).toEqual(none);
    expect(derive({ a: none, b: missing('p') }, () => 0)).toEqual({ known: false, needs: ['p'] });
  });

  it('a computation may find something missing itself', () => {
    expect(deriveFigure({ a: known(1) }, () => missing('z'))).toEqual({ known: false, needs: ['z'] });
  });

  it('lists keep their order', () => {
    expect(allOf([known(3), known(1, 'k')])).toEqual({ known: true, value: [3, 1], assumptions: ['k'] });
    expect(allOf([known(3), missing('n')])).toEqual({ known: false, needs: ['n'] });
  });

  it('sorting refuses a figure without a model', () => {
    expect(() => sortFigures({ 'winding.slots': known(1) })).toThrow(RangeError);
  });
});

describe('figures in groups, as the report has them', () => {
  const emf = {
    frequency: known(50),
    torque: missing('machine flux'),
    gaps: known([{ side: 'inner' }], 'one gap'),
    inTheReportOnly: 3,
    none: null,
  };

  it('give their values, null where they are missing and where there is none', () => {
    expect(valuesOf({ emf, list: [known(1), missing('p')] })).toEqual({
      emf: { frequency: 50, torque: null, gaps: [{ side: 'inner' }], inTheReportOnly: 3, none: null },
      list: [1, null],
    });
  });

  it('are found by their places', () => {
    expect(figureAt({ emf }, ['emf', 'torque'])).toBe(emf.torque);
    expect(figureAt({ emf }, ['emf', 'none'])).toBeUndefined();
    expect(figureAt({ emf }, ['emf', 'frequency', 'value'])).toBeUndefined();
    expect(figureAt({ emf }, ['copper', 'mass'])).toBeUndefined();
  });

  it('tell what their part lacks and rests on, those that the register names', () => {
    const { missing: lacks, assumptions, models } = sortedPart('emf', { ...emf, unnamed: missing('q') });
    expect(lacks).toEqual([{ quantity: 'emf.torque', needs: ['machine flux'] }]);
    expect(assumptions).toEqual(['one gap']);
    expect(models.map(({ quantity }) => quantity)).toEqual(['emf.frequency', 'emf.gaps']);
  });
});
