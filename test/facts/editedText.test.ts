// Takes its time: studies every text of a session of editing twice.

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { ConnectionState, Connector } from '../../core/facts/connection.ts';
import { connectNow } from '../../core/facts/connection.ts';
import { checkText } from '../../core/findings/checkedText.ts';
import { type Study, studyOf } from '../../core/study.ts';
import { drawView } from '../../core/views/views.ts';
import { createBackgroundMeasurer } from '../../extension/engine/backgroundMeasurer.ts';
import { tries } from '../support/tries.ts';
import { writtenOut } from '../support/writtenOut.ts';

const beginning = readFileSync('test/bench/stator.winding', 'utf8')
  .replace('layers 4', 'layers 2')
  .replace('slots   48', 'slots   12')
  .replace('poles   8', 'poles   2')
  .replace('bore    162 mm', 'bore    41 mm');

const writtenBeginning = writtenOut(beginning);

/** Paths found once are found again: what is kept of them is not what is tried here. */
const found = new Map<string, ConnectionState>();
const connect: Connector = (winding, { judge, contacts: _, ...request }) => {
  const key = JSON.stringify([winding, winding.table.cells.join(), request, judge?.given]);
  const state = found.get(key) ?? connectNow(winding, { ...request, judge: null, contacts: null });
  found.set(key, state);
  return state;
};

/** An edit as one types it; `at` and `by` say where and how. */
type Edit = (text: string, at: number, by: number) => string;

const edits: Readonly<Record<string, Edit>> = {
  'a letter of the title': (text) => text.replace(/"(.*)"/, '"$1x"'),
  'a line above all': (text, _, by) => `# note ${by}\n${text}`,
  'a number': (text, at, by) => {
    const numbers = [...text.matchAll(/(?<=[a-z] +)\d+(\.\d+)?/g)];
    const number = numbers[at % Math.max(1, numbers.length)];
    if (number === undefined) return text;
    const other = Number((Number(number[0]) * (1 + ((by % 5) + 1) / 16)).toPrecision(4));
    const value = number[0].includes('.') || Number(number[0]) > 12 ? other : Number(number[0]) + 1;
    return text.slice(0, number.index) + value + text.slice(number.index + number[0].length);
  },
  'a line less': (text, at) => {
    const lines = text.split('\n');
    return lines.filter((line, index) => index !== at % lines.length || /[{}]/.test(line)).join('\n');
  },
  'a line twice': (text, at) => {
    const lines = text.split('\n');
    const line = lines[at % lines.length]!;
    return /[{}]/.test(line)
      ? text
      : lines.flatMap((each) => (each === line ? [line, line] : [each])).join('\n');
  },
  'half a word': (text, at) => text.slice(0, at % text.length) + text.slice((at % text.length) + 1),
  'another connection': (text) => (text.includes('star') ? text.replace('star', 'delta') : text),
  'a hop of a path': (text, at, by) => {
    const hops = [...text.matchAll(/[+-]\d+(?=[ab]\b)/g)];
    const hop = hops[at % Math.max(1, hops.length)];
    if (hop === undefined) return text;
    const other = `${hop[0][0]}${1 + ((Number(hop[0].slice(1)) + by) % 12)}`;
    return text.slice(0, hop.index) + other + text.slice(hop.index + hop[0].length);
  },
  'a path less': (text) => text.replace(/^ *path .*\n/m, ''),
  'all undone': () => beginning,
  'paths written out': () => writtenBeginning,
};

/** Everything that a study shows, as text. */
function told(study: Study): string {
  const { facts, findings, limits, title, specification } = study;
  const layouts = facts
    ? [{ phase: 0 }, undefined].map((emphasis) =>
        drawView({ title, specification, facts }, 'layout', {
          emphasis,
          room: { width: 104, height: 92 },
        }),
      )
    : [];
  return JSON.stringify([
    findings,
    limits,
    study.keyFigures(),
    study.report(),
    study.layoutPicture(),
    layouts,
  ]);
}

/** A text as one types it, and whether one stops typing until all is measured. */
interface Typed {
  readonly text: string;
  readonly rests: boolean;
}

/** Types texts one after the other and compares each with what it gives by itself; tells how many were compared. */
function compareTyped(texts: readonly Typed[]): number {
  const waiting: (() => void)[] = [];
  const measurer = createBackgroundMeasurer({ now: () => 0, later: (work) => waiting.push(work) }, () => {});
  const typed = (text: string) => studyOf(checkText(text, connect, measurer));
  const settled = (text: string): Study => {
    for (;;) {
      const study = typed(text);
      // What is only asked for by the report is measured, too.
      study.report();
      if (waiting.length === 0) return typed(text);
      for (const work of waiting.splice(0)) work();
    }
  };
  let compared = 0;
  for (const { text, rests } of texts) {
    const study = rests ? settled(text) : typed(text);
    const shown = told(study);
    // What is still being measured is compared once it is.
    if (study.measuring || waiting.length > 0) continue;
    compared++;
    expect(shown, text).toBe(told(studyOf(checkText(text, connect))));
  }
  return compared;
}

test('what is kept from text to text is what each text gives by itself', () => {
  const one = fc.record({
    edit: fc.constantFrom(...Object.keys(edits)),
    at: fc.nat(200),
    by: fc.nat(9),
    rests: fc.boolean(),
  });
  let compared = 0;
  fc.assert(
    fc.property(fc.array(one, { minLength: 4, maxLength: 8 }), (session) => {
      const texts: Typed[] = [{ text: beginning, rests: true }];
      for (const { edit, at, by, rests } of session)
        texts.push({ text: edits[edit]!(texts.at(-1)!.text, at, by), rests });
      compared += compareTyped(texts);
    }),
    { seed: 5, numRuns: tries(4) },
  );
  expect(compared).toBeGreaterThan(tries(6));
});

test('what is kept while paths are wrong is what each text gives by itself', () => {
  const hop = (text: string, bar: string) => text.replace(/\+\d+b/, bar);
  const [wrong, other] = [hop(writtenBeginning, '+5b'), hop(writtenBeginning, '+7b')];
  const more = (text: string) => text.replace('current 210', 'current 220');
  const texts = [writtenBeginning, wrong, other, more(other), more(writtenBeginning), wrong];
  const studies = texts.map((text) => checkText(text, connect));
  expect(studies.map(({ facts }) => facts!.connection.kind)).toEqual([
    'connected',
    'none',
    'none',
    'none',
    'connected',
    'none',
  ]);
  expect(compareTyped(texts.map((text) => ({ text, rests: true })))).toBe(texts.length);
});
