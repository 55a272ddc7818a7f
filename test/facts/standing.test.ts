// Takes its time: measures bars in space.

import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { connectWinding } from '../../core/facts/connect.ts';
import { type ConnectionState, type Connector, connectNow } from '../../core/facts/connection.ts';
import { type Facts, gatherFacts } from '../../core/facts/facts.ts';
import { finished } from '../../core/figures/steps.ts';
import type { Measurer } from '../../core/figures/work.ts';
import { specify } from '../../core/language/specification/specify.ts';
import { parse } from '../../core/language/text/parser.ts';
import { buildSpace } from '../../core/space/buildSpace.ts';
import { deriveWinding } from '../../core/winding/derive.ts';
import { connectionsOf } from '../../core/winding/joints/joints.ts';
import { createBackgroundMeasurer } from '../../extension/engine/backgroundMeasurer.ts';

const stator = readFileSync('test/bench/stator.winding', 'utf8')
  .replace('layers 4', 'layers 2')
  .replace('slots   48', 'slots   12')
  .replace('poles   8', 'poles   2')
  .replace('bore    162 mm', 'bore    41 mm');
/** A measurer whose work between keystrokes never begins; what is quick is kept. */
const keeping = () => createBackgroundMeasurer({ now: () => 0, later: () => {} }, () => {});

const found = new Map<string, ConnectionState>();
/** The paths found for other sizes stay, as in the editor. */
const connect: Connector = (winding, request) => {
  const { connection, form, asked } = request;
  const key = JSON.stringify([winding, winding.table.cells.join(), connection, form, asked]);
  const state = found.get(key) ?? connectNow(winding, request);
  found.set(key, state);
  return state;
};

function standing(text: string, measurer: Measurer = keeping()): Facts | null {
  const specification = specify(parse(text));
  const { winding, paths } = deriveWinding(specification);
  if (winding === null) return null;
  const connection = connectWinding(specification, winding, paths, connect);
  return gatherFacts(specification, winding, connection, measurer);
}

/** Every text in which one number is another, and some in which a word is. */
const edited = [
  ...[...stator.slice(0, stator.indexOf('require {')).matchAll(/\d+(\.\d+)?/g)]
    .filter(({ index }) => index > stator.indexOf('machine {'))
    .map(({ 0: number, index }) => {
      const other =
        number.includes('.') || Number(number) > 12 ? Number(number) * 1.0625 : Number(number) + 1;
      return `${stator.slice(0, index)}${other}${stator.slice(index + number.length)}`;
    }),
  ...(
    [
      ['star', 'delta'],
      ['hairpin', 'straight'],
      ['gap     inner', 'gap     outer'],
      ['route paths 2', 'route paths 2\n  rings all'],
      ['liner   0.25 mm', 'liner   0.25 mm\n  separator a b 0.4 mm'],
      ['layers 2', 'layers 2\n  skew 3 deg'],
      ['corner       0.5 mm', 'corner       0.5 mm\n  joint-plane level\n  bend-radius 4 mm'],
    ] as const
  ).map(([now, then]) => stator.replace(now, then)),
];

test('how bars stand is kept from text to text only where it stays the same', () => {
  const measurer = keeping();
  const first = standing(stator, measurer)!;
  const titled = stator.replace('stator B', 'stator C');
  expect(standing(titled, measurer)?.space()).toBe(first.space());
  let same = 0;
  for (const text of edited) {
    expect(text).not.toBe(stator);
    const [kept, anew] = [standing(text, measurer), standing(text)];
    expect(JSON.stringify(kept?.space()), text).toBe(JSON.stringify(anew?.space()));
    for (const side of ['connection', 'far'] as const) expect(kept?.tips(side)).toEqual(anew?.tips(side));
    if (kept?.space() === first.space()) same++;
  }
  // The current, the flux, the air gap, temperatures and the like move no bar.
  expect(same).toBeGreaterThan(6);
  expect(same).toBeLessThan(14);
});

test('bars that the router has stood to see what touches are those that stand of its paths', () => {
  // A height of its own, so that nobody has routed it before.
  const text = readFileSync('test/bench/stator.winding', 'utf8').replace(
    '3 mm\n  corner',
    '2.983 mm\n  corner',
  );
  const specification = specify(parse(text));
  const { winding } = deriveWinding(specification);
  const connection = connectWinding(specification, winding!, null, connectNow);
  if (connection.kind !== 'connected') throw new Error(connection.kind);
  const { joints, paths, stood } = connection.facts;
  const connections = connectionsOf(winding!, paths);
  expect(joints()).toEqual(connections);
  expect(stood(specification)).toEqual(buildSpace({ specification, winding: winding!, connections }));
  expect(stood({ ...specification })).toBeNull();
});

test('what connections tried for their clearances have in common is let go when the search is over', () => {
  // A winding of this test alone: paths that another one found would be found again without a search.
  const own = readFileSync('test/bench/stator.winding', 'utf8')
    .replace('slots   48', 'slots   24')
    .replace('poles   8', 'poles   4')
    .replace('bore    162 mm', 'bore    82.3 mm')
    .replace('span   6', 'span   5');
  const specification = specify(parse(own));
  const { winding } = deriveWinding(specification);
  const met: unknown[] = [];
  let forgotten = 0;
  const state = connectWinding(specification, winding!, null, (asking, request) => {
    const contacts = request.contacts!;
    const of: typeof contacts.of = function* (tried) {
      const steps = contacts.of(tried);
      // Bars stand first, then it gives way before it looks at what touches.
      expect(steps.next()).toEqual({ done: false, value: undefined });
      const touching = yield* steps;
      met.push(touching);
      return touching;
    };
    const forget = () => {
      forgotten = met.length;
      contacts.forget();
    };
    const found = connectNow(asking, { ...request, contacts: { ...contacts, of, forget } });
    if (found.kind !== 'connected') throw new Error(found.kind);
    // Asked once more, it comes to the same.
    expect(finished(contacts.of(found.facts.paths))).toEqual(met[0]);
    return found;
  });
  expect(state.kind).toBe('connected');
  expect(met.length).toBeGreaterThan(0);
  expect(forgotten).toBe(met.length);
});
