// Takes its time: judges many variants.

import { describe, expect, it } from 'vitest';
import { finished } from '../../core/figures/steps.ts';
import { checkText } from '../../core/findings/checkedText.ts';
import type { Measure } from '../../core/language/specification/specification.ts';
import { answer, collectionFor, mergeAnswers } from '../../core/variants/answer.ts';
import { chosenText } from '../../core/variants/chosen.ts';
import type { Kept } from '../../core/variants/collect.ts';
import { evaluator } from '../../core/variants/evaluate.ts';
import { explore, type Shard } from '../../core/variants/explore.ts';
import { measured } from '../../core/variants/measures.ts';
import { questionOf } from '../../core/variants/question.ts';
import { type Variants, variantsSchema } from '../../core/variants/schema.ts';
import { answerText } from '../../core/variants/table.ts';
import { study } from '../support/study.ts';

/** Everything about a question: its answer, what was heard, and what judged. */
function asked(text: string, top = 20, shard: Shard | null = null) {
  const question = questionOf(text);
  expect(question.errors).toEqual([]);
  const judge = evaluator(question);
  const collected = collectionFor(question, top);
  const kept: Kept[] = [];
  const range = { first: 1, last: question.candidates };
  finished(explore(judge, collected, range, shard, (candidate) => kept.push(candidate)));
  const made = finished(answer(judge, collected, { version: '1', top, complete: true, shard }));
  expect(variantsSchema.parse(JSON.parse(JSON.stringify(made)))).toEqual(made);
  return { judge, kept, made };
}

const combination = ({ values }: Variants['rows'][number]) =>
  `${values['machine slots']}/${values['machine poles']}`;

describe('published best choices come out on top', () => {
  // Magnussen and Sadarangani, Winding factors and Joule losses of PM machines with concentrated windings,
  // IEEE IEMDC 2003, and Pyrhonen et al., Design of Rotating Electrical Machines, 2nd ed., ch. 2 (from memory,
  // recomputed from the star of slots): 0.951 for 15/14 and 15/16, 0.945 for 9/8 and 9/10, 0.933 for 12/10 and
  // 12/14.
  it('tooth coils by their winding factor', () => {
    const { made } = asked(`winding "Bow thruster"
machine { phases 3 }
layout { layers 2  span 1 }
vary {
  machine slots 9 to 15 by 3
  machine poles 8 to 16 by 2
  keep winding-factor harmonic 1 >= 0.9
  rank most winding-factor harmonic 1  most cogging-periods
}`);
    const table = made.rows.map((row) => [
      combination(row),
      (row.figures['winding-factor harmonic 1'] as number).toFixed(3),
    ]);
    expect(table).toEqual([
      ['15/16', '0.951'],
      ['15/14', '0.951'],
      ['9/10', '0.945'],
      ['9/8', '0.945'],
      ['12/14', '0.933'],
      ['12/10', '0.933'],
    ]);
    // Q/(3t) is no integer (star of slots): no winding.
    expect(made.refused.map(({ reason }) => reason)).toContain('layout-refused: unbalanced');
  });

  // Every handbook: a pitch of 5/6 makes the fifth and seventh of two slots per pole and phase small together,
  // kp5 = kp7 = 0.259 (recomputed: sin(5 75 deg) and sin(7 75 deg)).
  it('the chording that weakens the fifth and the seventh', () => {
    const { made } = asked(`winding "Pump"
machine { slots 24  poles 4  phases 3 }
layout { layers 2 }
vary {
  layout span nominal -2 to nominal
  rank least pitch-factor harmonic 5  least pitch-factor harmonic 7
}`);
    expect(made.rows.map(({ values }) => values['layout span'])).toEqual([5, 4, 6]);
    const [best] = made.rows;
    expect(best!.figures['pitch-factor harmonic 5']).toBeCloseTo(0.258819, 6);
    expect(best!.figures['pitch-factor harmonic 7']).toBeCloseTo(0.258819, 6);
    expect(best!.front).toBe(true);
  });
});

const winch = `winding "Lock gate winch"
machine {
  slots 12  poles 4  phases 3
  bore 80 mm  stack 60 mm  air-gap 0.6 mm  magnet-height 4 mm
  speed 1200 rpm  flux 4 mWb  current 60 A  winding-temperature 90 degC
}
slot { width 6 mm  depth 14 mm  opening 1.5 mm  liner 0.3 mm }
bar {
  width 5 mm  height 5.6 mm  corner 0.4 mm  coating 0.1 mm
  end-straight 6 mm  end-clearance 0.8 mm  joint-straight 8 mm  lead-length 20 mm
}
layout { layers 2  span 3 }
connect { star  route paths 1 }
require { torque >= 1 Nm  differential-leakage <= 12 %  slot-fill <= 80 % }
vary {
  machine slots 12 24
  bar height 4 mm to 5 mm by 0.5 mm
  layout span nominal -1 to nominal
  machine stack 60 mm 70 mm
  keep slot-fill <= 75 %
  rank least copper-loss  least differential-leakage  most torque
}
`;

describe('a candidate', () => {
  const { judge, made, kept } = asked(winch);

  it('has the figures that the study of its text gives, to the last digit', () => {
    // A few at random, by a fixed linear congruence.
    const some = [...new Set([1, 2, 3].map((n) => kept[(n * 7919) % kept.length]!))];
    expect(some.length).toBeGreaterThan(1);
    for (const { number, figures } of some) {
      const text = chosenText(judge, number, 'winch')!;
      const { facts, findings } = study(text);
      expect(findings.filter(({ code }) => code === 'vary-written')).toEqual([]);
      expect(text).not.toContain('vary {');
      const told = judge.question.measures.map((measure: Measure) => measured(measure, facts!));
      expect(told.map((figure) => (figure.known ? figure.value : null))).toEqual(figures);
    }
  });

  it('is numbered by its rows, the last stepping first', () => {
    expect(made.candidates).toBe(24);
    expect(judge.values(1)!.map((item) => item.kind === 'number' && item.text)).toEqual([
      '12',
      '4',
      '2',
      '60',
    ]);
    expect(judge.values(2)!.map((item) => item.kind === 'number' && item.text)).toEqual([
      '12',
      '4',
      '2',
      '70',
    ]);
    expect(judge.values(24)!.map((item) => item.kind === 'number' && item.text)).toEqual([
      '24',
      '5',
      '6',
      '70',
    ]);
  });

  it('is counted once: refused, left out, or kept', () => {
    const refused = made.refused.reduce((sum, { count }) => sum + count, 0);
    expect(refused + made.leftOut + made.kept).toBe(made.candidates);
    expect(made.kept).toBe(kept.length);
  });

  it('tells how each limit of the file stands', () => {
    expect(made.limits).toEqual(['torque >= 1 Nm', 'differential-leakage <= 12 %', 'slot-fill <= 80 %']);
    for (const { limits, figures } of made.rows)
      expect(limits).toEqual([true, (figures['differential-leakage'] as number) <= 0.12, true]);
  });

  it('belongs to one shard, and shards together give the whole answer, whatever their order', () => {
    const parts = [3, 1, 2].map((index) => asked(winch, 20, { index, of: 3 }).made);
    expect(parts.every(({ kept: some }) => some < made.kept)).toBe(true);
    expect(JSON.stringify(mergeAnswers(parts))).toBe(JSON.stringify(made));
    expect(mergeAnswers(parts.slice(1))).toEqual({ kind: 'missing', indexes: [3] });
    expect(mergeAnswers([parts[0]!, parts[0]!])).toEqual({ kind: 'double', part: 1, index: 3 });
    expect(mergeAnswers([parts[0]!, { ...parts[1]!, textHash: '0' }])).toMatchObject({ kind: 'foreign' });
    expect(mergeAnswers([made])).toEqual({ kind: 'no-part', part: 0 });
  });

  it('is told with what is held equal', () => {
    const text = answerText(made);
    expect(text).toContain('24 candidates:');
    expect(text).toMatch(/torque [\d.]+ Nm \(the current follows\)/);
    expect(text).toContain('least copper-loss, then least differential-leakage, then most torque');
  });
});

describe('a candidate judged by its layout alone', () => {
  // Tables that leans share, slots of one and of two phases, equal and unequal leans, openings or none, a stepped rotor.
  const everything = [
    'rank least differential-leakage  most largest-paths  least winding-factor harmonic 5',
    'least pitch-factor harmonic 7  most distribution-factor harmonic 1  least skew-factor harmonic 11',
    'most cogging-periods  most radial-symmetry  least phase-voltage-difference',
  ].join('  ');
  it.each([
    ['by slot table and lean', everything],
    ['and by its waves', `${everything}  least wave-relative harmonic 5  most lowest-force-order`],
  ])('has the figures of the study of its text, %s', (_, ranked) => {
    const { judge, kept } = asked(`winding "Weir pump"
machine { slots 24  poles 4  phases 3  bore 120 mm  rotor-skew 1 slot in 3 steps }
slot a b { width 5 mm  depth 12 mm  opening 1.5 mm }
slot c d { width 5 mm  depth 12 mm  opening 1.5 mm }
layout { layers 4  span 6  skew a b 1 slot }
vary {
  layout skew c d -1 slot to 1 slot by 0.5 slot
  layout span nominal -2 to nominal
  machine rotor-skew 0 deg to 10 deg by 5 deg
  ${ranked}
}`);
    expect(judge.wholeAsked).toBe(false);
    expect(kept.length).toBe(45);
    for (const { number, figures } of kept) {
      const { facts } = checkText(chosenText(judge, number, 'pump')!, () => ({
        kind: 'none',
        why: 'not-said',
      }));
      const told = judge.question.measures.map((measure: Measure) => measured(measure, facts!));
      expect(told.map((figure) => (figure.known ? figure.value : null))).toEqual(figures);
    }
  });
});

describe('what stays equal', () => {
  const base = (hold: string, rest: string) => `winding "Winch"
machine {
  slots 24  poles 4  phases 3
  bore 120 mm  stack 80 mm  speed 900 rpm  flux 8 mWb  current 100 A
}
slot { width 8 mm  depth 20 mm  liner 0.5 mm  opening 2 mm }
bar { width 6 mm  height 9 mm  coating 0.1 mm }
layout { layers 2  span 6 }
connect { star }
vary {
  ${hold}
  ${rest}
  rank most torque
}
`;
  const held = (hold: string, rest: string, number: number) => {
    const { judge, made } = asked(base(hold, rest));
    const text = chosenText(judge, number, 'winch')!;
    const { machine, slots, bar } = checkText(text, () => ({ kind: 'none', why: 'not-said' })).specification;
    return {
      made,
      text,
      flux: machine!.flux!.value,
      current: machine!.current!.value,
      slot: slots[0]!.width!.value,
      width: bar!.width[0]!.value.value,
      height: bar!.height[0]!.value.value,
    };
  };

  // By hand: q = 2 at 4 poles has kw = cos 15 deg = 0.965926, q = 1 at 8 poles kw = 1. At equal flux density the
  // flux of a pole halves; the torque m p N kw Phi I / sqrt2 keeps p Phi and N, so I goes as 1 / kw.
  it('is the flux density and the torque from 4 to 8 poles', () => {
    const { flux, current, made } = held(
      'hold gap-flux-density torque',
      'machine poles 4 8  layout span nominal',
      2,
    );
    expect(flux).toBeCloseTo(4e-3, 12);
    expect(current).toBeCloseTo(100 * Math.cos(Math.PI / 12), 4);
    const [one, other] = made.rows.map(({ figures }) => figures.torque as number);
    expect(Math.abs(one! / other! - 1)).toBeLessThan(1e-6);
    // m p N kw Phi I / sqrt2 with N = 24 * 2 / 3 / 2 = 8 turns.
    expect(one! / ((3 * 2 * 8 * Math.cos(Math.PI / 12) * 8e-3 * 100) / Math.SQRT2)).toBeCloseTo(1, 6);
    expect(made.hold).toMatchObject({
      field: 'gap-flux-density',
      load: 'torque',
      room: 'shares',
      unsettled: [],
    });
  });

  it('is the flux and the current where they are asked for', () => {
    const { flux, current } = held('hold flux current', 'machine poles 4 8  layout span nominal', 2);
    expect([flux, current]).toEqual([8e-3, 100]);
  });

  it('is the flux density where the bore and the stack vary: the flux goes as both', () => {
    const { flux } = held('hold current', 'machine bore 150 mm  machine stack 60 mm', 1);
    expect(flux).toBeCloseTo(8e-3 * (150 / 120) * (60 / 80), 12);
  });

  // Half the pitch: the slot halves to 4 mm; of its 4 - 2 * 0.5 - 2 * 0.1 = 2.8 mm the bar keeps 6/6.8.
  it('is the share of slots in the pitch, and of bars in the room that insulation leaves', () => {
    const { slot, width, height } = held('', 'machine slots 48', 1);
    expect(slot).toBeCloseTo(4e-3, 10);
    expect(width).toBeCloseTo((2.8e-3 * 6) / 6.8, 8);
    expect(height).toBeCloseTo(9e-3, 10);
  });

  // Room along the depth: 20 - 0.5 = 19.5 mm; two bars of 9 mm leave (19.5 / 2 - 0.2) = 9.55 mm to each, four
  // (19.5 / 4 - 0.2) = 4.675 mm.
  it('is the fill of the slot where the layers vary', () => {
    const { height } = held('', 'layout layers 4', 1);
    expect(height).toBeCloseTo((9e-3 * 4.675) / 9.55, 8);
  });

  it('leaves heights that are written layer by layer where the layers vary, and tells so', () => {
    const text = base('', 'layout layers 2 4').replace('height 9 mm', 'height a 9 mm  height b 8 mm');
    const { made, judge } = asked(text);
    expect(made.hold.unsettled.join()).toContain('bar height');
    expect(chosenText(judge, 2, 'winch')).toContain('height a 9 mm  height b 8 mm');
  });

  // Half the poles double the flux of a pole, to more than the 1000 Wb that the language takes.
  it('is missing where the language refuses what follows, as in the text of the variant', () => {
    const text = base('hold current', 'machine poles 2 4  layout span nominal').replace('8 mWb', '900 Wb');
    const { judge } = asked(text);
    const { machine } = checkText(chosenText(judge, 1, 'winch')!).specification;
    const { specification } = judge.layoutFacts(1)!;
    expect(machine!.flux).toBeUndefined();
    expect(specification.machine!.flux).toBeUndefined();
  });

  it('is the sizes where they are asked for', () => {
    const { slot, width } = held('hold sizes', 'machine slots 48', 1);
    expect([slot, width]).toEqual([8e-3, 6e-3]);
  });

  it('is told as missing where nothing settles it, with the row', () => {
    const question = questionOf(base('', 'machine bore 150 mm').replace('bore 120 mm', ''));
    const { unsettled } = evaluator(question).holding;
    expect(unsettled.join()).toContain('machine bore');
  });
});

describe('a variant taken over', () => {
  it('keeps the rest of the text, comments too, and says where it comes from', () => {
    const text = winch.replace('layout {', 'layout { # of the gate\n ').replace('speed', '# fast\n  speed');
    const judge = evaluator(questionOf(text));
    const chosen = chosenText(judge, 24, 'winch.winding')!;
    expect(chosen.split('\n')[0]).toBe(
      '# Variant 24 of winch.winding: machine slots 24, bar height 5 mm, layout span 6, machine stack 70 mm',
    );
    for (const part of ['# of the gate', '# fast', 'slots 24', 'height 5 mm', 'span 6', 'stack 70 mm'])
      expect(chosen).toContain(part);
    expect(study(chosen).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('writes words and blocks that the file lacks', () => {
    const judge = evaluator(
      questionOf(
        'winding "W"\nmachine { slots 12 poles 10 phases 3 }\nlayout { layers 2 span 1 }\nconnect { star }\nvary { connect route paths 1 2  layout stagger 0 1  bar height 2 mm }\n',
      ),
    );
    expect(chosenText(judge, 3, 'w')).toContain(
      'layout { layers 2 span 1 stagger 0 }\nconnect { star route paths 2 }\n\nbar {\n  height 2 mm\n}\n',
    );
  });
});

describe('judging that is given up', () => {
  // What is bounded is counted, not timed: candidates between two chances to stop, and chances within one study.
  it('goes on for at most 64 layouts, and judges none behind them', () => {
    const question = questionOf(`winding "Pump"
machine { slots 24  poles 4  phases 3 }
layout { layers 2  span 5 }
vary {
  layout skew all 0 deg to 15 deg by 0.01 deg
  rank most winding-factor harmonic 1
}`);
    const collected = collectionFor(question, 20);
    const steps = explore(evaluator(question), collected, { first: 1, last: question.candidates });
    let before = 0;
    for (let turn = 0; turn < 5; turn++) {
      expect(steps.next().done).toBe(false);
      const { judged } = collected.counts();
      expect(judged - before).toBeLessThanOrEqual(64);
      before = judged;
    }
    steps.return();
    expect(collected.counts().judged).toBe(before);
    expect(before).toBeLessThan(question.candidates);
  });

  it('stops many times within a whole study, and after each', () => {
    const question = questionOf(winch);
    const collected = collectionFor(question, 20);
    const steps = explore(evaluator(question), collected, { first: 1, last: question.candidates });
    let [before, chances] = [0, 0];
    for (let step = steps.next(); !step.done; step = steps.next()) {
      chances++;
      const { judged } = collected.counts();
      expect(judged - before).toBeLessThanOrEqual(1);
      before = judged;
    }
    // Candidates whose layout or sizes are refused have few; each study that is made has its work in space.
    expect(chances).toBeGreaterThan(10 * collected.counts().kept);
  });
});
