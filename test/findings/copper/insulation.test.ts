// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { ferryDrive, withLine } from '../../copper/machines.ts';
import { study } from '../../support/study.ts';

/** The ferry drive with an insulation block and a further line of the machine block. */
function insulated(insulation: string, machine = '', base = ferryDrive): string {
  return `${base.replace('  slots 48', `  ${machine}\n  slots 48`)}insulation { ${insulation} }\n`;
}

function checked(text: string) {
  const { findings } = study(text);
  return findings
    .filter(({ code }) => code.startsWith('insulation-') || code === 'sets-at-one-potential')
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
    expect(checked(text)[0]!.message).toContain("it needs 'machine voltage' or 'machine flux'");
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

  it('bars that touch across an empty place are checked like those that lie side by side', () => {
    const text = (empty: string, other: string) => `winding "Slipway winch"
machine { slots 12 poles 2 phases 3 voltage 400 V }
layout {
  layer a +U +U -W -W +V +V -U -U +W +W -V -V
${empty}  layer ${other} +U +U -W -W +V +V -U -U +W +W -V -V
}
connect {
  star
  path U 1 from U1 1a +6${other} | -5a +6${other} | +5${other} | +6a | -5${other} | +6a to N
  repeat U as V shift 4
  repeat U as W shift 8
}
insulation { turn-voltage 100 V }
`;
    const across = checked(text('  layer b . . . . . . . . . . . .\n', 'c'));
    const beside = checked(text('', 'b'));
    expect(across.map(({ code, severity }) => [code, severity])).toEqual([['insulation-stressed', 'error']]);
    expect(across[0]!.message).toBe(beside[0]!.message.replace(/\b(\d+)b\b/, '$1c'));
    expect(across[0]!.message).toContain('1a and 1c');
  });
});

describe('two sets of phases', () => {
  const sixPhases = (connection: string, insulation: string) => `winding "Lock gate drive"
machine { slots 48 poles 4 phases 6 apart 30 edeg voltage 400 V }
layout { layers 2 span 11 }
connect { ${connection} route paths 2 }
insulation { ${insulation} }
`;

  it.each([
    ['star', 'both star points'],
    ['delta', 'the centers of both deltas'],
  ])('%s: what is taken at one potential stands in findings and report', (connection, common) => {
    const text = sixPhases(connection, 'phase-voltage 5000 V');
    const [found, ...others] = checked(text);
    expect(others).toEqual([]);
    expect(found).toMatchObject({
      code: 'sets-at-one-potential',
      severity: 'info',
      words: 'phase-voltage 5000 V',
    });
    expect(found!.message).toContain(`for ${common} at one potential`);
    const { assumptions } = study(text).report();
    expect(assumptions).toContain(`voltages between bars of the two sets: ${common} at one potential`);
    expect(study(text).markdown()).toContain(`${common.slice(1)} are taken at one potential.`);
  });

  it('a voltage between the sets that is too high says what it rests on', () => {
    const text = sixPhases('star', 'phase-voltage 50 V');
    const stressed = checked(text).filter(({ code }) => code === 'insulation-stressed');
    expect(stressed.length).toBeGreaterThan(0);
    const { winding } = study(text);
    const setOf = (bar: string) => {
      const [slot, layer] = [Number.parseInt(bar, 10), bar.charCodeAt(bar.length - 1) - 97];
      return Math.floor((Math.abs(winding!.table.cells[layer * 48 + slot - 1]!) - 1) / 3);
    };
    for (const { message } of stressed) {
      const [one, other] = /\((\d+[ab]) and (\d+[ab])\)/.exec(message)!.slice(1).map(setOf);
      expect(message.includes('both star points taken at one potential')).toBe(one !== other);
    }
  });

  it.each(['star joined', 'open'])('%s: nothing is assumed, and nothing said', (connection) => {
    const text = sixPhases(connection, 'phase-voltage 5000 V');
    expect(checked(text).map(({ code }) => code)).not.toContain('sets-at-one-potential');
    expect(study(text).report().assumptions.join('\n')).not.toContain('at one potential');
    expect(study(text).markdown()).not.toContain('at one potential');
  });

  it('one set: nothing is said', () => {
    expect(study(insulated('phase-voltage 5000 V')).markdown()).not.toContain('at one potential');
  });
});
