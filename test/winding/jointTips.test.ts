// Takes its time: searches connections.

import { describe, expect, it } from 'vitest';
import { type RouteOptions, route } from '../../core/routing/route.ts';
import { regularBends } from '../../core/winding/joints/bends.ts';
import { type Connections, connectionsOf, lowerBar, offsetOf } from '../../core/winding/joints/joints.ts';
import {
  spreadTips,
  type TipGroup,
  type TipSizes,
  tipSpacing,
  withoutSizes,
} from '../../core/winding/joints/tips.ts';
import type { EndSide, Path, Winding } from '../../core/winding/model.ts';
import { tipsAlone } from '../routing/routingCases.ts';
import { tries, withMore } from '../support/tries.ts';
import type { MachineRequest } from './windings.ts';
import { machine } from './windings.ts';

/** A seventh of what is searched by default suffices here; with more tries all of it is. */
const nodeBudget = tries(1) > 1 ? 400_000 : 60_000;

function routed(
  request: MachineRequest,
  paths: number,
  options: Omit<RouteOptions, 'paths'> = {},
): { winding: Winding; paths: readonly Path[]; tipsFit: boolean } {
  const winding = machine(request);
  const result = route(winding, { tipSizes: tipsAlone(winding.layers), nodeBudget, ...options, paths });
  if (!result.ok) throw new Error(JSON.stringify(result.reason));
  return { winding, paths: result.paths, tipsFit: result.explanation.tipsFit };
}

/** The gap of tips alone, whatever legs run through. */
function gapOf(winding: Winding, paths: readonly Path[]): number {
  const { connection } = tipsAlone(winding.layers);
  return tipSpacing(winding, connectionsOf(winding, paths), 'connection', connection)!.gap;
}

/**
 * The widest smallest distance of tips in a layer over all choices for all shapes, tip against tip; or the first
 * one found that is more than `enough`.
 */
function widestByTrial(
  winding: Winding,
  connections: Connections,
  side: EndSide,
  enough = Number.POSITIVE_INFINITY,
): number {
  const { slots } = winding;
  const joints = connections.joints.filter((joint) => joint.side === side && joint.kind !== 'jumper');
  const shapes = [...new Set(joints.map((joint) => joint.shape))];
  const ring = (layer: number) => {
    const { far, connection } = connections.bends;
    const offset = (side === 'far' ? far : connection)[Math.floor(layer / 2)]!;
    return layer % 2 === 0 ? offset : -offset;
  };
  const lean = (layer: number) => ((side === 'far' ? 1 : -1) * slots * winding.lean[layer]!) / (4 * Math.PI);
  // A ring's regular joint starts and ends where its two layers' bars do, so its legs take half of that.
  const leg = (layer: number) =>
    (ring(layer) + lean(layer % 2 === 0 ? layer + 1 : layer - 1) - lean(layer)) / 2;
  let widest = 0;
  for (let code = 0; code < 3 ** shapes.length && widest <= enough; code++) {
    const tips = joints.map((joint) => {
      const lower = lowerBar(joint);
      const upper = lower === joint.from ? joint.to : joint.from;
      const start = lower.slot + lean(lower.layer);
      const end = lower.slot + offsetOf(joint) + lean(upper.layer);
      const choice = Math.floor(code / 3 ** shapes.indexOf(joint.shape)) % 3;
      const place = [(start + end) / 2, start + leg(lower.layer), end + leg(upper.layer)][choice]!;
      return { place, layers: [lower.layer, upper.layer] };
    });
    let smallest: number = slots;
    tips.forEach((a, i) => {
      for (const b of tips.slice(0, i)) {
        if (!a.layers.some((layer) => b.layers.includes(layer))) continue;
        const apart = Math.abs(a.place - b.place) % slots;
        smallest = Math.min(smallest, apart, slots - apart);
      }
    });
    widest = Math.max(widest, smallest);
  }
  return widest;
}

describe('tips', () => {
  it('full and short pitch, unshifted: a full slot between tips (separate study)', () => {
    for (const [request, paths] of [
      [{ slots: 48, poles: 8, layers: 4 }, 2],
      [{ slots: 72, poles: 8, layers: 6 }, 2],
      [{ slots: 48, poles: 8, layers: 4, span: 5 }, 4],
      [{ slots: 60, poles: 8, layers: 2 }, 1],
      [{ slots: 48, poles: 8, layers: 4, stagger: 1 }, 2],
    ] as const) {
      const { winding, paths: list } = routed(request, paths);
      expect(gapOf(winding, list)).toBe(1);
    }
  });

  it('tips at mid span alone collide, so the choice matters', () => {
    const { winding, paths } = routed({ slots: 72, poles: 8, layers: 6 }, 2);
    const { joints } = connectionsOf(winding, paths);
    const middles = joints
      .filter((joint) => joint.side === 'connection' && (joint.from.layer === 1 || joint.to.layer === 1))
      .map((joint) => (lowerBar(joint).slot + offsetOf(joint) / 2 + 72) % 72)
      .sort((a, b) => a - b);
    const gaps = middles.slice(1).map((place, index) => place - middles[index]!);
    expect(Math.min(...gaps)).toBeLessThan(1);
  });

  it('no choice of tips leaves more room, by trying all and measuring every two tips', () => {
    for (const [request, paths] of [
      [{ slots: 24, poles: 4, layers: 2 }, 1],
      [{ slots: 24, poles: 4, layers: 4, span: 5 }, 2],
      [{ slots: 24, poles: 4, layers: 4, lean: [0.05, -0.03, 0.02, 0.02] }, 2],
      [{ slots: 30, poles: 4, layers: 2, span: 7 }, 1],
    ] as const) {
      const winding = { ...machine(request), ...('lean' in request ? { lean: request.lean } : {}) };
      const result = route(winding, { paths });
      if (!result.ok) throw new Error(JSON.stringify(result.reason));
      const connections = connectionsOf(winding, result.paths);
      for (const side of ['connection', 'far'] as const) {
        const spacing = tipSpacing(winding, connections, side, tipsAlone(winding.layers)[side])!;
        expect(spacing.gap).toBeCloseTo(widestByTrial(winding, connections, side), 5);
      }
    }
  });
});

describe('legs of a layer', () => {
  const winding = machine({ slots: 24, poles: 4, layers: 2 });
  const spread = (groups: readonly TipGroup[], sizes: TipSizes = withoutSizes) =>
    spreadTips({ winding, bends: regularBends(winding), side: 'connection', sizes }, groups);
  const group = (offset: number, ...slots: number[]): TipGroup => ({
    lowerLayer: 0,
    upperLayer: 1,
    offset,
    slots,
  });

  it('that differ by a slot and more than they are apart run through each other, told with both bars', () => {
    // Bars 10a and 4b, 11a and 1b: wherever the tips lie, a leg comes by the other joint.
    const { crossings } = spread([group(-6, 10), group(-10, 11)]);
    expect(crossings).toHaveLength(1);
    expect(crossings[0]).toMatchObject({ longer: 11, shorter: 10, layer: 0 });
    expect(spread([group(-6, 10), group(-7, 11)]).crossings).toEqual([]);
  });

  it('pass above joints that are low enough', () => {
    const groups = [group(-6, 10), group(-10, 11)];
    const high = (straight: number): TipSizes => ({
      ...withoutSizes,
      heights: [0, 1].map(() => ({ rise: 10e-3, straight })),
    });
    expect(spread(groups, high(9.9e-3)).crossings).toEqual([]);
    const { crossings } = spread(groups, high(33e-3));
    // The lower legs, a slot apart, of the choice with the widest gap: one slot's rise against the joint's height.
    expect(crossings[0]!.lacking).toBeCloseTo(23e-3, 9);
  });
});

describe('routing by the room of tips', () => {
  it('keeps legs out of other joints, half a slot apart, with the counts that tips alone have', () => {
    const result = route(machine({ slots: 72, poles: 8, layers: 6 }), { paths: 2 });
    expect(result.ok && result.explanation.measure).toMatchObject({
      crossings: 0,
      tipGap: 0.5,
      specialJoints: 16,
      jumpers: 0,
      jointShapes: 5,
    });
  });

  it('never puts two tips on one place where another routing does not', () => {
    // With the fewest joints in sight alone, two tips of one layer met here however they were bent.
    const { winding, paths } = routed({ slots: 54, poles: 6, layers: 4 }, 3, { wishes: ['joints'] });
    expect(gapOf(winding, paths)).toBeGreaterThan(0);
    expect(widestByTrial(winding, connectionsOf(winding, paths), 'connection', 0)).toBeGreaterThan(0);
  });

  it('finds a full slot between tips where bars need it (separate study: all unshifted orders)', () => {
    const machines: readonly (readonly [MachineRequest, number])[] = [
      [{ slots: 48, poles: 8, layers: 8 }, 2],
      [{ slots: 36, poles: 4, layers: 6 }, 3],
    ];
    const more: typeof machines = [
      [{ slots: 54, poles: 6, layers: 4 }, 3],
      [{ slots: 72, poles: 8, layers: 6 }, 4],
    ];
    for (const [request, paths] of withMore(machines, more)) {
      for (const wishes of [[], ['joints']] as const) {
        const found = routed(request, paths, { wishes, leastTipGap: 1 });
        expect(found.tipsFit).toBe(true);
        expect(gapOf(found.winding, found.paths)).toBeGreaterThanOrEqual(1);
      }
    }
  });

  it('says so where no routing that was tried leaves the room', () => {
    // Eight layers with pairs shifted by a slot: half-slot tips only (separate study).
    const { tipsFit, winding, paths } = routed({ slots: 48, poles: 8, layers: 8, stagger: 1 }, 2, {
      leastTipGap: 1,
    });
    expect(tipsFit).toBe(false);
    expect(gapOf(winding, paths)).toBe(0.5);
  });
});
