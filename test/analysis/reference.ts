import type { RotorSkew, Winding } from '../../core/winding/model.ts';

// An independent reference: plain complex sums bar by bar and numerical integration over the stack,
// straight from the definitions. Slow, and sharing no code with the engine.

export interface ReferenceFactors {
  readonly distribution: number | null;
  readonly pitch: number | null;
  readonly skew: number | null;
  readonly winding: number;
}

type Complex = readonly [number, number];

const size = ([re, im]: Complex) => Math.hypot(re, im);
const plus = (a: Complex, b: Complex): Complex => [a[0] + b[0], a[1] + b[1]];
const times = (a: Complex, b: Complex): Complex => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];

const zero = 1e-11;

export function referenceFactors(winding: Winding, order: number, phase = 0): ReferenceFactors {
  const sums: Complex[] = [];
  const skewed: Complex[] = [];
  let bars = 0;
  for (let layer = 0; layer < winding.layers; layer++) {
    let sum: Complex = [0, 0];
    for (let slot = 1; slot <= winding.slots; slot++) {
      const cell = winding.table.cells[layer * winding.slots + slot - 1]!;
      if (Math.abs(cell) !== phase + 1) continue;
      bars++;
      const angle = order * (slot - 1) * ((2 * Math.PI) / winding.slots);
      const sign = cell > 0 ? 1 : -1;
      sum = plus(sum, [sign * Math.cos(angle), -sign * Math.sin(angle)]);
    }
    sums.push(sum);
    skewed.push(times(referenceSkew(order, winding.lean[layer] ?? 0, winding.rotorSkew), sum));
  }
  const apart = sums.reduce((total, sum) => total + size(sum), 0) / bars;
  const together = size(sums.reduce(plus)) / bars;
  const final = size(skewed.reduce(plus)) / bars;
  return {
    distribution: apart,
    pitch: apart < zero ? null : together / apart,
    skew: together < zero ? null : final / together,
    winding: final,
  };
}

// Nodes and weights of Gauss-Legendre integration with 5 points on -1 .. 1 (Abramowitz and Stegun, 25.4.30).
const nodes = [0, 0.538469310105683, -0.538469310105683, 0.906179845938664, -0.906179845938664];
const weights = [
  0.568888888888889, 0.478628670499366, 0.478628670499366, 0.236926885056189, 0.236926885056189,
];

/** Mean over the stack of exp(j order (bar angle - rotor angle)), integrated numerically. */
export function referenceSkew(order: number, lean: number, rotor: RotorSkew): Complex {
  if (lean === 0 && rotor.angle === 0) return [1, 0];
  const segments = rotor.steps ?? 1;
  const turns = (order * (Math.abs(lean) + Math.abs(rotor.angle))) / (2 * Math.PI);
  const parts = Math.ceil((8 + 16 * turns) / segments);
  let sum: Complex = [0, 0];
  for (let segment = 0; segment < segments; segment++) {
    const stepped = rotor.angle * ((segment + 0.5) / segments - 0.5);
    for (let part = 0; part < parts; part++) {
      const width = 1 / (segments * parts);
      const middle = segment / segments + (part + 0.5) * width - 0.5;
      for (let i = 0; i < nodes.length; i++) {
        const x = middle + (width / 2) * nodes[i]!;
        const angle = order * (lean * x - (rotor.steps === null ? rotor.angle * x : stepped));
        const weight = (weights[i]! * width) / 2;
        sum = plus(sum, [weight * Math.cos(angle), weight * Math.sin(angle)]);
      }
    }
  }
  return sum;
}

/**
 * Signed MMF waves from the definition, A: the field of each phase's pulsating MMF split into two
 * waves, per signed order, for 1 A rms a phase. Positive orders run with the slot numbers.
 */
export function referenceWave(winding: Winding, signedOrder: number): number {
  let sum: Complex = [0, 0];
  for (let layer = 0; layer < winding.layers; layer++) {
    for (let slot = 1; slot <= winding.slots; slot++) {
      const cell = winding.table.cells[layer * winding.slots + slot - 1]!;
      if (cell === 0) continue;
      const axis = (winding.phases.axes[Math.abs(cell) - 1]! * Math.PI) / 180;
      const angle = signedOrder * (slot - 1) * ((2 * Math.PI) / winding.slots) - axis;
      sum = plus(sum, [Math.sign(cell) * Math.cos(angle), Math.sign(cell) * Math.sin(angle)]);
    }
  }
  return (Math.SQRT2 * size(sum)) / (2 * Math.PI * winding.parallelPaths * Math.abs(signedOrder));
}
