import type { CopperResult } from '../copper/copper.ts';
import { pathVoltageDifference } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import type { Figure } from '../figures/figure.ts';
import type { FigurePath } from '../figures/register.ts';
import { inEnglish, type Speech } from '../figures/speech.ts';
import { figureLabel, figureText } from '../language/figureText.ts';
import { fixed, significant } from '../language/numbers.ts';
import { phaseOrder } from '../winding/terminals.ts';

/** One figure a designer looks at first. */
export interface KeyFigure {
  readonly label: string;
  readonly value: string;
  readonly help?: string;
}

/** One order of the factor table as shown; the wave columns are empty where there is no wave. */
export interface FactorTableRow {
  readonly order: string;
  readonly harmonic: string;
  readonly distribution: string;
  readonly pitch: string;
  readonly skew: string;
  readonly winding: string;
  readonly wave: string;
  readonly direction: string;
}

const mostRows = 60;

/** The figures that head the report: those of the slot table, which every winding has. */
export function keyFigures(facts: Facts, speech: Speech = inEnglish): readonly KeyFigure[] {
  return [
    ...machineFigures(facts, speech),
    ...waveFigures(facts, speech),
    ...pathFigures(facts, speech),
    ...orderFigures(facts, speech),
  ];
}

/**
 * The figures that head the panel, in the order in which a designer asks: which winding in one line, how good it is,
 * whether it balances and fits, what it gives and how hot it gets, then paths, what they cost the shop, and the rest.
 * What is not known is left out, because the tab of its subject says what it needs.
 */
export function designFigures(facts: Facts, speech: Speech = inEnglish): readonly KeyFigure[] {
  const [slots, slotsPerPole] = machineFigures(facts, speech);
  const [factor, parts, ...waves] = waveFigures(facts, speech);
  const [balance, paths, ...turns] = pathFigures(facts, speech);
  const { emf, copper } = { emf: facts.emf(), copper: facts.copper() };
  return [
    { label: speech.say('Winding'), value: `${slots!.value}, ${layerWords(facts, speech.say)}` },
    factor!,
    slotsPerPole!,
    balance!,
    ...knownFigure('copper.section.slotFill', copper.section.slotFill, speech),
    ...knownFigure('emf.torque', emf.torque, speech),
    ...knownFigure('copper.heat.hotSpot', copper.heat.hotSpot, speech),
    ...knownFigure('emf.lineVoltage', emf.lineVoltage, speech),
    ...knownFigure('copper.currentDensity', copper.currentDensity, speech),
    ...knownFigure('copper.loss.total', copper.loss.total, speech),
    ...knownFigure('copper.resistance.phase', copper.resistance.phase, speech),
    ...coldFigure(copper.resistance, speech),
    paths!,
    ...joinedFigures(facts, speech),
    parts!,
    ...waves,
    ...turns,
    ...orderFigures(facts, speech),
  ];
}

/** What the shop measures cold: between two line terminals, a phase where phases are open. */
function coldFigure({ phase20, line20 }: CopperResult['resistance'], speech: Speech): readonly KeyFigure[] {
  return line20.known
    ? knownFigure('copper.resistance.line20', line20, speech)
    : knownFigure('copper.resistance.phase20', phase20, speech);
}

function machineFigures(facts: Facts, { say }: Speech): readonly KeyFigure[] {
  const { winding } = facts;
  const figures = facts.symmetry();
  return [
    {
      label: say('Slots and poles'),
      value: say(
        '{0} slots, {1} poles, {2} phases',
        winding.slots,
        winding.poles,
        winding.phases.names.length,
      ),
    },
    { label: say('Slots per pole and phase'), value: figures.slotsPerPolePerPhase },
    {
      label: say('Layers and bars'),
      value: [layerWords(facts, say), say('{0} a phase', figures.barsPerPhase)].join(', '),
    },
  ];
}

function layerWords({ winding, symmetry }: Facts, say: Speech['say']): string {
  const { bars } = symmetry();
  return [
    winding.layers === 1 ? say('1 layer') : say('{0} layers', winding.layers),
    bars === 1 ? say('1 bar') : say('{0} bars', bars),
  ].join(', ');
}

/** How much of the current makes the working wave. */
function waveFigures(facts: Facts, speech: Speech): readonly KeyFigure[] {
  const { say } = speech;
  const fundamental = facts.factorRow(facts.winding.polePairs);
  const leakage = facts.differentialLeakage();
  return [
    {
      ...keyFigure('factors[].winding', fundamental.winding, speech),
      help: say('Of the fundamental, skew included.'),
    },
    {
      label: say('Distribution, pitch, skew'),
      value: [fundamental.distribution, fundamental.pitch, fundamental.skew]
        .map((factor) => fixed(factor, 4))
        .join(' · '),
      help: say('Factors of the fundamental; their product is the winding factor.'),
    },
    {
      ...keyFigure('mmf.differentialLeakage', leakage, speech),
      help: say('Field energy of all harmonics against that of the working wave.'),
    },
  ];
}

function pathFigures(facts: Facts, speech: Speech): readonly KeyFigure[] {
  const { say } = speech;
  const { winding } = facts;
  const figures = facts.symmetry();
  const anyCrowns = figures.parallelPathsAnyCrowns.at(-1) ?? 0;
  const most = figures.largestParallelPaths;
  return [
    { label: say('Phases'), value: balanceWords(facts.balance(), speech) },
    {
      label: say('Parallel paths'),
      value:
        anyCrowns > most
          ? say('{0}, at most {1}, or {2} with special crowns', winding.parallelPaths, most, anyCrowns)
          : say('{0}, at most {1}', winding.parallelPaths, most),
      help: say(
        'At most so many balanced paths are possible, with regular crowns or with crowns of any span.',
      ),
    },
    {
      ...keyFigure('winding.seriesTurns', figures.seriesTurns, speech),
      help: say('Of one phase, in one path.'),
    },
  ];
}

/** Of joined bars: how far parallel paths differ, and what the shop makes specially. */
function joinedFigures(facts: Facts, speech: Speech): readonly KeyFigure[] {
  const { connection, winding } = facts;
  if (connection.kind !== 'connected') return [];
  const { special, jumpers } = connection.facts.counts();
  const difference = pathVoltageDifference(connection.facts);
  return [
    ...(winding.parallelPaths > 1 && difference !== null
      ? [keyFigure('balance.pathVoltageDifference', difference, speech)]
      : []),
    keyFigure('routing.specialJoints', special, speech),
    keyFigure('routing.jumpers', jumpers, speech),
  ];
}

function orderFigures(facts: Facts, speech: Speech): readonly KeyFigure[] {
  const { say } = speech;
  const { winding } = facts;
  const figures = facts.symmetry();
  return [
    { label: say('Repeats after'), value: repetitionWords(figures, speech) },
    keyFigure('winding.coggingPeriods', figures.coggingPeriods, speech),
    {
      label: say('Working wave'),
      value: facts.mmf().runsWithSlotNumbers
        ? say('runs with the slot numbers')
        : say('runs against the slot numbers'),
      help: say('For the phase order {0}.', phaseOrder(winding.phases)),
    },
  ];
}

function balanceWords({ balanced, worstPercent }: ReturnType<Facts['balance']>, { say }: Speech): string {
  if (balanced) return say('balanced');
  return say('unbalanced by {0}', worstPercent === null ? '–' : `${significant(worstPercent, 3)} %`);
}

function repetitionWords({ rotationSlots, negated }: ReturnType<Facts['symmetry']>, { say }: Speech): string {
  const slots = rotationSlots === 1 ? say('1 slot') : say('{0} slots', rotationSlots);
  return negated ? say('{0} with opposite signs', slots) : slots;
}

/** A figure of the register as a key figure. */
function keyFigure(path: FigurePath, value: number | null, speech: Speech): KeyFigure {
  return { label: figureLabel(path, speech), value: figureText(path, value) };
}

/** The same, where it is known. */
function knownFigure(path: FigurePath, figure: Figure<number>, speech: Speech): readonly KeyFigure[] {
  return figure.known ? [keyFigure(path, figure.value, speech)] : [];
}

/** The orders that have a winding factor or a wave, lowest first, as text. */
export function factorTableRows(facts: Facts, { say }: Speech = inEnglish): readonly FactorTableRow[] {
  const { winding } = facts;
  const waves = new Map(facts.mmf().waves.map((wave) => [wave.order, wave]));
  // The largest wave of an order comes first in the list, and a Map keeps the last: set them backwards.
  for (const wave of [...facts.mmf().waves].reverse()) waves.set(wave.order, wave);
  const rows: FactorTableRow[] = [];
  for (const row of facts.factorRows(facts.orders)) {
    if (rows.length === mostRows) break;
    const { order } = row;
    const wave = waves.get(order);
    if (row.distribution === 0 && !wave) continue;
    rows.push({
      order: String(order),
      harmonic: row.harmonic,
      distribution: fixed(row.distribution, 4),
      pitch: fixed(row.pitch, 4),
      skew: fixed(row.skew, 4),
      winding: fixed(row.winding, 4),
      wave: wave?.relative == null ? '' : `${fixed(wave.relative * 100, 2)} %`,
      direction: wave
        ? wave.direction === 'backward'
          ? say('backward')
          : order === winding.polePairs
            ? say('working')
            : say('forward')
        : '',
    });
  }
  return rows;
}
