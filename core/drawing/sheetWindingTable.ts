import type { Facts } from '../findings/facts.ts';
import { fixed, percent, significant } from '../language/numbers.ts';
import type { SheetTable } from './sheetTable.ts';

const joinWords = {
  star: 'star',
  'star-joined': 'one star',
  delta: 'delta',
  open: 'open phases',
} as const;

/** The figures of the winding at a glance. */
export function windingTable(facts: Facts, section: string): SheetTable {
  return {
    id: 'winding',
    section,
    heading: 'Winding',
    columns: [{ name: '' }, { name: '', most: 72 }],
    rows: [...layoutRows(facts), ...connectionRows(facts), ...waveRows(facts)],
  };
}

type FigureRow = readonly [name: string, value: string];

function layoutRows(facts: Facts): readonly FigureRow[] {
  const { winding } = facts;
  const { slotsPerPolePerPhase, bars, barsPerPhase } = facts.symmetry();
  const { origin } = winding;
  return [
    ['Slots, poles', `${winding.slots}, ${winding.poles}`],
    ['Phases', winding.phases.names.join(' ')],
    ['Slots per pole and phase', slotsPerPolePerPhase],
    ['Layers', String(winding.layers)],
    ['Bars', `${bars}, ${barsPerPhase} a phase`],
    origin.kind === 'generated'
      ? ['Coil span', `${origin.span} of ${significant(winding.slots / winding.poles, 4)} slots`]
      : ['Layout', origin.kind === 'rows' ? 'written by rows' : 'from written paths'],
  ];
}

function connectionRows(facts: Facts): readonly FigureRow[] {
  const { winding, connection } = facts;
  const paths: FigureRow = ['Parallel paths', String(winding.parallelPaths)];
  const turns: FigureRow = ['Turns in series', significant(facts.symmetry().seriesTurns)];
  if (connection.kind !== 'connected') return [['Connection', 'not given'], paths, turns];
  const { facts: joined } = connection;
  const { joints, ends } = joined.joints();
  const separate = joints.filter(({ kind }) => kind === 'jumper').length;
  return [
    ['Connection', joinWords[joined.connection]],
    paths,
    turns,
    ['Bar form', joined.form === 'hairpin' ? 'hairpins: two bars and a crown' : 'straight bars'],
    ['Joints', `${joints.length}, ${separate} by separate pieces`],
    ['Path ends', String(ends.length)],
  ];
}

function waveRows(facts: Facts): readonly FigureRow[] {
  const fundamental = facts.factorRow(facts.winding.polePairs);
  const leakage = facts.differentialLeakage();
  const { balanced } = facts.balance();
  return [
    ['Winding factor', fixed(fundamental.winding, 4)],
    [
      'Distribution, pitch, skew',
      [fundamental.distribution, fundamental.pitch, fundamental.skew]
        .map((factor) => fixed(factor, 4))
        .join(' \u00b7 '),
    ],
    ['Differential leakage', leakage === null ? '\u2013' : percent(leakage)],
    ['Phases among each other', balanced ? 'balanced' : 'unbalanced'],
  ];
}
