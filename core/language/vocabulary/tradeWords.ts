import type { BlockName } from './entry.ts';

/** A word of the trade that the language calls by another one in a block; `file` holds the blocks themselves. */
export interface TradeWord {
  readonly block: BlockName;
  readonly word: string;
  /** The word of the language, with what belongs before it. */
  readonly ours: string;
  /** How the two differ; such a word is not replaced by a fix. */
  readonly remark?: string;
}

/**
 * Words that people of the trade write for words of the language. Only words in general use are here, the
 * terms of IEC 60050-411 among them; spellings near to a word of the language need no
 * entry. From memory of common practice.
 */
export const tradeWords: readonly TradeWord[] = [
  ...called('file', {
    machine: 'stator motor generator',
    bar: 'conductor conductors wire hairpin hairpins',
    layout: 'layers arrangement distribution placement',
    connect: 'connections connection wiring circuit routing',
    require: 'limits requirements targets acceptance specification constraints',
    sheet: 'drawing title-block',
    winding: 'name title',
  }),
  ...called('machine', {
    bore: 'diameter bore-diameter inner-diameter inside-diameter stator-bore stator-diameter',
    stack: 'length stack-length core-length active-length iron-length axial-length',
    'air-gap': 'airgap gap-length gap-width',
    'magnet-height': 'magnet-thickness',
    'magnet-permeability': 'permeability recoil-permeability mu-r',
    speed: 'rpm rated-speed revolutions rotational-speed',
    frequency: 'rated-frequency supply-frequency',
    flux: 'flux-per-pole pole-flux',
    current: 'rated-current phase-current line-current',
    voltage: 'rated-voltage supply-voltage',
    'winding-temperature': 'temperature copper-temperature operating-temperature',
    'rotor-skew': 'magnet-skew step-skew',
    phases: 'phase-count',
    slots: 'slot-count slot-number stator-slots teeth',
    poles: 'pole-count pole-number',
    inner: 'internal inside in-runner',
    outer: 'external out-runner',
    both: 'double dual two twin',
    far: 'opposite crown-side',
    connection: 'lead-side terminal-side weld-side',
    on: 'yes true',
    off: 'no false',
  }),
  but('machine', 'pole-pairs', 'poles', 'twice as many as pole pairs'),
  but('machine', 'pairs', 'poles', 'twice as many as pole pairs'),
  but('machine', 'outer-diameter', 'outside', 'the diameter at the outer gap, not that of the yoke'),
  but('machine', 'outside-diameter', 'outside', 'the diameter at the outer gap, not that of the yoke'),
  but('machine', 'radius', 'bore', 'a diameter'),
  but('machine', 'bore-radius', 'bore', 'a diameter'),
  but('machine', 'rotation', 'drive-end', 'which end the direction of rotation is seen from'),
  ...called('slot', {
    depth: 'height slot-depth slot-height',
    width: 'slot-width breadth',
    opening: 'opening-width slot-opening mouth',
    'opening-height': 'tip-height lip-height opening-depth',
    liner: 'insulation slot-liner liner-thickness slot-insulation paper',
    wedge: 'wedge-height slot-wedge',
  }),
  ...called('bar', {
    height: 'thickness depth bar-height conductor-height',
    width: 'breadth bar-width conductor-width',
    corner: 'radius corner-radius edge-radius fillet',
    coating: 'enamel enamelling insulation varnish coating-thickness film',
    metal: 'material',
    form: 'type style shape',
    strands: 'parallel-strands subconductors sub-conductors',
    'bare-end': 'bare-length stripped-length stripped strip',
    'bend-radius': 'bending-radius',
    'end-clearance': 'clearance spacing',
    copper: 'cu',
    aluminium: 'al alu',
    hairpin: 'u-pin u-shaped formed',
    straight: 'i-pin',
  }),
  ...called('insulation', {
    'turn-voltage': 'turn interturn inter-turn interturn-voltage turn-to-turn',
    'phase-voltage': 'phase phase-to-phase interphase interphase-voltage',
    'surge-factor': 'surge overvoltage-factor overshoot',
  }),
  ...called('layout', {
    span: 'pitch coil-pitch coil-span winding-pitch throw',
    stagger: 'shift offset displacement',
    belt: 'phase-belt spread phase-spread zone',
    skew: 'lean slant inclination tilt',
    moved: 'shifted displaced offset',
    negated: 'inverted reversed opposite negative',
    repeat: 'times repeated',
    all: 'every',
  }),
  but('layout', 'short-pitch', 'span', 'the coil span in slots, not what it is short of the pole pitch'),
  but('layout', 'chording', 'span', 'the coil span in slots, not what it is short of the pole pitch'),
  ...called('connect', {
    star: 'wye Y y y-connection star-connection',
    delta: 'mesh triangle delta-connection',
    open: 'open-ended independent',
    'route paths': 'paths parallel parallel-paths circuits branches parallel-circuits parallel-branches',
    paths: 'parallel parallel-paths circuits branches',
    repeat: 'copy',
    joined: 'common shared connected',
    from: 'start begin',
    to: 'until end finish',
    as: 'like into',
    shift: 'moved by offset',
  }),
  but('connect', 'series', 'route paths', 'the number of parallel paths: 1 where all is in series'),
  but('connect', 'neutral', 'star', 'the paths end in the star point N'),
  ...called('require', {
    'distribution-factor': 'breadth-factor spread-factor distribution belt-factor',
    'pitch-factor': 'pitch chording-factor coil-span-factor span-factor chord-factor',
    'skew-factor': 'skew',
    'winding-factor': 'kw fundamental-factor',
    'differential-leakage': 'leakage harmonic-leakage air-gap-leakage',
    'slot-fill': 'fill fill-factor slot-fill-factor copper-fill space-factor',
    'current-density': 'density',
    'phase-resistance': 'resistance winding-resistance',
    'ac-ratio': 'ac-factor resistance-ratio rac-rdc',
    'hot-spot-temperature': 'temperature hot-spot winding-temperature',
    'copper-loss': 'loss losses copper-losses joule-loss joule-losses',
    'copper-mass': 'mass weight copper-weight',
    'cage-stiffness': 'stiffness torsional-stiffness',
    'cage-stress': 'stress',
    'line-voltage': 'emf back-emf induced-voltage voltage',
    '<=': '< ≤ =< max maximum',
    '>=': '> ≥ => min minimum',
  }),
  ...called('sheet', {
    owner: 'company organization organisation legal-owner',
    number: 'drawing-number document-number part-number identification',
    title: 'name',
    revision: 'rev issue index',
    date: 'date-of-issue issued',
    'drawn-by': 'author drawn creator designer drafter created-by',
    'approved-by': 'approved approver checked-by checker released-by',
    'document-type': 'type kind',
    'sheet-size': 'size paper paper-size format',
    language: 'lang',
    note: 'remark comment notice',
  }),
];

function called(block: BlockName, words: Readonly<Record<string, string>>): readonly TradeWord[] {
  return Object.entries(words).flatMap(([ours, theirs]) =>
    theirs.split(' ').map((word) => ({ block, word, ours })),
  );
}

function but(block: BlockName, word: string, ours: string, remark: string): TradeWord {
  return { block, word, ours, remark };
}

const byWord = new Map<string, readonly TradeWord[]>();
for (const entry of tradeWords) byWord.set(entry.word, [...(byWord.get(entry.word) ?? []), entry]);

/** What the language calls a word of the trade in a block, of the words that `mayStand`. */
export function tradeWordIn(
  block: BlockName,
  word: string,
  mayStand: (ours: string) => boolean,
): TradeWord | undefined {
  return byWord.get(word)?.find((entry) => entry.block === block && mayStand(entry.ours));
}

/** The same in all other blocks, as statements of them: `machine: bore`. */
export function tradeWordElsewhere(block: BlockName, word: string): readonly TradeWord[] {
  return (byWord.get(word) ?? []).filter((entry) => entry.block !== block && entry.block !== 'file');
}

/** What a number behind a statement's word is called that takes none: the length of a gap. */
export function numberNamed(block: BlockName, word: string): string | undefined {
  return block === 'machine' && word === 'gap' ? 'air-gap' : undefined;
}
