import type { Facts } from '../facts/facts.ts';
import type { Unjoined } from '../facts/unjoined.ts';
import { figureLabel, figureText } from '../language/figureText.ts';
import { layerLetter } from '../language/layerLetters.ts';
import { isOne, plural } from '../language/lists.ts';
import { fixed, significant, withMinus, withSign } from '../language/numbers.ts';
import type { RotorSkew, Winding } from '../winding/model.ts';
import { endBoundaryWords, slotBoundaryWords } from '../winding/phaseBoundaries.ts';
import { phaseConnectionOf } from './joining.ts';
import { signed } from './numbers.ts';
import type { SheetTable } from './page/table.ts';

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
    columns: [{ name: '' }, { name: '', most: 58 }],
    rows: [...layoutRows(facts), ...connectionRows(facts), ...waveRows(facts)],
    remarks: insulationRemarks(facts),
  };
}

/** Where bars of two phases lie against each other. */
function insulationRemarks({ winding }: Facts): readonly string[] {
  return [
    ...slotBoundaryWords(winding).map((words) => `Phase insulation in slots, layers ${words}.`),
    ...endBoundaryWords(winding).map((words) => {
      const [layers, slots] = words.split(': ') as [string, string];
      const named = `${layers.includes(',') ? 'layers' : 'layer'} ${layers}`;
      return `Phase insulation between neighboring bar ends, in ${named}: ${afterSlots(slots)}.`;
    }),
  ];
}

function afterSlots(slots: string): string {
  if (slots === 'all slots') return 'after every slot';
  return `after ${/^\d+( and|$)/.test(slots) ? 'slot' : 'slots'} ${slots}`;
}

type NamedValue = readonly [name: string, value: string];

function layoutRows(facts: Facts): readonly NamedValue[] {
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
      ? ['Coil span', `${origin.span} of ${significant(winding.slots / winding.poles, 4)} slots (pole pitch)`]
      : ['Layout', origin.kind === 'rows' ? 'written by rows' : 'from written paths'],
    ...staggerRows(winding),
    ...skewRows(winding),
    ...rotorSkewRows(winding),
  ];
}

/** Layers as a list of letters; long lists by their first and last. */
function layersWords(layers: readonly number[]): string {
  const letters = layers.map(layerLetter);
  return letters.length > 4 ? `${letters[0]} \u2026 ${letters.at(-1)}` : letters.join(' ');
}

/** At most so many groups of layers have a row of their own. */
const mostGroups = 4;

/** How far each pair of layers of a generated layout is moved against the first. */
function staggerRows({ origin, layers }: Winding): readonly NamedValue[] {
  if (origin.kind !== 'generated' || origin.stagger === 0 || layers < 3) return [];
  const pairs = Array.from({ length: Math.ceil(layers / 2) - 1 }, (_, pair) => {
    const first = 2 * (pair + 1);
    const letters = layersWords(first + 1 < layers ? [first, first + 1] : [first]);
    const moved = (pair + 1) * origin.stagger;
    return `${letters} by ${plural(signed(moved), 'slot')}`;
  });
  const shown = pairs.slice(0, mostGroups);
  const more = pairs.length - shown.length;
  return [['Stagger', `${shown.join(', ')}${more > 0 ? `, and ${plural(more, 'more pair')}` : ''}`]];
}

/** The lean of each group of layers over the stack. */
function skewRows(winding: Winding): readonly NamedValue[] {
  const groups = new Map<number, number[]>();
  for (let layer = 0; layer < winding.layers; layer++) {
    const lean = winding.lean[layer] ?? 0;
    groups.set(lean, [...(groups.get(lean) ?? []), layer]);
  }
  if (groups.size === 1 && groups.has(0)) return [];
  const all = [...groups].map(([lean, layers]) => {
    const slots = (lean * winding.slots) / (2 * Math.PI);
    const words = withSign(significant(slots, 4));
    const letters = groups.size === 1 ? '' : `${layersWords(layers)}: `;
    return `${letters}${plural(words, 'slot')}`;
  });
  const shown = all.slice(0, mostGroups);
  const more = all.length - shown.length;
  return [['Skew of the bars', `${shown.join(', ')}${more > 0 ? `, and ${more} more` : ''}`]];
}

function rotorSkewRows({ rotorSkew }: { readonly rotorSkew: RotorSkew }): readonly NamedValue[] {
  const { angle, steps } = rotorSkew;
  if (angle === 0) return [];
  const degrees = withMinus(significant((180 * angle) / Math.PI, 5));
  return [['Skew of the rotor', `${degrees}\u00b0 ${steps === null ? 'continuous' : `in ${steps} steps`}`]];
}

function connectionRows(facts: Facts): readonly NamedValue[] {
  const { winding, connection } = facts;
  const paths: NamedValue = ['Parallel paths', String(winding.parallelPaths)];
  const turns: NamedValue = ['Turns in series', significant(facts.symmetry().seriesTurns)];
  if (connection.kind !== 'connected') {
    const said = phaseConnectionOf(facts);
    return [
      ['Connection', said === null ? 'not given' : joinWords[said]],
      [paths[0], `${paths[1]}${pathsTrouble(connection)}`],
      turns,
    ];
  }
  const { facts: joined } = connection;
  const { joints, ends } = joined.joints();
  const separate = joints.filter(({ kind }) => kind === 'jumper').length;
  const crowns = joined.barShapes().flatMap((shape) => shape.crowns).length;
  return [
    ['Connection', joinWords[joined.connection]],
    paths,
    turns,
    ['Bar form', joined.form === 'hairpin' ? 'hairpins' : 'straight bars'],
    [
      'Joints to be made',
      `${joints.length - crowns}, ${separate === 0 ? 'none' : separate} by ${isOne(separate) ? 'a separate piece' : 'separate pieces'}`,
    ],
    ...(crowns > 0 ? ([['Crowns, bent and not joined', String(crowns)]] as const) : []),
    ['Path ends', String(ends.length)],
    ['Hash of the paths', `${joined.hash()}${joined.written ? '' : ', found, not written out'}`],
  ];
}

/** Why the paths that a text asks for are not to be seen, in a word behind their number. */
function pathsTrouble(state: Unjoined): string {
  if (state.kind === 'refused') return ', refused';
  return state.kind === 'none' && state.why === 'paths-wrong' ? ', with errors' : '';
}

function waveRows(facts: Facts): readonly NamedValue[] {
  const leakage = facts.differentialLeakage();
  const { balanced } = facts.balance();
  return [
    ...factorRows(facts),
    [figureLabel('mmf.differentialLeakage'), figureText('mmf.differentialLeakage', leakage)],
    ['Phases among each other', balanced ? 'balanced' : 'unbalanced'],
  ];
}

/** The fundamental's factors; where layer pairs are staggered, the pitch factor is not that of the coil span alone. */
function factorRows({ winding, factorRow }: Facts): readonly NamedValue[] {
  const row = factorRow(winding.polePairs);
  const { origin, rotorSkew, lean, layers } = winding;
  const staggered = origin.kind === 'generated' && origin.stagger !== 0 && layers > 2;
  const skewed = rotorSkew.angle !== 0 || lean.some((each) => each !== 0);
  return [
    ['Winding factor', `${fixed(row.winding, 4)}, the product of:`],
    ['\u2013 distribution', `${fixed(row.distribution, 4)} within the layers`],
    ...(staggered
      ? ([
          ['\u2013 pitch', `${fixed(row.pitch, 4)} span and stagger`],
          ['\u2013 \u2013 span alone', fixed(row.coilPitch ?? null, 4)],
        ] as const)
      : ([['\u2013 pitch', `${fixed(row.pitch, 4)} between the layers`]] as const)),
    ['\u2013 skew', skewed ? fixed(row.skew, 4) : `${fixed(row.skew, 4)}: no skew`],
  ];
}
