import papaparse from 'papaparse';
import { add, type Complex, multiply, scale, size, subtract, unit } from '../../core/balance/complex.ts';
import type { Report } from '../../core/report/schema.ts';
import type { Study } from '../../core/study.ts';
import { schedule } from '../../core/tables/schedule.ts';
import { slottedGap } from './slottedGap.ts';

/**
 * Sizes of a machine whose slots all open to an inner gap: m, Hz, A, Wb. Of copper at 100 degC between ends at
 * 90 degC, magnets of permeability 1.05, connecting pieces as thick as the bars.
 */
export interface HandSizes {
  readonly slots: number;
  readonly layers: number;
  readonly bore: number;
  readonly stack: number;
  readonly gap: number;
  readonly magnet: number;
  readonly slot: { readonly width: number; readonly depth: number; readonly liner: number };
  readonly opening: { readonly width: number; readonly height: number };
  readonly bar: {
    readonly width: number;
    readonly height: number;
    readonly corner: number;
    readonly coating: number;
  };
  readonly frequency: number;
  readonly current: number;
  readonly flux: number;
}

interface HandBar {
  readonly slot: number;
  readonly layer: number;
  /** Index among the paths. */
  readonly path: number;
  readonly sense: number;
  readonly emf: Complex;
}

const vacuum = 4e-7 * Math.PI;
/** IEC 60028: 58 m/(ohm mm2) at 20 degC, 0.00393 1/K. */
const resistivity = (temperature: number) => (1e-6 / 58) * (1 + 0.00393 * (temperature - 20));
const rowsOf = (csv: string) =>
  (
    papaparse as unknown as {
      parse(text: string, options: object): { readonly data: readonly Readonly<Record<string, string>>[] };
    }
  ).parse(csv.trimEnd(), { header: true }).data;

/** Area of a bar, m2: a rectangle without its four corners. */
export const handArea = ({ bar }: { readonly bar: Omit<HandSizes['bar'], 'coating'> }) =>
  bar.width * bar.height - (4 - Math.PI) * bar.corner ** 2;

/**
 * Resistance of every path at 100 degC, ohm, by its phase and number (`U 1`): the lengths that the table of
 * bars and the report's list of connecting pieces give for it, over one area.
 */
export function handResistances({ facts }: Study, report: Report, area: number): ReadonlyMap<string, number> {
  const lengths = new Map<string, number>();
  const count = (path: string, length: number) => lengths.set(path, (lengths.get(path) ?? 0) + length);
  for (const { phase, path, shape, lengthMm } of rowsOf(schedule(facts!, 'bars'))) {
    // A hairpin is told at both of its bars.
    const { form } = report.shapes.bars.find(({ number }) => number === Number(shape))!;
    count(`${phase} ${path}`, Number(lengthMm) / (form === 'hairpin' ? 2e3 : 1e3));
  }
  const joints = rowsOf(schedule(facts!, 'joints'));
  for (const { joint, length } of report.copper!.length.pieces) {
    const row = joints.find(({ number }) => Number(number) === joint)!;
    count(`${row.phase} ${row.path}`, length);
  }
  return new Map([...lengths].map(([path, length]) => [path, (resistivity(100) * length) / area]));
}

/** What parallel paths carry and lose, worked out beside the engine. */
export interface HandCurrents {
  /** Of an equal share. */
  readonly circulating: number;
  readonly deviation: number;
  /** W. */
  readonly dc: number;
  readonly ac: number;
  /** A/m2. */
  readonly density: number;
  /** degC. */
  readonly hotSpot: number;
}

/**
 * Solves R + j omega M of all paths of all phases. R from lengths; M from the field energy of uniform currents in
 * the slots, bar by bar, and from the staircases of the winding functions over a gap lengthened by Carter's
 * kappa, without end windings. Losses from the diffusion equation of each bar, between the fields at its two
 * faces; the hot spot is mid-bar of the bar that loses most, conducting heat to ends at 90 degC.
 */
export function pathsByHand(study: Study, report: Report, sizes: HandSizes): HandCurrents {
  const resistance = handResistances(study, report, handArea(sizes));
  const names = [...resistance.keys()];
  const bars = rowsOf(schedule(study.facts!, 'bars')).map((row): HandBar => {
    const angle = Number(row.emfAngle);
    return {
      slot: Number(row.slot) - 1,
      layer: 'abcd'.indexOf(row.layer!),
      path: names.indexOf(`${row.phase} ${row.path}`),
      sense: Number(row.sense),
      emf: scale(unit(angle), (Math.PI * sizes.frequency * sizes.flux) / Math.SQRT2),
    };
  });
  const phases = names.map((name) => name.slice(0, 1));
  const emfs = names.map((_, path) => sumOf(bars.filter((bar) => bar.path === path).map(({ emf }) => emf)));
  const inductance = inductances(bars, names.length, sizes);
  const perPhase = phases.filter((phase) => phase === phases[0]).length;
  const share = sizes.current / perPhase;
  const equal = phases.map((phase) => {
    const sum = sumOf(emfs.filter((_, path) => phases[path] === phase));
    return scale(sum, share / size(sum));
  });
  const solve = (voltages: readonly Complex[], carried: readonly Complex[]) =>
    currentsOf([...resistance.values()], inductance, phases, sizes.frequency, voltages, carried);
  const none = names.map(() => ({ re: 0, im: 0 }));
  const driven = solve(emfs, none);
  const split = solve(none, equal);
  const runs = [1, -1].map((sense) => split.map((own, path) => add(scale(own, sense), driven[path]!)));
  const area = handArea(sizes);
  const faces = runs.map((run) => bars.map((bar) => facesOf(bar, bars, run, sizes.slot.width)));
  const lossesAt = (run: number, temperature: number) =>
    faces[run]!.map((each) => barLoss(each, sizes, resistivity(temperature)) / area);
  const rho = resistivity(100);
  return {
    circulating: Math.max(...driven.map(size)) / share,
    deviation: Math.max(...split.map((own, path) => size(subtract(own, equal[path]!)))) / share,
    dc: Math.max(
      ...runs.map((run) =>
        [...resistance.values()].reduce((sum, each, path) => sum + each * size(run[path]!) ** 2, 0),
      ),
    ),
    ac: Math.max(
      ...runs.map((run, index) =>
        lossesAt(index, 100).reduce(
          (sum, loss, bar) => sum + sizes.stack * (loss - (rho / area) * size(run[bars[bar]!.path]!) ** 2),
          0,
        ),
      ),
    ),
    density: Math.max(...runs.flatMap((run) => run.map(size))) / area,
    hotSpot: hotSpotOf(
      (temperature) => Math.max(...runs.flatMap((_, run) => lossesAt(run, temperature))),
      sizes.stack,
      area,
    ),
  };
}

const sumOf = (values: readonly Complex[]) => values.reduce(add, { re: 0, im: 0 });

/** H: of the slots and of the gap, a row a path. */
function inductances(bars: readonly HandBar[], paths: number, sizes: HandSizes): number[][] {
  const { slot, opening, bar } = sizes;
  // From a bar's face towards the gap to the slot's mouth.
  const above = (layer: number) =>
    slot.depth -
    slot.liner -
    bar.coating -
    bar.height -
    (sizes.layers - 1 - layer) * (bar.height + 2 * bar.coating);
  const matrix = Array.from({ length: paths }, () => new Array<number>(paths).fill(0));
  for (const one of bars)
    for (const other of bars) {
      if (one.slot !== other.slot) continue;
      // The field of both is there from the one nearer to the gap on; in that bar it is still growing.
      const within = bar.height / (one.layer === other.layer ? 3 : 2);
      const permeance =
        (within + above(Math.min(one.layer, other.layer))) / slot.width + opening.height / opening.width;
      matrix[one.path]![other.path]! += vacuum * sizes.stack * one.sense * other.sense * permeance;
    }
  const functions = matrix.map((_, path) => {
    let turns = 0;
    const steps = Array.from({ length: sizes.slots }, (__, slotIndex) => {
      for (const each of bars) if (each.path === path && each.slot === slotIndex) turns += each.sense;
      return turns;
    });
    const mean = steps.reduce((sum, step) => sum + step, 0) / sizes.slots;
    return steps.map((step) => step - mean);
  });
  const pitch = (Math.PI * sizes.bore) / sizes.slots;
  const gap = slottedGap(pitch, opening.width, sizes.gap + sizes.magnet / 1.05);
  return matrix.map((row, one) =>
    row.map((entry, other) => {
      const product = functions[one]!.reduce((sum, step, index) => sum + step * functions[other]![index]!, 0);
      return entry + (vacuum * sizes.stack * pitch * product) / gap;
    }),
  );
}

/** Currents of all paths, A: one voltage across the paths of a phase, which together carry what `carried` sums to. */
function currentsOf(
  resistance: readonly number[],
  inductance: readonly (readonly number[])[],
  phases: readonly string[],
  frequency: number,
  voltages: readonly Complex[],
  carried: readonly Complex[],
): readonly Complex[] {
  const count = phases.length;
  const distinct = [...new Set(phases)];
  const unknowns = count + distinct.length;
  // Real parts first, then imaginary parts: each complex equation is two real ones.
  const rows = Array.from({ length: 2 * unknowns }, () => new Array<number>(2 * unknowns + 1).fill(0));
  const enter = (row: number, column: number, re: number, im: number) => {
    rows[row]![column]! += re;
    rows[row]![unknowns + column]! -= im;
    rows[unknowns + row]![column]! += im;
    rows[unknowns + row]![unknowns + column]! += re;
  };
  const right = (row: number, value: Complex) => {
    rows[row]![2 * unknowns]! += value.re;
    rows[unknowns + row]![2 * unknowns]! += value.im;
  };
  phases.forEach((phase, path) => {
    enter(path, path, resistance[path]!, 0);
    inductance[path]!.forEach((entry, other) => {
      enter(path, other, 0, 2 * Math.PI * frequency * entry);
    });
    right(path, voltages[path]!);
    const common = count + distinct.indexOf(phase);
    enter(path, common, 1, 0);
    enter(common, path, 1, 0);
    right(common, carried[path]!);
  });
  const solution = eliminated(rows);
  return phases.map((_, path) => ({ re: solution[path]!, im: solution[unknowns + path]! }));
}

/** Gauss and Jordan, with pivots. */
function eliminated(rows: number[][]): readonly number[] {
  const count = rows.length;
  for (let column = 0; column < count; column++) {
    let pivot = column;
    for (let row = column; row < count; row++)
      if (Math.abs(rows[row]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = row;
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    const lead = rows[column]!;
    rows.forEach((row, index) => {
      if (index === column) return;
      const factor = row[column]! / lead[column]!;
      for (let entry = column; entry <= count; entry++) row[entry]! -= factor * lead[entry]!;
    });
  }
  return rows.map((row, index) => row[count]! / row[index]!);
}

interface Faces {
  readonly outer: Complex;
  readonly inner: Complex;
}

/** Fields at the faces of a bar, A/m: of the current below it, and of that with its own. */
function facesOf(
  { slot, layer, path, sense }: HandBar,
  bars: readonly HandBar[],
  run: readonly Complex[],
  width: number,
): Faces {
  const below = sumOf(
    bars
      .filter((each) => each.slot === slot && each.layer > layer)
      .map((each) => scale(run[each.path]!, each.sense)),
  );
  return { outer: scale(below, 1 / width), inner: scale(add(below, scale(run[path]!, sense)), 1 / width) };
}

/**
 * Loss of a bar times its area, W m: H'' = k^2 H between its faces; the loss is the real part of what enters by both,
 * of a bar without rounded corners.
 */
function barLoss(
  { outer, inner }: Faces,
  { bar, slot: { width }, frequency }: HandSizes,
  rho: number,
): number {
  const depth = Math.sqrt((rho * width) / (Math.PI * frequency * vacuum * bar.width));
  const k = { re: 1 / depth, im: 1 / depth };
  const x = bar.height / depth;
  // sinh and cosh of (1 + j) x, both over cosh x, so that nothing overflows.
  const sinh = { re: Math.tanh(x) * Math.cos(x), im: Math.sin(x) };
  const cosh = { re: Math.cos(x), im: Math.tanh(x) * Math.sin(x) };
  const inverse = scale({ re: sinh.re, im: -sinh.im }, 1 / size(sinh) ** 2);
  const coth = multiply(multiply(k, cosh), inverse);
  const cosech = scale(multiply(k, inverse), 1 / Math.cosh(x));
  const both = outer.re * inner.re + outer.im * inner.im;
  const entering = coth.re * (size(outer) ** 2 + size(inner) ** 2) - 2 * cosech.re * both;
  return rho * width ** 2 * entering * bar.height;
}

/** Mid-bar temperature of a bar whose loss, W/m at its mean temperature, flows to both ends. */
function hotSpotOf(lossAt: (temperature: number) => number, length: number, area: number): number {
  const conductivity = 394;
  let [mean, before] = [90, 0];
  for (let round = 0; round < 100 && Math.abs(mean - before) > 1e-9; round++) {
    before = mean;
    mean = 90 + (lossAt(mean) * length ** 2) / (12 * conductivity * area);
  }
  return 90 + 1.5 * (mean - 90);
}
