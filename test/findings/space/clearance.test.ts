import { describe, expect, it } from 'vitest';
import type { Work } from '../../../core/figures/work.ts';
import { checkText } from '../../../core/findings/checkedText.ts';
import { machineText, type Request } from '../../space/machines.ts';

const request: Request = {
  slots: 12,
  poles: 4,
  layers: 2,
  paths: 2,
  form: 'hairpin',
  gap: 'inner',
  lean: [0, 0],
  filled: 0.42,
  slender: 0.8,
};
const colliding = machineText({ ...request, bar: 'bend-radius 4.5 mm flat 8 mm' });
const codes = (text: string) =>
  checkText(text)
    .findings.filter(({ code }) => /^ends-/.test(code))
    .map(({ code, severity }) => `${severity} ${code}`);

describe('bar ends that collide', () => {
  it('are an error at the worst place of a kind, with the value that frees them, which does', () => {
    let text = colliding;
    const said: string[] = [];
    for (let round = 0; round < 3; round++) {
      const first = checkText(text).findings.find(({ code }) => code === 'ends-collide');
      if (!first) break;
      expect(first.severity).toBe('error');
      expect(first.message).toMatch(
        /^On the far side the (leg|bend|crown) of \d+[ab] and the (leg|bend|crown) of \d+[ab] run [\d.]+ mm into each other; \d+ pairs of bars collide so\. (An end-clearance of at least|A flat bend radius of at most) [\d.]+ mm frees them\.$/,
      );
      const [edit] = first.fix!.edits;
      said.push(first.message);
      text = text.slice(0, edit!.range.start) + edit!.text + text.slice(edit!.range.end);
    }
    expect(said.length).toBeGreaterThan(0);
    expect(new Set(said).size).toBe(said.length);
    expect(codes(text)).toEqual([]);
  });

  it('are infos without a bend radius, whose limit cannot be computed', () => {
    const text = `${colliding.replace('bend-radius 4.5 mm flat 8 mm', '')}\nrequire { end-clearance-left >= 0 mm }`;
    for (const code of codes(text)) expect(code).toMatch(/^info /);
    const { limits, findings } = checkText(text);
    expect(limits[0]!.met).toBeNull();
    expect(findings.find(({ code }) => code === 'limit-not-computable')!.message).toContain(
      "it needs 'bar bend-radius'",
    );
  });

  it('of a lead and a ring are told with what frees them, which no clearance does', () => {
    const ringed = machineText({
      ...request,
      bar: 'bend-radius 5 mm flat 2 mm lead-length 15 mm ring-width 9 mm ring-height 4 mm',
      connect: 'rings star',
    });
    const found = checkText(ringed).findings.filter(({ code }) => code === 'ends-collide');
    const ring = found.find(({ message }) => message.includes('the ring N'));
    expect(ring?.message).toContain(
      'Leads that end below it, or paths that start and end in other layers, do.',
    );
  });

  it('fail the limit of what is left', () => {
    const limited = `${colliding}\nrequire { end-clearance-left >= 0 mm }`;
    const [limit] = checkText(limited).limits;
    expect(limit!.met).toBe(false);
    expect(limit!.actual).toBeLessThan(0);
  });

  it('are measured apart where a measurer takes its time', () => {
    const asked: Work<unknown>[] = [];
    const waiting = checkText(colliding, undefined, (ends) => {
      asked.push(ends);
      return null;
    });
    expect(waiting.measuring).toBe(true);
    expect(waiting.findings.map(({ code }) => code)).not.toContain('ends-collide');
    expect(asked.map(({ kind }) => kind)).toContain('clearances');
    const key = asked[0]!.key();
    checkText(`# a comment\n${colliding}`, undefined, (ends) => {
      if (ends.kind === 'clearances') expect(ends.key()).toBe(key);
      return null;
    });
    checkText(colliding.replace('end-clearance 0.5 mm', 'end-clearance 0.6 mm'), undefined, (ends) => {
      expect(ends.key()).not.toBe(key);
      return null;
    });
  });
});
