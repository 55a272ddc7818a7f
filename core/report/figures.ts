import type { Facts } from '../facts/facts.ts';
import { type FigurePath, figureRegister } from '../figures/register.ts';
import { plural } from '../language/lists.ts';
import { capitalized, fixed, shownFigure, significant } from '../language/numbers.ts';

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

/** The figures that head the panel and the report. */
export function keyFigures(facts: Facts): readonly KeyFigure[] {
  const { winding } = facts;
  const figures = facts.symmetry();
  const fundamental = facts.factorRow(winding.polePairs);
  const leakage = facts.differentialLeakage();
  const balance = facts.balance();
  const anyCrowns = figures.parallelPathsAnyCrowns.at(-1) ?? 0;
  return [
    {
      label: 'Slots and poles',
      value: `${winding.slots} slots, ${winding.poles} poles, ${winding.phases.names.length} phases`,
    },
    { label: 'Slots per pole and phase', value: figures.slotsPerPolePerPhase },
    {
      label: 'Layers and bars',
      value: `${plural(winding.layers, 'layer')}, ${plural(figures.bars, 'bar')}, ${figures.barsPerPhase} a phase`,
    },
    {
      ...keyFigure('factors[].winding', fundamental.winding),
      help: 'Of the fundamental, skew included.',
    },
    {
      label: 'Distribution, pitch, skew',
      value: [fundamental.distribution, fundamental.pitch, fundamental.skew]
        .map((factor) => fixed(factor, 4))
        .join(' · '),
      help: 'Factors of the fundamental; their product is the winding factor.',
    },
    {
      ...keyFigure('mmf.differentialLeakage', leakage),
      help: 'Field energy of all harmonics against that of the working wave.',
    },
    {
      label: 'Phases',
      value: balance.balanced
        ? 'balanced'
        : `unbalanced by ${balance.worstPercent === null ? '–' : `${significant(balance.worstPercent, 3)} %`}`,
    },
    {
      label: 'Parallel paths',
      value: `${winding.parallelPaths}, at most ${figures.largestParallelPaths}${anyCrowns > figures.largestParallelPaths ? `, or ${anyCrowns} with special crowns` : ''}`,
      help: 'At most so many balanced paths are possible, with regular crowns or with crowns of any span.',
    },
    { ...keyFigure('winding.seriesTurns', figures.seriesTurns), help: 'Of one phase, in one path.' },
    {
      label: 'Repeats after',
      value: `${plural(figures.rotationSlots, 'slot')}${figures.negated ? ' with opposite signs' : ''}`,
    },
    keyFigure('winding.coggingPeriods', figures.coggingPeriods),
    {
      label: 'Working wave',
      value: facts.mmf().runsWithSlotNumbers ? 'runs with the slot numbers' : 'runs against the slot numbers',
      help: `For the phase order ${winding.phases.names.slice(0, 3).join('-')}.`,
    },
  ];
}

/** A figure of the register as a key figure. */
function keyFigure(path: FigurePath, value: number | null): KeyFigure {
  const { words, shown } = figureRegister[path];
  return { label: capitalized(words), value: shownFigure(value, shown) };
}

/** The orders that have a winding factor or a wave, lowest first, as text. */
export function factorTableRows(facts: Facts): readonly FactorTableRow[] {
  const { winding } = facts;
  const waves = new Map(facts.mmf().waves.map((wave) => [wave.order, wave]));
  // The largest wave of an order comes first in the list, and a Map keeps the last: set them backwards.
  for (const wave of [...facts.mmf().waves].reverse()) waves.set(wave.order, wave);
  const rows: FactorTableRow[] = [];
  for (let order = 1; order <= facts.orders && rows.length < mostRows; order++) {
    const row = facts.factorRow(order);
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
        ? order === winding.polePairs && wave.direction === 'forward'
          ? 'working'
          : wave.direction
        : '',
    });
  }
  return rows;
}
