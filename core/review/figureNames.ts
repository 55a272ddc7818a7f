import { layerLetter } from '../winding/model.ts';

/** Figures of the report that no quantity of `require` names, by their place in it. */
const names: Readonly<Record<string, string>> = {
  'winding.slots': 'slots',
  'winding.poles': 'poles',
  'winding.phases': 'phases',
  'winding.layers': 'layers',
  'winding.bars': 'bars',
  'winding.barsPerPhase': 'bars of a phase',
  'winding.parallelPaths': 'parallel paths',
  'winding.seriesTurns': 'turns in series',
  'winding.basicSlots': 'slots of the basic winding',
  'winding.basicPolePairs': 'pole pairs of the basic winding',
  'winding.identicalGroups': 'identical groups',
  'winding.largestParallelPaths': 'most parallel paths possible',
  'winding.coggingPeriods': 'cogging periods a turn',
  'winding.radialSymmetry': 'radial symmetry',
  'symmetry.rotationSlots': 'slots after which the winding repeats',
  'emf.frequency': 'frequency',
  'emf.phaseVoltage': 'phase EMF',
  'emf.gapFluxDensity': 'flux density in the gap',
  'emf.power': 'air-gap power',
  'emf.torquePerAmpere': 'torque per ampere',
  'emf.magnetizingInductance': 'magnetizing inductance',
  'emf.differentialLeakageInductance': 'inductance of the differential leakage',
  'emf.harmonics.phaseVoltage': 'phase EMF with harmonics',
  'emf.harmonics.lineVoltage': 'line EMF with harmonics',
  'balance.pathCurrentDeviation': 'deviation of the path currents',
  'routing.tipGap': 'smallest distance between joint tips, in slot pitches',
  'copper.section.barArea': 'section of a bar',
  'copper.length.bars': 'mean length of a bar',
  'copper.length.total': 'length of all bars and connecting pieces',
  'copper.length.overhangConnection': 'overhang, connection side',
  'copper.length.overhangFar': 'overhang, far side',
  'copper.resistance.path20': 'resistance of a path at 20 degC',
  'copper.resistance.phase20': 'resistance of a phase at 20 degC',
  'copper.resistance.line': 'resistance between two line terminals',
  'copper.loss.dc': 'DC loss',
  'copper.loss.ac': 'loss that eddies add',
  'copper.acRatio.layers': 'AC ratio',
  'copper.acRatio.slot': 'AC ratio in the slot',
  'copper.acRatio.bar': 'AC ratio with the bar ends',
  'copper.acRatio.worst': 'AC ratio of the worst bar',
  'copper.leakage.slotPermeance': 'slot permeance',
  'copper.leakage.slotInductance': 'inductance of the slot leakage',
  'copper.heat.rise': 'temperature rise along a bar',
  'copper.heat.endShare': 'share of the heat that leaves by the ends',
  'copper.cage.straight': 'stiffness of straight bars',
  'copper.cage.bending': 'bending stress at the ends of the bars',
};

/** Its words; of a figure of one layer with the layer: `AC ratio, layer a`. */
export function figureName(path: string): string {
  const [, plain, place] = /^(.*?)(?:\[(\d+)\])?$/.exec(path)!;
  const layer = place === undefined ? '' : `, layer ${layerLetter(Number(place) - 1)}`;
  return (names[plain!] ?? unnamed(plain!)) + layer;
}

/** The words of the place itself, for figures that have no name here. */
function unnamed(path: string): string {
  return path.replaceAll('.', ' ').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
