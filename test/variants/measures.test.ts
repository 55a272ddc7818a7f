import { describe, expect, it } from 'vitest';
import { known } from '../../core/figures/figure.ts';
import { measuredEntries } from '../../core/language/vocabulary/varied.ts';
import { figureOf, measured, openingFigure, reachOf, windingFigure } from '../../core/variants/measures.ts';
import { smallDrive } from '../operation/machines.ts';
import { study } from '../support/study.ts';

const { facts } = study(`${smallDrive}duty { point "climb" speed 2000 rpm torque 14 Nm for 2 min }\n`);
const scopeOf = (perOrder = false) => (perOrder ? ({ kind: 'harmonic', number: 1 } as const) : null);
const measures = measuredEntries().map((entry) => ({
  entry,
  scope: scopeOf(entry.perOrder),
  point: null,
}));

describe('quantities of keep and rank', () => {
  it.each(measures)('$entry.word has a value of its own, or a reason', (measure) => {
    const figure = measured(measure as never, facts!);
    if (!figure.known) expect(figure.needs.length + (figure.reason ?? '').length).toBeGreaterThan(0);
  });

  it('have the same value where it is taken from the layout, or from layout and openings, alone', () => {
    const reaches = measures.map((measure) => reachOf(measure));
    expect(reaches.filter((reach) => reach === 'layout')).toHaveLength(9);
    expect(reaches.filter((reach) => reach === 'opening')).toHaveLength(2);
    for (const measure of measures) {
      const reach = reachOf(measure);
      if (reach === 'whole') continue;
      const figure = reach === 'layout' ? windingFigure : openingFigure;
      const value = figure(measure as never, facts!.winding, facts!);
      expect(value, measure.entry.word).not.toBeNull();
      expect(known(value), measure.entry.word).toEqual(known(figureOf(measure as never, facts!)));
    }
  });
});
