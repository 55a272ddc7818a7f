import { describe, expect, it } from 'vitest';
import { barHeat } from '../../../core/copper/heat/barHeat.ts';
import {
  type ChainPiece,
  type CoreNode,
  type HeatChain,
  type HeatSystem,
  type LossOf,
  steadySystem,
} from '../../../core/copper/heat/heatChain.ts';
import { periodicHeat, type SystemStage } from '../../../core/copper/heat/periodicHeat.ts';
import { measureNow } from '../../../core/figures/work.ts';

/** Steady temperatures of one chain whose surroundings are held. */
const steadyChain = (chain: HeatChain, lossOf: LossOf) =>
  steadySystem({ chains: [chain], counts: [1], core: null }, [lossOf])?.chains[0] ?? null;

const copper = { conductivity: 394, heatCapacity: 3.45e6 };
const area = 10.6e-6;
const piece = (part: Partial<ChainPiece> = {}): ChainPiece => ({
  kind: 'slot',
  layer: 0,
  length: 0.1,
  area,
  conductance: 3.5,
  surroundings: 90,
  ...part,
});
const even = (loss: number) => () => ({ at: loss, slope: 0 });
const periodic = (system: HeatSystem, stages: readonly SystemStage[]) =>
  measureNow({ kind: 'cycle-heat', key: () => '', steps: () => periodicHeat(system, stages) });
const periodicChain = (
  chain: HeatChain,
  stages: readonly { duration: number; lossOf: SystemStage['losses'][number] }[],
) =>
  periodic(
    { chains: [chain], counts: [1], core: null },
    stages.map(({ duration, lossOf }) => ({ duration, losses: [lossOf] })),
  );
const hottest = (values: Float64Array) => values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);

describe('steady heat of a chain', () => {
  it.each([0, 3.5, 40])(
    'a bar between held ends with %d W/(m K) is the fin in closed form',
    (conductance) => {
      const chain: HeatChain = { pieces: [piece({ conductance })], ends: 90, ...copper };
      const { rise, endShare } = barHeat(
        { length: 0.1, area, conductivity: 394, sideConductance: conductance },
        60,
      );
      const { temperatures } = steadyChain(chain, even(60))!;
      expect((hottest(temperatures) - 90) / rise).toBeCloseTo(1, 3);
      const core = temperatures.reduce((sum, each) => sum + (conductance * (each - 90) * 0.1) / 40, 0);
      expect(1 - core / 6).toBeCloseTo(endShare, 2);
    },
  );

  // A rod held at one end whose other end lets no heat out is half of one that is held at both.
  const rod = (
    length: number,
    diameter: number,
    film: number,
    root: number,
    air: number,
    conductivity: number,
  ) => {
    const section = (Math.PI * diameter ** 2) / 4;
    const half = piece({
      length: 2 * length,
      area: section,
      conductance: film * Math.PI * diameter,
      surroundings: air,
    });
    const heat = steadyChain({ pieces: [half], ends: root, conductivity, heatCapacity: 1 }, even(0))!;
    const { temperatures } = heat;
    const cell = (2 * length) / temperatures.length;
    const out = temperatures.reduce((sum, each) => sum + film * Math.PI * diameter * cell * (each - air), 0);
    return { tip: (temperatures[19]! + temperatures[20]!) / 2, flow: out / 2 };
  };

  it('rod of 20 mm, 80 mm long, k 205, 120 W/(m2 K), 150 to 26 degC: 114.66 degC at an insulated tip (Lienhard, A Heat Transfer Textbook, 3rd ed., 4.8 p. 172)', () => {
    expect(rod(0.08, 0.02, 120, 150, 26, 205).tip).toBeCloseTo(114.659, 1);
  });

  // The book prints rods whose tips cool too; with insulated tips the same sum yields these.
  it.each([
    [0.02, 0.62741],
    [0.04, 1.24944],
    [0.08, 2.45687],
    [0.2, 5.51083],
  ])(
    'copper rod of 10 mm, %d m long, k 370, 10 W/(m2 K), 120 to 20 degC: %d W (Som, Introduction to Heat Transfer, 2.13, recomputed)',
    (length, watts) => {
      expect(rod(length, 0.01, 10, 120, 20, 370).flow / watts).toBeCloseTo(1, 3);
    },
  );

  it('two unequal sides: plate of 20 mm, 80 MW/m3, k 200, faces 160 and 120 degC: 165 degC at 5 mm (S. K. Som, Introduction to Heat Transfer, 2.6, in the FOSSEE companions)', () => {
    // Faces held by huge conductances of two thin pieces at the ends.
    const face = (surroundings: number) =>
      piece({ kind: 'overhang', length: 1e-6, area: 1, conductance: 1e15, surroundings });
    const chain: HeatChain = {
      pieces: [face(160), piece({ length: 0.02, area: 1, conductance: 0 }), face(120)],
      ends: null,
      conductivity: 200,
      heatCapacity: 1,
    };
    const heat = steadyChain(chain, (index) => ({ at: index === 1 ? 80e6 : 0, slope: 0 }))!;
    const at = heat.places.findIndex((place) => place > 5e-3);
    const mean = (heat.temperatures[at]! + heat.temperatures[at - 1]!) / 2;
    expect(mean).toBeCloseTo(165, 1);
  });

  // An independent solution: plain differences on nodes, ten times finer, relaxed line by line with local loss.
  function differences(chain: HeatChain, lossAt: (index: number, temperature: number) => number) {
    const fine = 120;
    const nodes: { part: number; width: number }[] = [];
    chain.pieces.forEach(({ length }, part) => {
      for (let i = 0; i < fine; i++) nodes.push({ part, width: length / fine });
    });
    const n = nodes.length;
    const t = new Array<number>(n).fill(100);
    for (let round = 0; round < 40; round++) {
      const a = new Array<number>(n).fill(0);
      const b = new Array<number>(n).fill(0);
      for (let i = 0; i < n; i++) {
        const { part, width } = nodes[i]!;
        const { conductance, surroundings, area: own } = chain.pieces[part]!;
        const link = (j: number) => {
          if (j < 0 || j >= n) return 0;
          const other = chain.pieces[nodes[j]!.part]!.area;
          return (2 * chain.conductivity) / (width / own + nodes[j]!.width / other);
        };
        const [left, right] = [link(i - 1), link(i + 1)];
        const diagonal = left + right + conductance * width - left * (i > 0 ? a[i - 1]! : 0);
        a[i] = right / diagonal;
        b[i] =
          (width * (conductance * (surroundings as number) + lossAt(part, t[i]!)) +
            left * (i > 0 ? b[i - 1]! : 0)) /
          diagonal;
      }
      t[n - 1] = b[n - 1]!;
      for (let i = n - 2; i >= 0; i--) t[i] = a[i]! * t[i + 1]! + b[i]!;
    }
    return t;
  }

  it('slots, overhangs and layers of unequal loss against finer differences, to 0.1 %', () => {
    const pieces = [30, 55].flatMap((_, layer) => [
      piece({
        kind: 'overhang',
        layer,
        length: 0.05,
        conductance: 0.6,
        surroundings: 70,
        area: area * (1 + layer),
      }),
      piece({ layer, conductance: 3.5, surroundings: 95, area: area * (1 + layer) }),
      piece({
        kind: 'overhang',
        layer,
        length: 0.03,
        conductance: 0.6,
        surroundings: 70,
        area: area * (1 + layer),
      }),
    ]);
    const chain: HeatChain = { pieces, ends: null, ...copper };
    const base = (index: number) =>
      (pieces[index]!.kind === 'slot' ? 1.4 : 1) * (pieces[index]!.layer === 0 ? 30 : 55);
    // Loss as the resistivity of copper has it, 0.00393 per kelvin at 20 degC.
    const lossAt = (index: number, temperature: number) => base(index) * (1 + 0.00393 * (temperature - 20));
    const solved = steadyChain(chain, (index, mean) => ({
      at: lossAt(index, mean),
      slope: base(index) * 0.00393,
    }))!;
    const reference = differences(chain, lossAt);
    const rise = Math.max(...reference) - 70;
    expect((hottest(solved.temperatures) - 70) / rise).toBeCloseTo(1, 3);
    expect(Math.abs((hottest(solved.temperatures) - 70) / rise - 1)).toBeLessThan(1e-3);
    // Cell by cell too: the ends of the chain.
    expect(Math.abs(solved.temperatures[0]! / reference[0]! - 1)).toBeLessThan(1e-3);
  });

  it('a loss that outgrows the cooling reaches no steady temperature', () => {
    const chain: HeatChain = { pieces: [piece({ conductance: 0.1 })], ends: null, ...copper };
    expect(steadyChain(chain, (_, mean) => ({ at: 50 + 0.2 * mean, slope: 0.2 }))).toBeNull();
  });
});

describe('the periodic cycle of a chain', () => {
  // A bar without gradients is a single time constant c A/G.
  const alike = (tau: number, surroundings: number): HeatChain => ({
    pieces: [piece({ conductance: (3.45e6 * area) / tau, surroundings })],
    ends: null,
    ...copper,
  });

  it('49.9 degC for 10 s on, 20 s off at 60 s, 15 degC steady without load, 40 degC least (Dubey, Fundamentals of Electrical Drives, 4.1 p. 47)', () => {
    const chain = alike(60, 15);
    const conductance = chain.pieces[0]!.conductance;
    // Always on it would reach 104.4243 degC.
    const on = even((104.4243 - 15) * conductance);
    const cycle = periodicChain(chain, [
      { duration: 10, lossOf: on },
      { duration: 20, lossOf: even(0) },
    ])!;
    expect(Math.abs((cycle.hottest - 15) / (49.8903 - 15) - 1)).toBeLessThan(1e-3);
  });

  it('stages as long as the time constant against exponentials: steps are of second order', () => {
    const chain = alike(60, 15);
    const steady = 900;
    const cycle = periodicChain(chain, [
      { duration: 60, lossOf: even(steady * chain.pieces[0]!.conductance) },
      { duration: 120, lossOf: even(0) },
    ])!;
    const exact = (steady * (1 - Math.exp(-1))) / (1 - Math.exp(-3));
    expect(Math.abs((cycle.hottest - 15) / exact - 1)).toBeLessThan(1e-4);
    expect((cycle.course.at(-1)!.temperature - 15) / exact).toBeCloseTo(Math.exp(-2), 3);
  });

  it('slots and overhang against small explicit steps, to 0.1 %', () => {
    const pieces = [
      piece({ kind: 'overhang', length: 0.05, conductance: 0.6, surroundings: 70 }),
      piece(),
      piece({ kind: 'overhang', length: 0.05, conductance: 0.6, surroundings: 70 }),
    ];
    const chain: HeatChain = { pieces, ends: null, ...copper };
    const cycle = periodicChain(chain, [
      { duration: 20, lossOf: even(90) },
      { duration: 40, lossOf: even(10) },
    ])!;
    // Explicit differences on 40 cells of 5 mm.
    const n = 40;
    const width = 0.2 / n;
    let t = new Array<number>(n).fill(80);
    const step = 0.02;
    let most = 0;
    for (let time = 0; time < 8 * 60; time += step) {
      const loss = time % 60 < 20 ? 90 : 10;
      t = t.map((own, i) => {
        const inside = i >= n / 4 && i < (3 * n) / 4;
        const flow = ((t[i - 1] ?? own) - 2 * own + (t[i + 1] ?? own)) * ((394 * area) / width);
        const away = width * (inside ? 3.5 * (own - 90) : 0.6 * (own - 70));
        return own + (step * (flow - away + width * loss)) / (3.45e6 * area * width);
      });
      if (time > 7 * 60) most = Math.max(most, ...t);
    }
    expect(Math.abs((cycle.hottest - 70) / (most - 70) - 1)).toBeLessThan(1e-3);
    expect(cycle.course.at(-1)!.time).toBeCloseTo(60, 9);
  });
});

describe('a core that the bars heat', () => {
  const core: CoreNode = { heatCapacity: 900, cooling: 2.5, coolant: 45 };
  const path = (length: number): HeatChain => ({
    pieces: [
      piece({ kind: 'overhang', length, conductance: 0.6, surroundings: 70 }),
      piece({ surroundings: 'core' }),
      piece({ kind: 'overhang', length, conductance: 0.6, surroundings: 70 }),
    ],
    ends: null,
    ...copper,
  });

  it('without other ways out all heat leaves through it: coolant + P/K, bar p/G above', () => {
    const alone: HeatChain = { pieces: [piece({ surroundings: 'core' })], ends: null, ...copper };
    const heat = steadySystem({ chains: [alone], counts: [7], core }, [even(60)])!;
    expect(heat.core!).toBeCloseTo(45 + (7 * 60 * 0.1) / 2.5, 9);
    expect(heat.chains[0]!.temperatures[20]!).toBeCloseTo(heat.core! + 60 / 3.5, 6);
  });

  it('steady with overhang: held at the temperature it takes, each chain is the same, and powers balance', () => {
    const chains = [path(0.05), path(0.09)];
    const counts = [5, 3];
    const losses = [even(40), even(65)];
    const heat = steadySystem({ chains, counts, core }, losses)!;
    const held = chains.map((chain, index) =>
      steadyChain(
        {
          ...chain,
          pieces: chain.pieces.map((each) =>
            each.surroundings === 'core' ? { ...each, surroundings: heat.core! } : each,
          ),
        },
        losses[index]!,
      ),
    );
    held.forEach((alone, index) => {
      expect(hottest(alone!.temperatures)).toBeCloseTo(hottest(heat.chains[index]!.temperatures), 7);
    });
    const toCore = heat.chains.reduce(
      (sum, { means }, index) => sum + counts[index]! * 3.5 * 0.1 * (means[1]! - heat.core!),
      0,
    );
    expect(toCore / (2.5 * (heat.core! - 45))).toBeCloseTo(1, 9);
  });

  // One bar of one temperature and one core: two time constants, solved a second way by small explicit steps.
  it('over a cycle against small explicit steps, to 0.1 %, with a core far slower than the cycle', () => {
    const bar: HeatChain = {
      pieces: [piece({ conductance: 3.5, surroundings: 'core' })],
      ends: null,
      ...copper,
    };
    const count = 20;
    const slow: CoreNode = { heatCapacity: 12_000, cooling: 4, coolant: 45 };
    const cycle = periodic({ chains: [bar], counts: [count], core: slow }, [
      { duration: 30, losses: [even(120)] },
      { duration: 90, losses: [even(10)] },
    ])!;
    const capacity = 3.45e6 * area * 0.1;
    const mean = (120 * 30 + 10 * 90) / 120;
    let node = 45 + (count * mean * 0.1) / 4;
    let t = node + mean / 3.5;
    let most = 0;
    let coreMost = 0;
    const step = 0.02;
    for (let time = 0; time < 14_400; time += step) {
      const loss = (time % 120 < 30 ? 120 : 10) * 0.1;
      const flow = 3.5 * 0.1 * (t - node);
      [t, node] = [
        t + (step * (loss - flow)) / capacity,
        node + (step * (count * flow - 4 * (node - 45))) / 12_000,
      ];
      if (time > 14_280) {
        most = Math.max(most, t);
        coreMost = Math.max(coreMost, node);
      }
    }
    const highest = Math.max(...cycle.core!.map(({ temperature }) => temperature));
    expect(Math.abs((cycle.hottest - 45) / (most - 45) - 1)).toBeLessThan(1e-3);
    expect(Math.abs((highest - 45) / (coreMost - 45) - 1)).toBeLessThan(1e-3);
  });

  it('what is put in leaves or is stored, to 1e-6 of a cycle, with a loss that grows with the temperature', () => {
    const grows = (loss: number) => (_: number, mean: number) => ({
      at: loss * (1 + 0.00393 * (mean - 20)),
      slope: loss * 0.00393,
    });
    const system: HeatSystem = { chains: [path(0.05), path(0.09)], counts: [5, 3], core };
    const { put, away, stored } = periodic(system, [
      { duration: 40, losses: [grows(50), grows(70)] },
      { duration: 200, losses: [grows(12), grows(9)] },
    ])!.energy;
    expect(put).toBeGreaterThan(1e4);
    expect(Math.abs(put - away - stored) / put).toBeLessThan(1e-6);
    // It comes back to where it began but for the 0.01 K of its tolerance.
    expect(Math.abs(stored) / put).toBeLessThan(1e-3);
  });

  it('a chain that is only looked at heats no core', () => {
    const feed = { chains: [path(0.05)], counts: [4], core };
    const both = { chains: [path(0.05), path(0.05)], counts: [4, 0], core };
    const [alone, beside] = [steadySystem(feed, [even(50)])!, steadySystem(both, [even(50), even(100)])!];
    expect(beside.core!).toBeCloseTo(alone.core!, 9);
    expect(hottest(beside.chains[1]!.temperatures)).toBeGreaterThan(
      hottest(alone.chains[0]!.temperatures) + 5,
    );
  });
});
