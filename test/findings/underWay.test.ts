import { expect, it } from 'vitest';
import { type Measurer, measureNow } from '../../core/figures/work.ts';
import { checkText } from '../../core/findings/checkedText.ts';
import { isUnderWay } from '../../core/findings/limits.ts';
import { withLine } from '../copper/machines.ts';
import { smallDrive } from '../operation/machines.ts';

const text = `${withLine(smallDrive, 'end-straight', '  end-straight 6 mm\n  end-conductance 0.8 W/(m K)')}duty {
  point "climb" speed 2000 rpm torque 14 Nm for 2 min
  point "drift" speed 100 rpm current 0 A for 4 min
}
require {
  hot-spot-temperature            <= 60 degC
  hot-spot-temperature at "climb" <= 60 degC
  cycle-hot-spot                  <= 60 degC
  copper-loss at "climb"          <= 9 kW
}
`;

it('heat along paths waits for time between keystrokes; what waits is neither failed nor passed', () => {
  const asked: string[] = [];
  const later: Measurer = ({ kind, quick }) => {
    if (!quick) asked.push(kind);
    return null;
  };
  const { limits, findings, measuring } = checkText(text, undefined, later);
  expect(measuring).toBe(true);
  expect(new Set(asked)).toEqual(
    new Set(['near-ends', 'inductance', 'rated-heat', 'duty-heat', 'cycle-heat']),
  );
  expect(limits.map(({ met }) => met)).toEqual([null, null, null, true]);
  expect(findings.filter(({ code }) => code.startsWith('limit-'))).toEqual([]);
  // Once it is there the same limits fail.
  const measured: Measurer = (work) => (work.kind.endsWith('heat') ? measureNow(work) : null);
  const done = checkText(text, undefined, measured);
  expect(done.limits.map(({ met }) => met)).toEqual([false, false, false, true]);
  expect(done.findings.filter(({ code }) => code === 'limit-failed')).toHaveLength(3);
});

it('a limit waits for paths that are being found, unless something else is missing, too', () => {
  const asking = `winding "Winch"
machine { slots 12 poles 4 phases 3 current 40 A }
layout { layers 2 span 3 }
connect { star route paths 2 }
require {
  special-joints            <= 4
  path-voltage-difference   <= 0.1 %
  phase-resistance          <= 9 ohm
  winding-factor harmonic 1 >= 0.9
}
`;
  const told = (found: ReturnType<typeof checkText>) =>
    found.limits.map((limit) => (isUnderWay(limit) ? 'waits' : limit.met));
  const waiting = checkText(asking, () => ({ kind: 'pending' }));
  expect(told(waiting)).toEqual(['waits', 'waits', null, true]);
  const [lacking, ...others] = waiting.findings.filter(({ code }) => code.startsWith('limit-'));
  expect(lacking?.message).toMatch(/^phase-resistance cannot be computed: it needs /);
  expect(lacking?.message).not.toContain('still being found');
  expect(others).toEqual([]);
  expect(told(checkText(asking))).toEqual([true, true, null, true]);
});
