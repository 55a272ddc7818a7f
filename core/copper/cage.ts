/** The bars of one layer in a cage. SI units. */
export interface CageLayer {
  readonly bars: number;
  readonly radius: number;
  /** Copper area of a bar, m2. */
  readonly area: number;
  /** Second moment for bending in the tangential direction, m4. */
  readonly secondMoment: number;
  /** Lean over the stack, mechanical radians, signed. */
  readonly lean: number;
}

/** Torsional stiffness and bar stress of a cage of bars over a stack. */
export interface CageFigures {
  /** Crossed bars, axially stiff, pinned at crossings and ends, Nm/rad. */
  readonly stiffness: number;
  /** The same bars straight and clamped at both ends, Nm/rad. */
  readonly straight: number;
  /** Whether the two families balance axially; else `stiffness` is an upper bound. */
  readonly balanced: boolean;
}

const balanceTolerance = 1e-9;

/**
 * Stiffness of the crossed-bar cage: K = sum E A r^2 sin^2(lambda) cos(lambda)/l over the bars, with
 * tan(lambda) = lean r/l; for comparison clamped straight bars, sum 12 E I r^2/l^3 (beam theory).
 */
export function cageStiffness(layers: readonly CageLayer[], stack: number, elasticity: number): CageFigures {
  let stiffness = 0;
  let straight = 0;
  let axial = 0;
  let axialSize = 0;
  for (const layer of layers) {
    const lambda = Math.atan2(layer.lean * layer.radius, stack);
    const stretch = elasticity * layer.area * layer.bars * layer.radius * Math.sin(lambda) * Math.cos(lambda);
    stiffness += (stretch * layer.radius * Math.sin(lambda)) / stack;
    axial += stretch * Math.cos(lambda);
    axialSize += Math.abs(stretch * Math.cos(lambda));
    straight += (12 * elasticity * layer.secondMoment * layer.bars * layer.radius ** 2) / stack ** 3;
  }
  return { stiffness, straight, balanced: Math.abs(axial) <= balanceTolerance * axialSize };
}

/**
 * Largest axial stress of any bar at a torque in Nm, Pa: T E r sin(lambda) cos(lambda)/(K l). Null
 * where nothing leans, as such a cage carries no torque in this model.
 */
export function cageStress(
  layers: readonly CageLayer[],
  stack: number,
  elasticity: number,
  torque: number,
): number | null {
  const { stiffness } = cageStiffness(layers, stack, elasticity);
  if (stiffness === 0) return null;
  const stresses = layers.map(({ bars, lean, radius }) => {
    if (bars === 0) return 0;
    const lambda = Math.atan2(Math.abs(lean) * radius, stack);
    return (torque * elasticity * radius * Math.sin(lambda) * Math.cos(lambda)) / (stiffness * stack);
  });
  return Math.max(...stresses);
}

/** Whether some layers lean one way and some the other, so that their bars cross and make a truss. */
export function layersCross(lean: readonly number[]): boolean {
  return lean.some((each) => each > 0) && lean.some((each) => each < 0);
}
