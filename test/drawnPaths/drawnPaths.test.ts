import { describe, expect, test } from 'vitest';
import { changeJoint, otherPartners } from '../../core/drawnPaths/changeJoint.ts';
import {
  barsToTake,
  beginDrawing,
  type Drawing,
  drawnPaths,
  endPath,
  firstBars,
  freeKept,
  stepBack,
  takeBar,
  unusedBars,
} from '../../core/drawnPaths/drawing.ts';
import { progressOf } from '../../core/drawnPaths/progress.ts';
import { type DrawingSource, drawingSource } from '../../core/drawnPaths/source.ts';
import { followersOf, pathChanges, withDrawn } from '../../core/drawnPaths/writeDrawn.ts';
import { regularBends } from '../../core/winding/joints/bends.ts';
import { type Bar, barName, cellAt, type Path, type Winding } from '../../core/winding/model.ts';
import { classOf, flatten, isPieceOf, refereeProblems } from '../routing/checkRouting.ts';
import { lockGate, writtenGate } from '../support/lockGate.ts';
import { study } from '../support/study.ts';
import { type MachineRequest, machine } from '../winding/windings.ts';

/** Numbers from 0 to 1, always the same ones. */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

const baseOf = (winding: Winding) => ({ winding, bends: regularBends(winding) });

/** All bars of a phase drawn, each time one of the bars that are allowed; paths of even shares. */
function drawnAtRandom(
  winding: Winding,
  phase: number,
  paths: number,
  random: () => number,
): readonly Path[] {
  const anew = Array.from({ length: paths }, (_, index) => index + 1);
  let drawing = beginDrawing(baseOf(winding), 'star', phase, [], anew);
  const one = <Item>(items: readonly Item[]) => items[Math.floor(random() * items.length)];
  const share = progressOf(drawing).share;
  while (unusedBars(drawing).length > 0) {
    const isFull = drawing.current.bars.length >= share && drawing.current.bars.length % 2 === 0;
    const next: Bar | undefined = isFull
      ? undefined
      : (one(firstBars(drawing)) ?? one(barsToTake(drawing))?.bar);
    drawing = next === undefined ? endPath(drawing) : takeBar(drawing, next)!;
  }
  return drawnPaths(drawing);
}

const machines: readonly (MachineRequest & { readonly paths: number })[] = [
  { slots: 12, poles: 4, layers: 2, paths: 2 },
  { slots: 12, poles: 2, layers: 4, paths: 2 },
  { slots: 24, poles: 4, layers: 2, span: 5, paths: 1 },
  { slots: 30, poles: 4, layers: 4, span: 7, paths: 2 },
  { slots: 12, poles: 10, layers: 2, paths: 2 },
  { slots: 12, poles: 2, layers: 1, paths: 1 },
];

describe('the bars that may come next', () => {
  test.each(machines)('lead to paths that a referee has nothing against but their balance: %o', (request) => {
    const winding = machine(request);
    const layout = {
      span: request.span ?? Math.max(1, Math.floor(request.slots / request.poles)),
      tooth: winding.slots % winding.polePairs !== 0,
    };
    const random = numbers(7 * request.slots + request.layers);
    for (let round = 0; round < 3; round++) {
      const all = winding.phases.names.flatMap((_, phase) =>
        drawnAtRandom(winding, phase, request.paths, random),
      );
      // Drawn at random they hold different bars, and special spans lie wherever they fell.
      const against = refereeProblems(winding, layout, all, 'either').filter(
        (problem) => !/hold different bars|voltages differ|special on the far side/.test(problem),
      );
      expect(against).toEqual([]);
    }
  });

  test('are told apart as the referee tells them, regular ones first', () => {
    const winding = machine({ slots: 48, poles: 8, layers: 4 });
    const layout = { span: 6, tooth: false };
    let drawing: Drawing = beginDrawing(baseOf(winding), 'star', 0, [], [1, 2]);
    for (const name of [firstBars(drawing)[0]!]) drawing = takeBar(drawing, name)!;
    for (const side of ['F', 'C'] as const) {
      const from = drawing.current.bars.at(-1)!;
      const kinds = barsToTake(drawing).map(({ bar, span, kind }) => {
        const joint = {
          side,
          fromSlot: from.slot,
          fromLayer: from.layer,
          toSlot: bar.slot,
          toLayer: bar.layer,
          span,
          path: 0,
        };
        const letter = classOf(winding, layout, joint);
        const expected = letter === 'A' ? 'regular' : isPieceOf(winding, letter, span) ? 'piece' : 'special';
        expect([barName(bar), kind]).toEqual([barName(bar), expected]);
        return kind;
      });
      const order = ['regular', 'special', 'piece'];
      expect(kinds).toEqual([...kinds].sort((a, b) => order.indexOf(a) - order.indexOf(b)));
      expect(new Set(kinds).size).toBe(3);
      expect(kinds.filter((kind) => kind === 'regular')).toHaveLength(1);
      drawing = takeBar(drawing, barsToTake(drawing)[0]!.bar)!;
    }
  });

  test('are none but these: a bar that is used, of another phase or sense is not taken', () => {
    const winding = machine({ slots: 12, poles: 4, layers: 2 });
    let drawing = beginDrawing(baseOf(winding), 'star', 0, [], [1, 2]);
    const allowed = new Set(firstBars(drawing).map(barName));
    const every = Array.from({ length: 24 }, (_, i) => ({ slot: (i % 12) + 1, layer: Math.floor(i / 12) }));
    for (const bar of every) {
      const isStart = cellAt(winding.table, bar.slot, bar.layer) === 1;
      expect([barName(bar), allowed.has(barName(bar))]).toEqual([barName(bar), isStart]);
      expect(takeBar(drawing, bar) !== null).toBe(isStart);
    }
    drawing = takeBar(drawing, { slot: 1, layer: 0 })!;
    for (const bar of every)
      expect(takeBar(drawing, bar) !== null).toBe(cellAt(winding.table, bar.slot, bar.layer) === -1);
    drawing = takeBar(drawing, { slot: 4, layer: 1 })!;
    expect(takeBar(drawing, { slot: 1, layer: 0 })).toBeNull();
  });
});

function sourceOf(text: string): DrawingSource {
  const source = drawingSource(study(text));
  if (typeof source === 'string') throw new Error(source);
  return source;
}

/** The text with changes made in it. */
function changed(text: string, next: readonly Path[]): string {
  const { written: paths, winding } = sourceOf(text);
  const { document } = study(text);
  let now = text;
  for (const { range, text: put } of [...pathChanges(document, winding, paths, next)].reverse())
    now = now.slice(0, range.start) + put + now.slice(range.end);
  return now;
}

/** A drawing by the names of its bars; `/` ends a path. */
function draw(start: Drawing, words: string): Drawing {
  return words.split(' ').reduce((drawing, word) => {
    if (word === '/') return endPath(drawing);
    const bar = { slot: Number.parseInt(word, 10), layer: word.charCodeAt(word.length - 1) - 97 };
    const next = takeBar(drawing, bar);
    if (next === null) throw new Error(`${word} is not allowed`);
    return next;
  }, start);
}

describe('a drawing', () => {
  const source = sourceOf(writtenGate);
  const own = source.paths.filter(({ phase }) => phase === 0);
  const begin = (anew: readonly number[]) => beginDrawing(source.base, 'star', 0, own, anew);

  test('keeps the other paths, goes back step by step, and says how far it has come', () => {
    const drawing = begin([1]);
    expect(firstBars(drawing).map(barName)).toEqual(['1a', '7a']);
    const one = draw(drawing, '1a');
    expect(progressOf(one)).toMatchObject({ share: 4, unused: 3, current: { bars: 1, layers: [1, 0] } });
    expect(progressOf(one).current.relative).toBeCloseTo(0.25, 12);
    expect(progressOf(one).others.map(({ number, relative }) => [number, relative])).toEqual([
      [2, expect.closeTo(1, 12)],
    ]);
    expect(stepBack(one)).toEqual(drawing);
    expect(stepBack(drawing)).toBeNull();
    const all = freeKept(one);
    expect(unusedBars(all)).toHaveLength(7);
    expect(progressOf(all).share).toBe(4);
  });

  test('goes back over the end of a path', () => {
    const drawing = draw(begin([1, 2]), '1a 4b 7a 10b /');
    expect(drawing.current.number).toBe(2);
    const back = stepBack(drawing)!;
    expect(back.current.bars.map(barName)).toEqual(['1a', '4b', '7a', '10b']);
    expect(endPath(back)).toEqual(drawing);
  });
});

describe('what is written', () => {
  const source = sourceOf(writtenGate);
  const own = source.paths.filter(({ phase }) => phase === 0);
  const withPhase = (phase: number, drawing: Drawing, from = source) =>
    withDrawn(from.winding, 'star', from.paths, phase, drawnPaths(drawing));

  test('is the statement of the path that was drawn; all else keeps every letter, and copies follow', () => {
    const drawing = draw(beginDrawing(source.base, 'star', 0, own, [1]), '7a 10b 1a 4b');
    const text = changed(writtenGate, withPhase(0, drawing));
    expect(text).toBe(writtenGate.replace('1a +3b +3a +3b', '7a +3b +3a +3b'));
    expect(sourceOf(text).paths).toEqual(withPhase(0, drawing));
    expect(changed(writtenGate, source.paths)).toBe(writtenGate);
  });

  test('is the statement that a copied phase is copied from', () => {
    const begun = beginDrawing(
      source.base,
      'star',
      1,
      source.paths.filter(({ phase }) => phase === 1),
      [1],
    );
    const drawing = draw(begun, '9a 12b 3a 6b');
    const text = changed(writtenGate, withPhase(1, drawing));
    expect(text).toBe(writtenGate.replace('1a +3b +3a +3b', '7a +3b +3a +3b'));
  });

  test('is a whole connection where there was none, in groups, with the phases that follow', () => {
    const bare = lockGate('  route paths 3');
    const begun = beginDrawing(sourceOf(bare).base, 'star', 0, [], [1, 2]);
    const drawing = draw(begun, '1a 4b 7a 10b / 1b 10a 7b 4a');
    const from = sourceOf(bare);
    expect(from.paths).toEqual([]);
    expect(followersOf(from.winding, [], 0)).toEqual([
      { phase: 1, shift: 2 },
      { phase: 2, shift: 4 },
    ]);
    const text = changed(bare, withPhase(0, drawing, from));
    expect(text).toBe(
      lockGate(`  path U 1 from U1 1a +3b +3a +3b to N
  path U 2 from U1 1b -3a -3b -3a to N
  repeat U as V shift 2
  repeat U as W shift 4`),
    );
    expect(study(text).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  test('takes away the statement of a path whose bars another one took, and adds one that is new', () => {
    const begun = freeKept(beginDrawing(source.base, 'star', 0, own, [1]));
    const one = draw(begun, '1a 4b 7a 10b 1b 10a 7b 4a');
    const text = changed(writtenGate, withPhase(0, one));
    // The comment beside it is the writer's.
    expect(text).toContain('# by hand');
    expect(text.match(/path U/g)).toHaveLength(1);
    expect(sourceOf(text).paths).toEqual(withPhase(0, one));
    const again = sourceOf(text);
    const three = draw(beginDrawing(again.base, 'star', 0, [], [1]), '1a 4b 7a 10b / 1b 10a / 7b 4a');
    expect(sourceOf(changed(text, withPhase(0, three, again))).paths).toHaveLength(9);
  });

  test('leaves what is unfinished to the findings', () => {
    const drawing = draw(beginDrawing(source.base, 'star', 0, own, [1]), '1a 4b');
    const text = changed(writtenGate, withPhase(0, drawing));
    expect(text).toContain('path U 1 from U1 1a +3b to N');
    const { findings } = study(text);
    expect(findings.map(({ code }) => code)).toContain('bar-unused');
    // And it can be gone on with.
    expect(sourceOf(text).paths.map(({ bars }) => bars.length)).toEqual([2, 4, 2, 4, 2, 4]);
  });

  test('needs a text that can be read, says how the phases are joined, and has no paths that may change by themselves', () => {
    const why = (text: string) => drawingSource(study(text));
    expect(why(lockGate('  route paths 2'))).toBe('found');
    expect(why(lockGate('  path U 1 from U1 1a +3b to N').replace('star #', '#'))).toBe('not-connected');
    expect(why(writtenGate.replace('slots 12', 'slots twelve'))).toBe('errors');
    expect(why(writtenGate.replace('-3b -3a to', '-3z -3a to'))).toBe('errors');
  });
});

describe('a joint that leads to another bar', () => {
  const source = sourceOf(writtenGate);
  const bars = (paths: readonly Path[]) => paths.map((path) => path.bars.map(barName).join(' '));

  test('exchanges the rests of two paths', () => {
    const partners = otherPartners(source.base, source.paths, { path: 0, position: 1 });
    expect(partners.map(({ bar, kind }) => `${barName(bar)} ${kind}`)).toEqual([
      '1b piece',
      '7b piece',
      '1a piece',
    ]);
    const changedPaths = changeJoint(
      source.base,
      source.paths,
      { path: 0, position: 1 },
      { slot: 7, layer: 1 },
    )!;
    expect(bars(changedPaths.paths.slice(0, 2))).toEqual(['1a 4b 7b 4a 1b 10a', '7a 10b']);
  });

  test('keeps every bar in use once, whatever is picked, and what was not touched as it was written', () => {
    for (const request of machines.slice(0, 4)) {
      const winding = machine(request);
      const random = numbers(request.slots);
      const base = baseOf(winding);
      const paths = drawnAtRandom(winding, 0, request.paths, random);
      const all = (list: readonly Path[]) =>
        list
          .flatMap((path) => path.bars.map(barName))
          .sort()
          .join();
      for (let round = 0; round < 12; round++) {
        const path = Math.floor(random() * paths.length);
        const position = Math.floor(random() * (paths[path]!.bars.length - 1));
        const partners = otherPartners(base, paths, { path, position });
        const partner = partners[Math.floor(random() * partners.length)]!;
        const next = changeJoint(base, paths, { path, position }, partner.bar)!;
        expect(all(next.paths)).toBe(all(paths));
        const keys = (list: readonly Path[]) =>
          flatten(list).map((joint) => JSON.stringify({ ...joint, path: 0 }));
        const before = new Set(keys(paths));
        const fresh = keys(next.paths).filter((key) => !before.has(key));
        expect(fresh.length).toBeLessThanOrEqual(next.newJoints);
        const from = paths[path]!.bars[position]!;
        const asked = flatten(next.paths).find(
          (joint) => joint.fromSlot === from.slot && joint.fromLayer === from.layer,
        );
        expect([asked?.toSlot, asked?.toLayer]).toEqual([partner.bar.slot, partner.bar.layer]);
        const problems = refereeProblems(
          winding,
          { span: request.span ?? request.slots / request.poles, tooth: false },
          next.paths,
          'either',
        ).filter((problem) => /sense|odd|leads elsewhere|another phase|class/.test(problem));
        expect(problems).toEqual([]);
      }
    }
  });

  test('is none where the bar is no partner', () => {
    const no = (slot: number, layer: number) =>
      changeJoint(source.base, source.paths, { path: 0, position: 0 }, { slot, layer });
    expect([no(4, 1), no(1, 1), no(2, 0)]).toEqual([null, null, null]);
  });
});
