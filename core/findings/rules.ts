import { slotOfLayer } from '../analysis/machineInputs.ts';
import type { Facts } from '../facts/facts.ts';
import { type Finding, finding, findingKind, type Range } from '../language/finding.ts';
import { layerLetter } from '../language/layerLetters.ts';
import { plural } from '../language/lists.ts';
import { firstLargest, fixed, significant } from '../language/numbers.ts';
import { layerOutside, layerRepeated } from '../language/textFindingKinds.ts';
import * as connection from './connection/rules.ts';
import { checkInsulation } from './copper/insulationRules.ts';
import { checkCopper, checkField } from './copper/rules.ts';
import { checkCore, checkDuty, checkHarmonics, checkIron, checkVoltage } from './operation/rules.ts';
import { checkNotes } from './sheetRules.ts';
import { checkClearances } from './space/clearanceRules.ts';
import { checkBendRadius, checkHairpinLegs, checkRings, checkSeparators, checkSpace } from './space/rules.ts';

/** A check: facts about a winding to findings. It may throw; that becomes a finding of its own. */
export interface Rule {
  readonly name: string;
  readonly check: (facts: Facts) => readonly Finding[];
}

export const phasesUnbalanced = findingKind<{
  phase: string;
  percent: number | null;
  degrees: number | null;
}>({
  code: 'phases-unbalanced',
  severity: 'error',
  help: 'All phases have equal fundamentals on their declared axes, up to a common rotation.',
  message: ({ phase, percent, degrees }) =>
    percent === null
      ? 'The phases have no common fundamental: the winding does not make a field of this number of poles.'
      : `The phases are not balanced: phase ${phase} deviates by ${significant(percent, 4)} %${degrees === null ? ' (it has no fundamental)' : ` and ${fixed(degrees, 3)} electrical degrees`}.`,
});

export const phaseSidesUnequal = findingKind<{ phase: string; plus: number; minus: number }>({
  code: 'phase-sides-unequal',
  severity: 'warning',
  help: 'A phase needs as many + bars as - bars to be joined into paths, and so that its currents add up to zero.',
  message: ({ phase, plus, minus }) =>
    `Phase ${phase} has ${plural(plus, '+ bar')} but ${plural(minus, '- bar')}.`,
});

export const unbalancedPull = findingKind<{ slots: number; poles: number; radialSymmetry: number }>({
  code: 'unbalanced-pull',
  severity: 'warning',
  help: 'Without rotational symmetry the magnetic pull on the rotor does not cancel over the bore.',
  message: ({ slots, poles, radialSymmetry }) =>
    radialSymmetry === 1
      ? `${slots} slots and ${poles} poles have no common divisor: a net radial pull on the rotor is possible.`
      : 'The layout has no rotational symmetry: a net radial pull on the rotor is possible.',
});

export const leanDiffersInSlot = findingKind<{ runs: string }>({
  code: 'lean-differs-in-slot',
  severity: 'error',
  help: 'A straight slot holds layers of equal lean; each run of them has its own slot block.',
  message: ({ runs }) => `Layers that lean differently cannot share a straight slot; write ${runs}.`,
});

export const slotLayersMissing = findingKind<{ layer: string }>({
  code: 'slot-layers-missing',
  severity: 'error',
  help: 'Where slot blocks name their layers, every layer has a slot.',
  message: ({ layer }) => `No slot block names layer ${layer}.`,
});

function layoutRange({ specification, winding }: Facts): Range {
  const rows = winding.origin.kind === 'rows' ? specification.layout?.layers?.range : undefined;
  return rows ?? specification.layout?.range ?? specification.machine!.range;
}

function checkBalance(facts: Facts): readonly Finding[] {
  const balance = facts.balance();
  if (balance.balanced) return [];
  const worst = firstLargest(
    balance.phases,
    ({ percent, degrees }) => Math.abs(percent ?? 1e9) + Math.abs(degrees ?? 1e6) * 1.75,
  );
  const data = { phase: worst.name, percent: worst.percent, degrees: worst.degrees };
  const related = balance.phases.map(({ name, percent, degrees }) => ({
    message: `${name}: ${percent === null ? 'no fundamental' : `${significant(percent, 4)} %, ${degrees === null ? 'no angle' : `${fixed(degrees, 3)} edeg`}`}`,
    range: layoutRange(facts),
  }));
  return [finding(phasesUnbalanced, layoutRange(facts), data, { related })];
}

function checkSides(facts: Facts): readonly Finding[] {
  const { cells } = facts.winding.table;
  const plus = facts.winding.phases.names.map(() => 0);
  const minus = facts.winding.phases.names.map(() => 0);
  for (const cell of cells) {
    if (cell > 0) plus[cell - 1]!++;
    else if (cell < 0) minus[-cell - 1]!++;
  }
  return facts.winding.phases.names.flatMap((phase, i) =>
    plus[i] === minus[i]
      ? []
      : [finding(phaseSidesUnequal, layoutRange(facts), { phase, plus: plus[i]!, minus: minus[i]! })],
  );
}

function checkPull(facts: Facts): readonly Finding[] {
  const { unbalancedPull: possible, radialSymmetry } = facts.symmetry();
  if (!possible) return [];
  const { slots, poles } = facts.winding;
  const range = radialSymmetry === 1 ? facts.specification.machine?.slots?.range : undefined;
  return [finding(unbalancedPull, range ?? layoutRange(facts), { slots, poles, radialSymmetry })];
}

/** Slot blocks and per-layer bar sizes name layers that exist, each once, and equal leans share a slot. */
function checkSlotLayers({ specification, winding }: Facts): readonly Finding[] {
  const findings: Finding[] = [];
  const outside = (layer: number, range: Range) =>
    finding(
      layerOutside,
      { start: range.start, end: range.end },
      { layer: layerLetter(layer), layers: winding.layers },
    );
  const first = new Map<number, Range>();
  for (const slot of specification.slots) {
    for (const { layer, range } of slot.layers) {
      const earlier = first.get(layer);
      if (layer >= winding.layers) findings.push(outside(layer, range));
      else if (earlier) {
        const related = [{ message: 'first named here', range: earlier }];
        findings.push(
          finding(layerRepeated, range, { layer: layerLetter(layer), what: 'a slot' }, { related }),
        );
      } else first.set(layer, range);
    }
  }
  const { bar } = specification;
  for (const given of [...(bar?.width ?? []), ...(bar?.height ?? []), ...(bar?.strands ?? [])]) {
    for (const layer of given.value.layers ?? [])
      if (layer >= winding.layers) findings.push(outside(layer, given.range));
  }
  for (const slot of specification.slots) {
    const held = winding.lean
      .map((_, layer) => layer)
      .filter((layer) => slotOfLayer(specification, layer) === slot);
    if (held.some((layer) => winding.lean[layer] !== winding.lean[held[0]!])) {
      // A block for each run of layers that lean alike, as it is written.
      const runs = held.reduce((words, layer, index) => {
        const alike = winding.lean[layer] === winding.lean[held[index - 1]!];
        return `${words}${alike ? ' ' : `${index > 0 ? " { ... }', " : ''}'slot `}${layerLetter(layer)}`;
      }, '');
      findings.push(finding(leanDiffersInSlot, slot.range, { runs: `${runs} { ... }'` }));
    }
  }
  if (specification.slots.length > 0) {
    for (let layer = 0; layer < winding.layers; layer++) {
      if (slotOfLayer(specification, layer)) continue;
      findings.push(finding(slotLayersMissing, specification.slots[0]!.range, { layer: layerLetter(layer) }));
    }
  }
  return findings;
}

const balance: Rule = { name: 'balance of the phases', check: checkBalance };
const slotLayers: Rule = { name: 'layers of slots and bars', check: checkSlotLayers };

/** Checks by whose errors a layout makes no winding, however its bars are joined. */
export const layoutRules: readonly Rule[] = [balance, slotLayers];

/** Every check of a winding, in the order they run. */
export const rules: readonly Rule[] = [
  balance,
  { name: 'sides of the phases', check: checkSides },
  { name: 'radial pull', check: checkPull },
  slotLayers,
  { name: 'separators', check: checkSeparators },
  { name: 'routing', check: connection.checkRouting },
  { name: 'connections offered', check: connection.checkOffered },
  { name: 'limits of the connection', check: connection.checkLimitsDecided },
  { name: 'path ends', check: connection.checkEnds },
  { name: 'joints', check: connection.checkJoints },
  { name: 'path voltages', check: connection.checkPathVoltages },
  { name: 'layer occupation', check: connection.checkOccupation },
  { name: 'path currents', check: connection.checkPathCurrents },
  { name: 'assembly', check: connection.checkAssembly },
  { name: 'terminals', check: connection.checkTerminals },
  { name: 'phase voltages', check: connection.checkPhaseVoltages },
  { name: 'voltages between bars', check: connection.checkBarVoltages },
  { name: 'copper', check: checkCopper },
  { name: 'flux and harmonics', check: checkField },
  { name: 'voltage', check: checkVoltage },
  { name: 'core', check: checkCore },
  { name: 'harmonics', check: checkHarmonics },
  { name: 'duty', check: checkDuty },
  { name: 'flux density of the iron', check: checkIron },
  { name: 'bend radius', check: checkBendRadius },
  { name: 'hairpin legs', check: checkHairpinLegs },
  { name: 'rings', check: checkRings },
  { name: 'bars in space', check: checkSpace },
  { name: 'clearances', check: checkClearances },
  { name: 'insulation', check: checkInsulation },
  { name: 'notes of the sheets', check: checkNotes },
];
