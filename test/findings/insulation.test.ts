import { describe, expect, it } from 'vitest';
import { study } from '../../core/study.ts';
import { ferryDrive, withLine } from '../copper/machines.ts';

/** The ferry drive with an insulation block and a further line of the machine block. */
function insulated(insulation: string, machine = '', base = ferryDrive): string {
  return `${base.replace('  slots 48', `  ${machine}\n  slots 48`)}insulation { ${insulation} }\n`;
}

function checked(text: string) {
  const { findings } = study(text);
  return findings
    .filter(({ code }) => code.startsWith('insulation-'))
    .map((found) => ({ ...found, words: text.slice(found.range.start, found.range.end) }));
}

const share = (text: string) => study(text).report().voltageBetweenBars!.inSlot!.value;

// Phase EMF by hand: sqrt2 pi f N kw Phi with f = 240 Hz, N = 48 x 4/3/(2 x 2) = 16, kw = cos 15 degrees.
const emf = Math.SQRT2 * Math.PI * 240 * 16 * Math.cos(Math.PI / 12) * 4.1e-3;

describe('insulation between bars', () => {
  it('is held against the no-load EMF where no voltage is written', () => {
    const text = insulated('turn-voltage 50 V');
    const [found, ...others] = checked(text);
    expect(others).toEqual([]);
    expect(found).toMatchObject({ code: 'insulation-stressed', severity: 'error' });
    expect(found!.message).toContain(`${(share(text) * emf).toPrecision(4)} V rms`);
    expect(found!.message).toContain(`phase voltage ${emf.toPrecision(4)} V from the no-load EMF`);
    expect(found!.message).not.toContain('surges');
    expect(study(text).report().assumptions).toContain('insulation surge-factor: 1 (default)');
  });

  it.each([
    ['star', 400 / Math.sqrt(3)],
    ['delta', 400],
  ])('and against the rated voltage where that is larger: %s', (connection, phase) => {
    const text = insulated('turn-voltage 100 V', 'voltage 400 V', ferryDrive.replace('star', connection));
    const [found] = checked(text);
    expect(found!.message).toContain(`${(share(text) * phase).toPrecision(4)} V rms`);
    expect(found!.message).toContain('from the machine voltage');
  });

  it('a small rated voltage does not hide the EMF', () => {
    const [found] = checked(insulated('turn-voltage 50 V', 'voltage 60 V'));
    expect(found!.message).toContain('no-load EMF');
  });

  it('surges are told of where a factor is written', () => {
    const text = insulated('turn-voltage 50 V  surge-factor 2.5');
    const [found] = checked(text);
    expect(found!.message).toContain(`${(2.5 * share(text) * emf).toPrecision(4)} V rms`);
    expect(found!.message).toContain('surges included by 2.5');
    expect(study(text).report().assumptions.join()).not.toContain('surge-factor');
  });

  it('between 80 % and all of the limit it is a warning, below nothing', () => {
    const most = share(insulated('turn-voltage 50 V')) * emf;
    expect(checked(insulated(`turn-voltage ${(most / 0.9).toFixed(3)} V`))[0]!.severity).toBe('warning');
    expect(checked(insulated(`turn-voltage ${(most / 0.79).toFixed(3)} V`))).toEqual([]);
  });

  it('without EMF and voltage it says what it needs, at each limit', () => {
    const text = insulated('turn-voltage 50 V  phase-voltage 90 V', '', withLine(ferryDrive, 'flux', null));
    expect(checked(text).map(({ code, severity, words }) => [code, severity, words])).toEqual([
      ['insulation-not-checked', 'warning', 'turn-voltage 50 V'],
      ['insulation-not-checked', 'warning', 'phase-voltage 90 V'],
    ]);
    expect(checked(text)[0]!.message).toContain('machine voltage or machine flux');
    expect(study(text).report().missing).toContainEqual({
      quantity: 'voltages between bars in volts',
      needs: ['machine voltage or machine flux'],
    });
  });

  it('nor is it silent where the bars are not joined', () => {
    const text = insulated('turn-voltage 50 V', '', ferryDrive.slice(0, ferryDrive.indexOf('connect {')));
    expect(checked(text)[0]!.message).toContain('connect');
  });

  it('between open phases nothing is determined, and it says so', () => {
    const text = insulated('phase-voltage 900 V', '', ferryDrive.replace('star', 'open'));
    expect(checked(text).map(({ code }) => code)).toEqual(['insulation-not-checked']);
    expect(study(text).report().assumptions.join('\n')).toContain('open phases: the voltage between bars');
  });
});
