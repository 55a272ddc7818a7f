import fc from 'fast-check';

// Windings that a designer could have written: slots, poles, layers, paths and sizes that go together, so
// that most of them reach reports, pictures, sheets and comparison. Sizes are millimeters.

interface Phases {
  readonly words: string;
  readonly count: number;
}

const phases: readonly Phases[] = [
  { words: 'phases 3', count: 3 },
  { words: 'phases 3', count: 3 },
  { words: 'phases 5', count: 5 },
  { words: 'phases 6 apart 30 edeg', count: 6 },
];

/** Slots a pole and phase (whole, halves, quarters, tooth coils), and the pole pairs that make them whole. */
const slotting = fc.oneof(
  { weight: 5, arbitrary: fc.constantFrom(1, 2, 2, 3, 4).map((perPole) => ({ perPole, unit: 1 })) },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      { perPole: 1.5, unit: 1 },
      { perPole: 2.5, unit: 1 },
      { perPole: 1.25, unit: 2 },
    ),
  },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      { perPole: 0.5, unit: 1 },
      { perPole: 0.4, unit: 5 },
      { perPole: 0.375, unit: 4 },
    ),
  },
);

const length = (least: number, most: number) =>
  fc.integer({ min: Math.round(least * 20), max: Math.round(most * 20) }).map((steps) => steps / 20);

const maybe = (words: string) => fc.constantFrom('', words);

const machine = fc.record({
  pairs: fc.constantFrom(1, 1, 2, 2, 3, 4, 5),
  /** Nine of ten windings are small, so that many are tried: fewer pole pairs, where that helps. */
  mostSlots: fc.oneof(
    { weight: 9, arbitrary: fc.constantFrom(12, 24) },
    { weight: 1, arbitrary: fc.constantFrom(48, 96) },
  ),
  slotting,
  phases: fc.constantFrom(...phases),
  gap: fc.constantFrom('inner', 'inner', 'outer', 'both'),
  speed: fc.constantFrom(30, 900, 3600, 12_000),
  flux: fc.constantFrom('', 'flux 0.4 mWb', 'flux 4.1 mWb', 'flux 30 mWb'),
  current: fc.constantFrom('', 'current 8 A', 'current 210 A'),
  rotor: fc.constantFrom('', 'rotor-skew 1 slot', 'rotor-skew 3.75 deg in 4 steps'),
  field: fc.constantFrom('', 'rotor-field harmonic 3 12 %', 'rotor-field harmonic 5 8 %'),
  magnet: fc.constantFrom('', 'air-gap 1 mm', 'air-gap 1.2 mm  magnet-height 4 mm'),
  temperatures: fc.constantFrom(
    '',
    'winding-temperature 120 degC',
    'winding-temperature 110 degC  end-temperature 70 degC',
  ),
  voltage: fc.constantFrom('', 'voltage 48 V', 'voltage 400 V'),
  angle: fc.constantFrom('', '', 'current-angle 25 edeg', 'current-angle -15 edeg'),
  axes: fc.constantFrom(
    '',
    '',
    '',
    'd-inductance 0.3 mH  q-inductance 0.3 mH',
    'd-inductance 0.21 mH  q-inductance 0.34 mH',
  ),
  iron: fc.constantFrom('', '', 'yoke-height 14 mm', 'yoke-height 9 mm  stack-factor 0.9'),
  core: fc.constantFrom(
    '',
    '',
    'core-temperature 95 degC',
    'core-heat 12 kJ/K  core-cooling 90 W/K  coolant-temperature 45 degC',
  ),
});

const copper = fc.record({
  sized: fc.constantFrom(0, 1, 1, 1),
  pitchShare: fc.integer({ min: 30, max: 60 }),
  height: length(1.5, 4),
  corner: maybe('corner 0.4 mm'),
  coating: maybe('coating 0.09 mm'),
  strands: maybe('strands 2'),
  form: fc.constantFrom('', 'form hairpin', 'form straight'),
  ends: fc.constantFrom(
    '',
    'end-straight 6 mm  end-clearance 0.6 mm  joint-straight 6 mm',
    'end-clearance 0.3 mm',
  ),
  bend: fc.constantFrom('', 'bend-radius 1.5 mm', 'bend-radius 4 mm', 'bend-radius 6 mm flat 4 mm'),
  joints: fc.constantFrom('', '', 'joint-gap 0.2 mm', 'joint-gap 0.2 mm  joint-plane level'),
  leads: maybe('lead-length 30 mm'),
  pieces: fc.constantFrom('', '', 'piece-width 4 mm  piece-height 3 mm  piece-clearance 2 mm'),
  ringSizes: maybe('ring-width 8 mm  ring-height 5 mm'),
  separator: fc.constantFrom('', '', '', 'separator a b 0.2 mm'),
  opening: fc.constantFrom('', 'opening 1.2 mm', 'opening 1.2 mm  opening-height 0.8 mm'),
  side: maybe('side-conductance 4 W/(m K)'),
  overhang: fc.constantFrom('', 'end-conductance 0.8 W/(m K)'),
  metal: maybe('metal aluminium'),
});

const layout = fc.record({
  layers: fc.constantFrom(1, 2, 2, 2, 4, 4, 6),
  chord: fc.constantFrom(0, 0, 1, 2),
  stagger: fc.constantFrom(0, 0, 1),
  lean: fc.constantFrom('', '', 'all', 'crossed'),
});

const connect = fc.record({
  how: fc.constantFrom('star', 'star', 'delta', 'open'),
  paths: fc.constantFrom(1, 1, 2, 3, 4),
  /** Else as many as pole pairs may carry. */
  anyPaths: fc.constantFrom(true, false, false, false),
  rings: fc.constantFrom('', '', '', 'rings star', 'rings terminals', 'rings all'),
  aim: fc.array(
    fc.constantFrom(
      'fewest pieces',
      'fewest levels',
      'fewest shapes',
      'fewest joints',
      'fewest bar-shapes',
      'fewest legs-apart',
      'least voltage',
      'least copper',
      'least window',
      'deviation 8 %',
    ),
    { maxLength: 2 },
  ),
  specials: fc.constantFrom('', '', '', 'specials joined', 'specials crowns', 'specials either'),
});

/** Points of a duty cycle: standstill and high speed, torque that can and cannot be reached, braking. */
const dutyPoint = fc
  .record({
    speed: fc.constantFrom(
      'speed 0 rpm',
      'speed 30 rpm',
      'speed 900 rpm',
      'speed 9000 rpm',
      'frequency 55 Hz',
    ),
    load: fc.constantFrom(
      'torque 4 Nm',
      'torque -25 Nm',
      'torque 150 Nm',
      'current 0 A',
      'current 120 A',
      'current 260 A angle 30 edeg',
    ),
    time: fc.constantFrom('8 s', '2 min', '1 h'),
  })
  .map(({ speed, load, time }) => `${speed} ${load} for ${time}`);

const duty = fc.oneof(
  { weight: 2, arbitrary: fc.constant<readonly string[]>([]) },
  { weight: 3, arbitrary: fc.array(dutyPoint, { minLength: 1, maxLength: 3 }) },
);

const rest = fc.record({
  limits: fc.array(
    fc.constantFrom(
      'winding-factor harmonic 1 >= 0.9',
      'winding-factor harmonic 5 <= 0.2',
      'differential-leakage <= 3 %',
      'special-joints <= 6',
      'hot-spot-temperature <= 155 degC',
      'torque >= 40 Nm',
      'voltage-in-slot <= 90 %',
      'circulating-current <= 1 %',
      'path-current-deviation <= 5 %',
      'legs-bent-apart <= 2',
      'end-clearance-left >= 0.3 mm',
      'end-inductance <= 3 uH',
      'terminal-voltage <= 380 V',
      'power-factor >= 0.8',
      'base-speed >= 900 rpm',
      'top-speed >= 4000 rpm',
      'short-circuit-current <= 300 A',
      'tooth-flux-density <= 1.8 T',
      'yoke-flux-density <= 1.5 T',
      'copper-loss at "haul 1" <= 600 W',
      'terminal-voltage at "haul 2" <= 300 V',
      'hot-spot-temperature at "haul 1" <= 140 degC',
      'cycle-hot-spot <= 150 degC',
      'cycle-copper-efficiency >= 90 %',
    ),
    { maxLength: 5 },
  ),
  accept: fc.array(
    fc.constantFrom('terminals-apart', 'voltage-too-low', 'current-density-high', 'jumper-levels'),
    { maxLength: 1 },
  ),
  sheet: fc.constantFrom(
    '',
    'sheet-size A4',
    'sheet-size A2',
    'owner "Estuary workshop"  number "EW-7"  revision "B"',
  ),
  insulation: maybe('insulation { turn-voltage 60 V  phase-voltage 400 V }'),
  title: fc.constantFrom('Sluice fan', 'Tide gate "north"', 'W\u00e4rter \u03a9', '<b>@pump</b> | #12'),
});

interface Winding {
  readonly machine: string;
  readonly slot: string;
  readonly bar: string;
  readonly layout: string;
  readonly connect: string;
  readonly rest: string;
  readonly title: string;
}

/** A winding text; the second of a pair differs from the first in one block. */
export const windingPair: fc.Arbitrary<readonly [string, string]> = fc
  .tuple(
    fc.tuple(machine, copper, layout, connect, rest, duty),
    fc.tuple(machine, copper, layout, connect, rest, duty),
    fc.integer({ min: 0, max: 5 }),
  )
  .map(([first, other, changed]) => {
    const second = first.map((part, i) => (i === changed ? other[i]! : part)) as unknown as typeof first;
    return [textOf(parts(...first)), textOf(parts(...second))];
  });

type From<A> = A extends fc.Arbitrary<infer T> ? T : never;

function parts(
  m: From<typeof machine>,
  c: From<typeof copper>,
  l: From<typeof layout>,
  k: From<typeof connect>,
  r: From<typeof rest>,
  d: From<typeof duty>,
): Winding {
  const { perPole, unit } = m.slotting;
  const ofUnit = Math.round(2 * unit * perPole * m.phases.count);
  const units = Math.max(1, Math.min(Math.ceil(m.pairs / unit), Math.floor(m.mostSlots / ofUnit)));
  const [poles, slots] = [2 * unit * units, ofUnit * units];
  const paths = k.anyPaths || poles % k.paths === 0 ? k.paths : 1;
  const span = Math.max(1, Math.floor(slots / poles) - l.chord);
  const bore = Math.max(60, Math.ceil((slots * 10) / Math.PI));
  const width = Math.round(((Math.PI * bore) / slots) * c.pitchShare) / 100;
  const depth = Math.ceil((c.height + 0.3) * l.layers + 3);
  const inside = m.gap === 'outer' ? '' : `bore ${bore} mm`;
  const outside = m.gap === 'inner' ? '' : `outside ${bore + 2 * depth + (m.gap === 'both' ? 0 : 40)} mm`;
  const rows =
    l.lean === 'crossed' && l.layers % 2 === 0 && l.layers > 1
      ? [letters(0, l.layers / 2), letters(l.layers / 2, l.layers)]
      : [''];
  const lean =
    rows.length === 2
      ? `skew ${rows[0]} 0.5 slot  skew ${rows[1]} -0.5 slot`
      : l.lean === ''
        ? ''
        : 'skew all 1 slot';
  const separator = rows.length === 1 && l.layers > 1 ? c.separator : '';
  const slotOf = (names: string) =>
    `slot ${names} { width ${width} mm  depth ${Math.ceil(depth / rows.length)} mm  ${c.opening}  liner 0.25 mm  ${c.side} ${separator} }`;
  return {
    title: r.title,
    machine: `machine { slots ${slots}  poles ${poles}  ${m.phases.words}  gap ${m.gap}
  ${inside}  ${outside}  stack 90 mm
  ${m.magnet}  speed ${m.speed} rpm  ${m.flux}  ${m.current}  ${m.voltage}
  ${m.angle}  ${m.axes}
  ${m.gap === 'both' ? '' : m.iron}
  ${m.temperatures}  ${m.core}
  ${m.rotor}
  ${m.field}
}`,
    slot: c.sized === 0 ? '' : rows.map(slotOf).join('\n'),
    bar:
      c.sized === 0
        ? `bar { ${c.form} }`
        : `bar { width ${Math.max(0.5, width - 1).toFixed(2)} mm  height ${c.height} mm  ${c.corner}  ${c.coating}  ${c.metal}  ${c.form}  ${c.strands}
  ${c.ends}  ${c.joints}  ${c.leads}
  ${c.pieces}  ${c.ringSizes}
  ${c.bend}  ${c.overhang}
}`,
    layout: `layout { layers ${l.layers}  span ${span}  ${l.layers > 2 && l.stagger ? 'stagger 1' : ''}
  ${lean}
}`,
    connect: `connect { ${k.how}  ${k.rings}  ${k.specials}  route paths ${paths} ${[...new Set(k.aim)].join(' ')} }`,
    rest: `${r.insulation}
${d.length === 0 ? '' : `duty {\n${d.map((point, index) => `  point "haul ${index + 1}" ${point}`).join('\n')}\n}`}
require {
${r.limits.map((limit) => `  ${limit}`).join('\n')}
${r.accept.map((code) => `  accept ${code} "as ever on this quay"`).join('\n')}
}
sheet { ${r.sheet} }`,
  };
}

function letters(from: number, to: number): string {
  return Array.from({ length: to - from }, (_, i) => String.fromCharCode(97 + from + i)).join(' ');
}

function textOf({ title, machine: m, slot, bar, layout: l, connect: k, rest: r }: Winding): string {
  const name = title.replaceAll('"', '\\"');
  return `winding "${name}"\n${[m, slot, bar, l, k, r].filter(Boolean).join('\n')}\n`;
}
