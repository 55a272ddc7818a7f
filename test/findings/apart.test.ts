import { describe, expect, it } from 'vitest';
import { barsDoNotFit, currentDensityHigh, fillTooHigh } from '../../core/findings/copper/findingKinds.ts';
import { toothFieldHigh, voltageTooLow } from '../../core/findings/operation/findingKinds.ts';
import { endsClose } from '../../core/findings/space/findingKinds.ts';
import { percent, significant } from '../../core/language/numbers.ts';
import { copper } from '../../extension/german/findings/copper.ts';
import { operation } from '../../extension/german/findings/rest.ts';
import { study } from '../support/study.ts';
import { windingText } from '../support/windingText.ts';

describe('a value beside what it is held against', () => {
  it('has as many digits as tell the two apart, up to 10', () => {
    expect(significant(2.0001, 4, 2)).toBe('2.0001');
    expect(significant(2.01, 4, 2)).toBe('2.01');
    expect(significant(2, 4, 2.00003)).toBe('2');
    expect(significant(2 + 1e-12, 4, 2)).toBe('2');
    expect(percent(0.85003, 3, 0.85)).toBe('85.003 %');
  });

  it('in findings of iron, voltage, copper and bars in space', () => {
    expect(toothFieldHigh.message({ density: 2.0001, most: 2 })).toContain('at 2.0001 T');
    expect(toothFieldHigh.message({ density: 2.1236, most: 2 })).toContain('at 2.124 T');
    expect(currentDensityHigh.message({ density: 30.004e6, most: 30e6 })).toContain('30.004 A/mm2');
    expect(fillTooHigh.message({ layers: [0], fill: 0.85003, most: 0.85 })).toContain('fill 85.003 %');
    const fit = { direction: 'width', layers: [0], needed: 5.00012e-3, available: 5.00008e-3 } as const;
    expect(barsDoNotFit.message({ ...fit, lacking: 4e-8 })).toContain(
      'need 5.00012 mm of slot width, there are 5.00008 mm',
    );
    const near = { kind: 'leg', side: 'far', bars: ['1a', '2a'], pieces: ['leg', 'leg'], count: 1 } as const;
    expect(endsClose.message({ ...near, distance: 0.49999e-3, asked: 0.5e-3 } as never)).toContain(
      'as near as 0.49999 mm, where 0.5 mm are asked for',
    );
    const short = { kind: 'voltage-too-low', needed: 400.02, voltage: 400, current: 100, speed: 50 } as const;
    expect(
      voltageTooLow.message({ ...short, written: true, fit: null, torque: 9, most: null } as never),
    ).toContain('needs 400.02 V between its lines at 100 A and 3000 rpm; it has 400 V');
  });

  it('in German too', () => {
    expect(copper.fillTooHigh[1]({ layers: [0], fill: 0.85003, most: 0.85 })).toContain('füllen 85.003 %');
    expect(operation.toothFieldHigh[1]({ density: 2.0001, most: 2 })).toContain('2.0001 T');
    expect(copper.openingTooWide[1]({ opening: 5.00002e-3, most: 5e-3, what: 'slot' })).toContain(
      'von 5.00002 mm',
    );
  });

  it.each([
    // kd5 = sin 150 / (2 sin 75) = 0.258819, kd1 = 0.965926.
    ['winding-factor harmonic 5 <= 0.2588', 'is 0.25882; required is at most 0.2588'],
    ['winding-factor harmonic 5 <= 0.25', 'is 0.2588; required is at most 0.25'],
  ])('in limits: %s', (limit, words) => {
    const machine = 'slots 48 poles 8 phases 3 bore 162 mm current 210 A';
    const text = windingText({ machine, layout: 'layers 2 span 6', rest: `require {\n${limit}\n}` });
    const [found] = study(text).findings.filter(({ code }) => code === 'limit-failed');
    expect(found?.message).toContain(words);
  });
});
