// Takes its time: measures bars in space.

import { describe, expect, it } from 'vitest';
import type { Work } from '../../../core/figures/work.ts';
import { checkText } from '../../../core/findings/checkedText.ts';
import { endsClose, endsCollide } from '../../../core/findings/space/findingKinds.ts';
import { buoyHub, machineText, type Request } from '../../space/machines.ts';
import { study } from '../../support/study.ts';

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
  study(text)
    .findings.filter(({ code }) => /^ends-/.test(code))
    .map(({ code, severity }) => `${severity} ${code}`);

describe('bar ends that collide', () => {
  it('are told once the bars fit their slot', () => {
    const fitting = /\bdepth ([\d.]+) mm/;
    const [, depth] = fitting.exec(colliding)!;
    const shallow = colliding.replace(fitting, `depth ${Number(depth) / 2} mm`);
    const all = study(shallow).findings.map(({ code }) => code);
    expect(all).toContain('bars-do-not-fit');
    expect(codes(shallow)).toEqual([]);
    expect(codes(colliding)).toContain('error ends-collide');
  });

  it('are told of one pair as of one', () => {
    const one = {
      kind: 'piece',
      side: 'far',
      bars: ['1a', '2a'],
      pieces: ['leg', 'leg'],
      distance: -1e-3,
      count: 1,
    } as const;
    const colliding = endsCollide.message({ ...one, freed: null, assumed: null, crowns: true });
    expect(colliding).toContain('; one pair of bars collides so. ');
    expect(endsClose.message({ ...one, asked: 1e-3 })).toContain('; one pair of bars is too near so.');
  });

  it('with the riser of a piece are freed by less clearance, where its bar then finds a place', () => {
    const collision = (clearance: number) =>
      study(buoyHub({ clearance })).findings.find(({ code }) => code === 'ends-collide');
    const found = collision(0.8)!;
    expect(found.message).toMatch(
      /riser of the piece \w+–\w+ run .* An end-clearance of at most 0\.\d+ mm frees them\.$/,
    );
    expect(found.fix?.title).toMatch(/^Write 'end-clearance 0\.\d+ mm'$/);
    expect(collision(Number.parseFloat(found.fix!.edits[0]!.text))).toBeUndefined();
  });

  it('are not told of crowns where bars are straight', () => {
    const told = study(buoyHub({ clearance: 0.8, bore: 160 })).findings.map(({ message }) => message);
    expect(told.join('\n')).toMatch(/No clearance that was tried frees them: another connection, /);
    expect(told.join('\n')).not.toContain('crowns');
  });

  it('are an error at the worst place of a kind, with the value that frees them, which does', () => {
    let text = colliding;
    const said: string[] = [];
    for (let round = 0; round < 3; round++) {
      const first = study(text).findings.find(({ code }) => code === 'ends-collide');
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

  it.each([
    [
      'hairpins of touching layers: a smaller flat radius and more clearance',
      `machine { slots 40 poles 8 phases 5 bore 180 mm stack 100 mm }
       slot { width 6 mm depth 16 mm liner 0.3 mm wedge 1 mm opening-height 0.8 mm }
       bar { width 5 mm height 6 mm corner 0.6 mm coating 0.1 mm form hairpin end-straight 8 mm
         end-clearance 0.8 mm joint-straight 10 mm bend-radius 5 mm lead-length 30 mm }
       layout { layers 2 span 4 }
       connect { star route paths 2 }`,
      /A flat bend radius of at most 2\.5 mm and an end-clearance of at least [\d.]+ mm free them\.$/,
    ],
    [
      'leads without a place among the tips: less clearance',
      `machine { slots 48 poles 8 phases 3 bore 220 mm stack 180 mm }
       slot { width 8 mm depth 30 mm opening-height 1 mm wedge 2 mm liner 0.4 mm separator a b 0.5 mm }
       bar { width 6.6 mm height 12 mm corner 0.8 mm coating 0.15 mm form straight end-straight 10 mm
         end-clearance 1.5 mm joint-straight 15 mm bend-radius 7 mm lead-length 40 mm }
       layout { layers 2 span 5 }
       connect { star route paths 2 }`,
      /An end-clearance of at most [\d.]+ mm frees them\.$/,
    ],
  ])('are told what frees them, which does, of %s', (_, written, expected) => {
    let text = `winding "W"\n${written}`;
    const said: string[] = [];
    for (let round = 0; round < 4; round++) {
      const found = study(text).findings.filter(({ code }) => code === 'ends-collide');
      if (found.length === 0) break;
      said.push(...found.map(({ message }) => message));
      const { fix } = found.find(({ message }) => expected.test(message)) ?? found[0]!;
      for (const edit of [...fix!.edits].sort((a, b) => b.range.start - a.range.start))
        text = text.slice(0, edit.range.start) + edit.text + text.slice(edit.range.end);
    }
    expect(said.some((message) => expected.test(message))).toBe(true);
    expect(study(text).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('are infos without a bend radius, whose limit cannot be computed', () => {
    const text = `${colliding.replace('bend-radius 4.5 mm flat 8 mm', '')}\nrequire { end-clearance-left >= 0 mm }`;
    for (const code of codes(text)) expect(code).toMatch(/^info /);
    const { limits, findings } = study(text);
    expect(limits[0]!.met).toBeNull();
    expect(findings.find(({ code }) => code === 'limit-not-computable')!.message).toContain(
      "it needs 'bar bend-radius'",
    );
  });

  it('that no clearance frees are freed by a separator, for which the slot has to be deeper', () => {
    const crowded = machineText({
      ...request,
      paths: 1,
      filled: 0.55,
      bar: 'bend-radius 4.5 mm flat 8 mm',
    });
    const errors = (text: string) => study(text).findings.filter(({ severity }) => severity === 'error');
    expect(errors(crowded).find(({ code }) => code === 'ends-collide')?.message).toContain(
      'a separator between the layers in a slot as much deeper, ',
    );
    const parted = crowded.replace(/^slot\s+\{/m, '$& separator a b 2.4 mm ');
    expect(errors(parted).map(({ code }) => code)).toEqual(['bars-do-not-fit']);
    const deeper = parted.replace(/ depth ([\d.]+) mm/, (_, depth) => ` depth ${Number(depth) + 2.4} mm`);
    expect(errors(deeper)).toEqual([]);
  });

  it('of a lead and a ring are told with what frees them, which no clearance does', () => {
    // 24 ends on 12 slots: more than can come to three rings.
    const ringed = machineText({
      ...request,
      paths: 4,
      gap: 'both',
      lean: [1, -1],
      filled: 0.427,
      slender: 1.19,
      bar: 'bend-radius 2.5 mm flat 2 mm lead-length 40 mm ring-width 9 mm ring-height 2 mm',
      connect: 'rings all',
    });
    const delta = ringed.replace('connect { star', 'connect { delta');
    const found = study(delta).findings.filter(({ code }) => code === 'ends-collide');
    const lead = found.find(({ message }) => message.includes('the lead of'));
    expect(lead?.message).toContain(
      'Leads that end below the rings, smaller rings, or paths that start and end in other layers may.',
    );
  });

  it('fail the limit of what is left', () => {
    const limited = `${colliding}\nrequire { end-clearance-left >= 0 mm }`;
    const [limit] = study(limited).limits;
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
    expect(asked.map(({ kind }) => kind)).toContain('near-ends');
    const key = asked[0]!.key();
    checkText(`# a comment\n${colliding}`, undefined, (ends) => {
      if (ends.kind === 'near-ends') expect(ends.key()).toBe(key);
      return null;
    });
    checkText(colliding.replace('end-clearance 0.5 mm', 'end-clearance 0.6 mm'), undefined, (ends) => {
      expect(ends.key()).not.toBe(key);
      return null;
    });
  });
});
