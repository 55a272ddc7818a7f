import type { LeanTradeRow } from '../../copper/leanTrade.ts';
import type { Facts } from '../../facts/facts.ts';
import { fixed, significant } from '../../language/numbers.ts';
import { layerLetter } from '../../winding/model.ts';
import { leanTradeOf } from '../machine.ts';
import { markdownTable } from './table.ts';

/** A figure as shown: where it is found, what it is called, and the unit people read it in. */
interface ShownFigure {
  readonly path: string;
  readonly label: string;
  readonly unit: string;
  /** SI value of one unit. */
  readonly factor: number;
}

const emfFigures: readonly ShownFigure[] = [
  { path: 'emf.frequency', label: 'frequency', unit: 'Hz', factor: 1 },
  { path: 'emf.phaseVoltage', label: 'phase EMF of the fundamental, rms', unit: 'V', factor: 1 },
  { path: 'emf.lineVoltage', label: 'line EMF of the fundamental, rms', unit: 'V', factor: 1 },
  {
    path: 'emf.harmonics.phaseVoltage',
    label: "phase EMF with the rotor field's harmonics, rms",
    unit: 'V',
    factor: 1,
  },
  {
    path: 'emf.harmonics.lineVoltage',
    label: "line EMF with the rotor field's harmonics, rms",
    unit: 'V',
    factor: 1,
  },
  { path: 'emf.torque', label: 'torque, current in phase with the EMF', unit: 'Nm', factor: 1 },
  { path: 'emf.power', label: 'power', unit: 'kW', factor: 1e3 },
  { path: 'emf.torquePerAmpere', label: 'torque per ampere of terminal current', unit: 'Nm/A', factor: 1 },
  { path: 'emf.motorConstant', label: 'motor constant', unit: 'Nm/√W', factor: 1 },
  { path: 'emf.magnetizingInductance', label: 'magnetizing inductance', unit: 'mH', factor: 1e-3 },
  {
    path: 'emf.differentialLeakageInductance',
    label: 'differential leakage inductance',
    unit: 'mH',
    factor: 1e-3,
  },
  { path: 'emf.gapFluxDensity', label: 'peak flux density at the gap, fundamental', unit: 'T', factor: 1 },
];

const copperFigures: readonly ShownFigure[] = [
  { path: 'copper.section.slotFill', label: 'copper in the slot', unit: '%', factor: 1e-2 },
  { path: 'copper.length.bars', label: 'mean bar length', unit: 'mm', factor: 1e-3 },
  { path: 'copper.length.total', label: 'length of all bars and pieces', unit: 'm', factor: 1 },
  { path: 'copper.length.overhangConnection', label: 'overhang, connection side', unit: 'mm', factor: 1e-3 },
  { path: 'copper.length.overhangFar', label: 'overhang, far side', unit: 'mm', factor: 1e-3 },
  { path: 'copper.resistance.phase20', label: 'phase resistance at 20 °C', unit: 'mΩ', factor: 1e-3 },
  { path: 'copper.resistance.phase', label: 'phase resistance, warm', unit: 'mΩ', factor: 1e-3 },
  { path: 'copper.resistance.line', label: 'resistance between lines, warm', unit: 'mΩ', factor: 1e-3 },
  { path: 'copper.mass', label: 'copper mass', unit: 'kg', factor: 1 },
  { path: 'copper.currentDensity', label: 'current density', unit: 'A/mm²', factor: 1e6 },
  { path: 'copper.loss.dc', label: 'DC loss', unit: 'W', factor: 1 },
  { path: 'copper.loss.ac', label: 'additional AC loss', unit: 'W', factor: 1 },
  { path: 'copper.loss.total', label: 'copper loss', unit: 'W', factor: 1 },
  { path: 'copper.acRatio.slot', label: 'AC ratio of the slot part, mean', unit: '', factor: 1 },
  { path: 'copper.acRatio.worst', label: 'AC ratio of the worst bar', unit: '', factor: 1 },
  { path: 'copper.acRatio.bar', label: 'AC ratio of whole bars', unit: '', factor: 1 },
  { path: 'copper.leakage.slotInductance', label: 'slot leakage inductance', unit: 'mH', factor: 1e-3 },
  { path: 'copper.heat.rise', label: 'rise at mid-bar over the ends', unit: 'K', factor: 1 },
  { path: 'copper.heat.hotSpot', label: 'hot spot', unit: '°C', factor: 1 },
  { path: 'copper.heat.endShare', label: 'heat leaving by the ends', unit: '%', factor: 1e-2 },
  {
    path: 'copper.cage.stiffness',
    label: 'torsional stiffness of the crossed bars',
    unit: 'kNm/rad',
    factor: 1e3,
  },
  {
    path: 'copper.cage.straight',
    label: 'of straight clamped bars, for comparison',
    unit: 'kNm/rad',
    factor: 1e3,
  },
  { path: 'copper.cage.stress', label: 'axial stress of a bar at the torque', unit: 'MPa', factor: 1e6 },
  {
    path: 'copper.cage.bending',
    label: 'bending stress at the ends of a bar, to be added',
    unit: 'MPa',
    factor: 1e6,
  },
];

/** EMF, torque and inductances, or what is missing for them. */
export function emfText(facts: Facts): string {
  const table = figuresTable(emfFigures, facts);
  const { gaps } = facts.emf();
  if (gaps.length < 2) return table;
  const shares = gaps.map(
    ({ side, area, shearStress }) =>
      `${side} gap: ${significant(area * 1e4, 4)} cm², shear stress ${significant(shearStress / 1e3, 4)} kPa`,
  );
  return `${table}\n\n${shares.join('; ')}. A second gap does not by itself double the torque of the same bars and flux.`;
}

/** The copper, with the AC ratio of each layer and the trade of the lean where the bars lean. */
export function copperText(facts: Facts): string {
  const parts = [figuresTable(copperFigures, facts)];
  const { acRatio } = facts.copper();
  if (acRatio.layers) {
    const layers = acRatio.layers
      .map((ratio, layer) => `${layerLetter(layer)} ${fixed(ratio, 3)}`)
      .join(', ');
    const best = acRatio.bestHeights.map(
      ({ layers: row, height, ratio, room }) =>
        `${significant(height * 1e3, 3)} mm for layers ${row.map(layerLetter).join(' ')} (ratio ${fixed(ratio, 3)}${room !== null && height > room ? `; the slot has room for ${significant(room * 1e3, 3)} mm only` : ''})`,
    );
    parts.push(
      `AC ratio by layer: ${layers}. Bar height of least AC resistance at this frequency, one height for the layers of a slot: ${best.join('; ')}.`,
    );
  }
  const trade = leanTradeOf(facts);
  if (trade.length > 0) parts.push(leanText(trade));
  return parts.join('\n\n');
}

function figuresTable(figures: readonly ShownFigure[], facts: Facts): string {
  const results: Readonly<Record<string, unknown>> = { emf: facts.emf(), copper: facts.copper() };
  const models = [...facts.emf().models, ...facts.copper().models];
  const rows = figures.flatMap(({ path, label, unit, factor }) => {
    const found = lookUp(results, path);
    if (typeof found !== 'number') return [];
    const model = models.find(({ quantity }) => path === quantity || path.startsWith(`${quantity}.`));
    const basis = model ? `${model.line} (${model.source})` : '';
    return [[label, `${significant(found / factor, 5)}${unit === '' ? '' : ` ${unit}`}`, basis]];
  });
  if (rows.length === 0) return 'Nothing of it can be computed yet; see what is not computed below.';
  return markdownTable(['figure', 'value', 'model'], ['left', 'right', 'left'], rows);
}

function lookUp(results: Readonly<Record<string, unknown>>, path: string): unknown {
  let found: unknown = results;
  for (const key of path.split('.'))
    found = (found as Readonly<Record<string, unknown>> | null | undefined)?.[key];
  return found;
}

function leanText(rows: readonly LeanTradeRow[]): string {
  const shown = (value: number | null, factor: number, digits: number) =>
    value === null ? '–' : fixed(value / factor, digits);
  const table = markdownTable(
    [
      'lean in slots',
      'skew factor',
      'bar length mm',
      'resistance',
      'stiffness kNm/rad',
      'axial stress MPa',
      'bending stress MPa',
    ],
    ['right', 'right', 'right', 'right', 'right', 'right', 'right'],
    rows.map((row) => [
      fixed(row.slots, 2),
      shown(row.skewFactor, 1, 4),
      shown(row.barLength, 1e-3, 1),
      shown(row.resistanceRatio, 1, 4),
      shown(row.stiffness, 1e3, 2),
      shown(row.stress, 1e6, 3),
      shown(row.bending, 1e6, 3),
    ]),
  );
  return `What the lean gives and costs, each layer leaning as far in its own sense; the skew factor holds the rotor's skew too; stiffness between rigid rings, without insulation, joints, fatigue, buckling and unbalanced pull:\n\n${table}`;
}
