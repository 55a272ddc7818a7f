import { describe, expect, it } from 'vitest';
import {
  allOf,
  derive,
  deriveFigure,
  known,
  missing,
  sortFigures,
  undetermined,
} from '../../core/figures/figure.ts';

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
