import { machineValue, phaseConnection, phasesPerSet } from '../analysis/machineInputs.ts';
import { assuming, derive, deriveFigure, type Figure, known, knownIf } from '../figures/figure.ts';
import type { Measurer } from '../figures/work.ts';
import { defaultLines, valueOrDefault } from '../language/specification/defaults.ts';
import type { Specification } from '../language/specification/specification.ts';
import { barStatements } from '../language/vocabulary/blocks/copper.ts';
import { layoutStatements } from '../language/vocabulary/blocks/winding.ts';
import { activeLengths } from '../sizes/activeLengths.ts';
import { barCoating } from '../sizes/barInputs.ts';
import { barAreas, barSections } from '../sizes/section.ts';
import { layerRadii } from '../sizes/slotRows.ts';
import { type BarLengths, barLengths } from '../space/lengths.ts';
import type { Space } from '../space/space.ts';
import type { Connections } from '../winding/joints/joints.ts';
import type { Path, Winding } from '../winding/model.ts';
import { resistivityAt } from './acLoss/acLoss.ts';
import type { CageLayer } from './cage/cage.ts';
import { radialSpans } from './cage/radialSupports.ts';
import { countedJoints, type JointCount, jointResistance } from './jointResistance.ts';
import { barMetal, type Metal } from './metals.ts';
import {
  lineResistance,
  type PathConductor,
  pathConductors,
  type Resistances,
  resistances,
} from './resistance.ts';

/** What the copper needs beside the text. */
export interface CopperInput {
  readonly winding: Winding;
  readonly specification: Specification;
  /** The paths with their joints. */
  readonly connected: Figure<{ readonly paths: readonly Path[]; readonly connections: Connections }>;
  /** Every bar in space. */
  readonly space: Figure<Space>;
  /** Does what takes its time; at once where it is left out. */
  readonly measurer?: Measurer;
  /** Winding factor at the fundamental, skew included; null where it is undefined. */
  readonly windingFactor: number | null;
}

/** What follows from the shape of the bars and their connections alone. SI units. */
export interface GeometryFigures {
  readonly connected: CopperInput['connected'];
  readonly joints: Figure<JointCount>;
  /** m. */
  readonly stack: Figure<number>;
  readonly metal: Figure<Metal>;
  /** Copper of a bar, one a layer, m2. */
  readonly areas: Figure<readonly number[]>;
  /** Mean radius of the bars, one a layer, m. */
  readonly radii: Figure<readonly number[]>;
  /** Length within the stack, one a layer, m. */
  readonly active: Figure<readonly number[]>;
  readonly lengths: Figure<BarLengths>;
  readonly conductors: Figure<readonly PathConductor[]>;
  readonly resistance20: Figure<Resistances>;
  /** Metal of bars, connecting pieces and rings, kg. */
  readonly mass: Figure<number>;
  readonly cageLayers: Figure<readonly CageLayer[]>;
}

/** Sections, radii, lengths, cold resistance and mass. */
export function geometryFigures(input: CopperInput): GeometryFigures {
  const { winding, specification, connected } = input;
  const metal = barMetal(specification);
  const areas = barAreas(specification, winding);
  const radii = layerRadii(specification, winding);
  const active = activeLengths(specification, winding, radii);
  const lengths = derive({ connected, space: input.space }, ({ space }) => barLengths(space));
  const joints = derive({ connected }, (given) => {
    const { paths, connections } = given.connected;
    const form = valueOrDefault(barStatements, specification.bar, 'form');
    return countedJoints(connections, paths.length, form, winding.table);
  });
  const conductors = derive(
    { connected, lengths, areas, joints, joint: jointResistance(specification) },
    (given) =>
      pathConductors(
        winding,
        given.connected.paths,
        given.lengths,
        given.areas,
        given.joints.paths.map((count) => count * given.joint),
      ),
  );
  return {
    connected,
    joints,
    stack: machineValue(specification, 'stack'),
    metal,
    areas,
    radii,
    active,
    lengths,
    conductors,
    resistance20: resistanceFigure(conductors, resistivityAt(metal, known(20))),
    mass: derive(
      { lengths, areas, metal },
      (given) => metalVolume(winding, given.lengths, given.areas) * given.metal.density,
    ),
    cageLayers: cageLayersOf(input, radii),
  };
}

/** Resistances of conductors for a resistivity in ohm m. */
export function resistanceFigure(
  conductors: Figure<readonly PathConductor[]>,
  resistivity: Figure<number>,
): Figure<Resistances> {
  return derive({ conductors, resistivity }, (given) => resistances(given.conductors, given.resistivity));
}

/** Between adjacent line terminals of one set, ohm. */
export function lineFigure(
  { winding, specification }: CopperInput,
  resistance: Figure<Resistances>,
): Figure<number> {
  return deriveFigure({ resistance, connection: phaseConnection(specification) }, (given) =>
    knownIf(
      lineResistance(given.connection, given.resistance.phase, phasesPerSet(winding)),
      'connect star or delta',
    ),
  );
}

/** Bars in each layer. */
export function barsPerLayer(winding: Winding): readonly number[] {
  const { slots, cells } = winding.table;
  return Array.from({ length: winding.layers }, (_, layer) => {
    const row = cells.subarray(layer * slots, (layer + 1) * slots);
    return row.reduce((count, cell) => count + (cell === 0 ? 0 : 1), 0);
  });
}

/** Metal of bars, connecting pieces and rings, m3. */
function metalVolume(winding: Winding, lengths: BarLengths, areas: readonly number[]): number {
  const { slots } = winding.table;
  let volume = 0;
  lengths.byPlace.forEach((length, place) => {
    if (!Number.isNaN(length)) volume += length * areas[Math.floor(place / slots)]!;
  });
  return lengths.pieces.reduce((sum, { length, area }) => sum + length * area, volume + lengths.ringVolume);
}

function cageLayersOf(
  { winding, specification }: CopperInput,
  radii: Figure<readonly number[]>,
): Figure<readonly CageLayer[]> {
  const bars = barsPerLayer(winding);
  const skew = defaultLines(layoutStatements.skew, specification.layout?.skew);
  const layers = derive(
    { radii, sections: barSections(specification, winding), coating: barCoating(specification) },
    (given) => {
      const leaning = winding.lean.map((lean, layer) => ({
        lean,
        radius: given.radii[layer]!,
        height: given.sections[layer]!.height + 2 * given.coating,
      }));
      const spans = radialSpans(leaning, winding.slots);
      return leaning.map(({ lean, radius }, layer) => ({
        bars: bars[layer]!,
        radius,
        section: given.sections[layer]!,
        lean,
        spans: spans[layer]!,
      }));
    },
  );
  return assuming(layers, ...skew);
}
