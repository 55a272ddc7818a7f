// Takes its time: searches connections.

import { expect, it } from 'vitest';
import { type RouteOptions, route } from '../../core/routing/route.ts';
import type { Contacts } from '../../core/space/clearance/contacts.ts';
import { barName, type Path } from '../../core/winding/model.ts';
import { study } from '../support/study.ts';
import { machine } from '../winding/windings.ts';

const small = machine({ slots: 12, poles: 4, layers: 2 });

/** The smallest machine with a piece, where contacts are what `of` says. */
function routed(of: (paths: readonly Path[]) => Contacts | null, options: Partial<RouteOptions> = {}) {
  const steps = function* (paths: readonly Path[]) {
    yield;
    return of(paths);
  };
  const result = route(small, { paths: 1, contacts: { sizes: {}, of: steps }, ...options });
  if (!result.ok) throw new Error(JSON.stringify(result.reason));
  return result;
}

const clear: Contacts = { colliding: 0, close: 0 };
const pieceOf = ({ bars, pieces }: Path) => barName(bars[pieces.indexOf(true)]!);

it('a connection that keeps clear is the one found without looking', () => {
  const without = route(small, { paths: 1 });
  expect(routed(() => clear)).toEqual(without);
  // Where nothing keeps clear, or nothing is known, neither.
  expect(routed(() => null)).toEqual(without);
  expect(routed(() => ({ colliding: 3, close: 0 }), { nodeBudget: 1000 })).toEqual(
    route(small, { paths: 1, nodeBudget: 1000 }),
  );
});

it('phases are laid further apart where their pieces and leads would collide', () => {
  const window = (paths: readonly Path[]) =>
    new Set(paths.map(({ bars }) => Math.floor((bars[0]!.slot - 1) / 6))).size;
  const { paths, explanation } = routed((laid) => (window(laid) > 1 ? clear : { colliding: 2, close: 0 }));
  expect(window(paths)).toBe(2);
  expect(explanation.measure).toMatchObject({ jumpers: 1, colliding: 0 });
});

it('for more clearance alone terminals do not go round the machine', () => {
  const { explanation } = routed((laid) => ({ colliding: 0, close: laid[1]!.bars[0]!.slot > 6 ? 0 : 1 }));
  expect(explanation.terminalWindow).toBeLessThanOrEqual(6);
});

it('another connection that is as good goes before one that collides', () => {
  const [first] = routed(() => clear).paths;
  const elsewhere = routed((paths) =>
    pieceOf(paths[0]!) === pieceOf(first!) ? { colliding: 1, close: 0 } : clear,
  );
  expect(pieceOf(elsewhere.paths[0]!)).not.toBe(pieceOf(first!));
  expect(elsewhere.explanation.measure.jumpers).toBe(1);
});

it('tall connecting pieces whose bends would meet go to other pole pairs', () => {
  const { facts, findings } = study(`winding "Slip hoist"
machine { slots 18  poles 4  phases 3  gap inner  bore 60.75 mm  stack 60 mm }
slot { width 4.6 mm  depth 8.4 mm  opening 1.2 mm  opening-height 0.8 mm  liner 0.25 mm }
bar {
  width 3.6 mm  height 3 mm  corner 0.5 mm  coating 0.09 mm  bend-radius 4 mm  end-straight 8 mm  end-clearance 1.2 mm
  joint-straight 10 mm  lead-length 25 mm  piece-width 5 mm  piece-height 8 mm
}
layout { layers 2  span 4 }
connect { star  route paths 1 }
`);
  const state = facts!.connection;
  if (state.kind !== 'connected') throw new Error(state.kind);
  // As close together as they can be they would take half of this arc, and run 3 mm into each other.
  expect(state.facts.explanation).toMatchObject({ terminalWindow: 12, measure: { jumpers: 1 } });
  expect(findings.map(({ code }) => code)).not.toContain('ends-collide');
});
