// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { figureRegister, figuresOf } from '../../core/figures/register.ts';
import { examine, ferryDrive, withLine } from './machines.ts';

const copper = (...names: string[]) => names.map((name) => `copper.${name}`);
const emf = (...names: string[]) => names.map((name) => `emf.${name}`);

const lengths = copper('length.bars', 'length.total', 'length.overhangConnection', 'length.overhangFar');
const cold = copper('resistance.path20', 'resistance.phase20', 'resistance.line20');
const warm = copper('resistance.phase', 'resistance.line');
const ratios = copper('acRatio.layers', 'acRatio.slot', 'acRatio.worst');
const leakage = copper('leakage.slotPermeance', 'leakage.slotInductance', 'leakage.pathImpedances');
const heat = copper('heat.rise', 'heat.hotSpot', 'heat.endShare', 'heat.coreShare');
const cage = copper('cage.straight');
const inductances = emf('magnetizingInductance', 'differentialLeakageInductance');
const impedances = copper('leakage.pathImpedances');
const allLoss = copper('loss.dc', 'loss.ac', 'loss.total');

// Whatever needs the length of whole bars.
const ofLengths = [
  ...lengths,
  ...cold,
  ...warm,
  ...copper('mass', 'loss.dc', 'loss.total', 'acRatio.bar'),
  ...impedances,
  ...emf('motorConstant'),
];
// Whatever needs the layers' radii; straight bars are as long as the stack without them.
const ofRadii = [...ofLengths, ...cage];

/** Which figures go missing without a statement, worked out by hand from the formulas. */
const required: Readonly<Record<string, readonly string[]>> = {
  bore: [...ofRadii, ...inductances, ...emf('gaps', 'gapFluxDensity')],
  // The permeance of straight slots does not depend on their length.
  stack: [
    ...ofRadii,
    ...copper('loss.ac'),
    ...leakage.filter((name) => !name.endsWith('Permeance')),
    ...heat,
    ...inductances,
    ...emf('gaps', 'gapFluxDensity'),
  ],
  'air-gap': inductances,
  'magnet-height': inductances,
  speed: [
    ...emf('frequency', 'phaseVoltage', 'lineVoltage', 'power', 'motorConstant'),
    ...ratios,
    ...copper('acRatio.bar', 'acRatio.bestHeights', 'loss.ac', 'loss.total'),
    ...impedances,
    ...heat,
  ],
  flux: emf(
    'phaseVoltage',
    'lineVoltage',
    'torque',
    'power',
    'torquePerAmpere',
    'motorConstant',
    'gaps',
    'gapFluxDensity',
  ),
  current: [
    ...copper('currentDensity'),
    ...allLoss,
    ...heat,
    ...emf('torque', 'power', 'motorConstant', 'gaps'),
  ],
  'winding-temperature': [
    ...warm,
    ...allLoss,
    ...ratios,
    ...copper('acRatio.bar', 'acRatio.bestHeights'),
    ...impedances,
    ...emf('motorConstant'),
  ],
  'end-temperature': heat,
  // `width` appears in two blocks: the slot's stands first.
  width: [
    ...copper('section.slotFill', 'section.spareRoom'),
    ...ratios,
    ...copper('acRatio.bar', 'acRatio.bestHeights', 'loss.ac', 'loss.total'),
    ...leakage,
    ...heat,
    ...emf('motorConstant'),
  ],
  depth: [...copper('section.slotFill', 'section.spareRoom'), ...ofRadii, ...leakage],
  'opening ': leakage,
  'opening-height': [...ofRadii, ...leakage],
  'width 3.6 mm': [
    ...copper('section.barArea', 'section.slotFill', 'section.spareRoom', 'currentDensity'),
    ...ofRadii,
    ...ratios,
    ...copper('acRatio.bestHeights', 'loss.ac'),
    ...heat,
  ],
  height: [
    ...copper('section.barArea', 'section.slotFill', 'section.spareRoom', 'currentDensity'),
    ...ofRadii,
    ...ratios,
    ...copper('loss.ac'),
    ...leakage,
    ...heat,
  ],
  'end-straight': ofLengths,
  'end-clearance': ofLengths,
  'joint-straight': ofLengths,
  star: [
    ...copper('resistance.line20', 'resistance.line', 'currentDensity'),
    ...allLoss,
    ...heat,
    ...emf('lineVoltage', 'torque', 'power', 'torquePerAmpere', 'motorConstant', 'gaps'),
  ],
};

/** Statements with a default: nothing goes missing, and these words say what was assumed. */
const withDefault: Readonly<Record<string, string>> = {
  'gap inner': 'machine gap: inner (default)',
  'magnet-permeability': 'machine magnet-permeability: 1.05 (default)',
  carter: 'machine carter: on (default)',
  'wedge 1': 'slot wedge: 0 mm (default)',
  liner: 'slot liner: 0 mm (default)',
  strands: 'bar strands: 1 (default)',
  corner: 'bar corner: 0 mm (default)',
  coating: 'bar coating: 0 mm (default)',
  metal: 'bar metal: copper (default)',
  skew: 'layout skew: all 0 deg (default)',
  route: 'connect route: paths 1 (default)',
  // No default, but a model with and one without it.
  'side-conductance': 'no heat from bars to the core: slot side-conductance is not given',
};

function missingOf(text: string): Set<string> {
  const result = examine(text);
  return new Set([...result.copper.missing, ...result.emf.missing].map((entry) => entry.quantity));
}

function assumptionsOf(text: string): readonly string[] {
  const result = examine(text);
  return [...result.copper.assumptions, ...result.emf.assumptions];
}

const baseline = missingOf(ferryDrive);

describe('leaving out one statement', () => {
  it('the full text lacks only what it does not ask for', () => {
    // Its bars do not lean, so there is no crossed-bar cage.
    expect([...baseline].sort()).toEqual([
      ...copper('cage.bending', 'cage.stiffness', 'cage.stress'),
      'emf.harmonics',
    ]);
  });

  it.each(Object.keys(required))('%s: exactly the figures that follow from it go missing', (start) => {
    const now = [...missingOf(withLine(ferryDrive, start, null))].filter((name) => !baseline.has(name));
    expect(now.sort()).toEqual([...new Set(required[start])].sort());
  });

  it.each(Object.keys(required))('%s: is named as what would supply them', (start) => {
    const without = examine(withLine(ferryDrive, start, null));
    const words: Record<string, string> = {
      speed: 'machine speed or frequency',
      star: 'connect star, delta or open',
      width: 'slot width',
      'width 3.6 mm': 'bar width',
      height: 'bar height',
    };
    const word = words[start] ?? start.trim();
    for (const entry of [...without.copper.missing, ...without.emf.missing]) {
      if (baseline.has(entry.quantity)) continue;
      expect(entry.needs).toHaveLength(1);
      expect(entry.needs[0]).toContain(word);
    }
  });

  it.each(Object.keys(withDefault))('%s: every figure stays and the assumption is printed', (start) => {
    const line = withDefault[start]!;
    expect(assumptionsOf(ferryDrive)).not.toContain(line);
    const without = withLine(ferryDrive, start, null);
    expect(missingOf(without)).toEqual(baseline);
    expect(assumptionsOf(without)).toContain(line);
  });

  it('covers every statement of the text', () => {
    const untested = ferryDrive
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => /^[a-z-]+ /.test(line) && !/[{}]/.test(line) && !line.startsWith('winding "'))
      // Without these there is no winding at all; the form of the bars changes no figure.
      .filter((line) => !/^(slots|poles|phases|layers|span|form) /.test(line))
      .filter(
        (line) => ![...Object.keys(required), ...Object.keys(withDefault)].some((s) => line.startsWith(s)),
      );
    expect(untested).toEqual([]);
  });

  it('frequency does for the speed', () => {
    const text = withLine(ferryDrive, 'speed', 'frequency 240 Hz');
    expect(missingOf(text)).toEqual(baseline);
    expect(examine(text).emf.phaseVoltage).toBeCloseTo(examine(ferryDrive).emf.phaseVoltage!, 12);
  });

  it('without a connect block the winding is not connected', () => {
    const text = ferryDrive.slice(0, ferryDrive.indexOf('connect {'));
    const result = examine(text);
    const entry = result.copper.missing.find(({ quantity }) => quantity === 'copper.length.bars');
    expect(entry?.needs).toEqual(['connect route or written paths']);
    expect(result.copper.acRatio.slot).not.toBeNull();
  });

  it('without opening Carter is left out and said so', () => {
    const text = withLine(ferryDrive, 'opening ', null);
    expect(examine(text).emf.assumptions).toContain("Carter's factor 1: no slot opening is given");
  });

  it('a bare text yields nothing, lists everything and names a model for nothing', () => {
    const bare = 'winding "x"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 2 span 6 }\n';
    const { copper: result, problems } = examine(bare);
    expect(result.missing.map((entry) => entry.quantity)).toHaveLength(33);
    expect(result.models).toEqual([]);
    expect(result.assumptions).toEqual([]);
    expect(problems).toEqual([]);
  });
});

describe('two gaps', () => {
  const both = ferryDrive.replace('gap inner', 'gap both\n  outside 194 mm');
  const base = missingOf(both);
  const ofShare = [
    ...ratios,
    ...copper('acRatio.bar', 'acRatio.bestHeights', 'loss.ac', 'loss.total'),
    ...leakage,
    ...heat,
    ...inductances,
    ...emf('motorConstant'),
  ];
  const gaps = emf('gaps');
  it.each([
    // The radii follow from the outside too.
    ['bore', [...ofShare, ...gaps, ...emf('gapFluxDensity')]],
    // The torque divides by the magnets alone.
    ['air-gap', ofShare],
    ['magnet-height', [...ofShare, ...gaps]],
  ] as const)('%s decides how the slot current acts on either gap', (start, expected) => {
    const now = [...missingOf(withLine(both, start, null))].filter((name) => !base.has(name));
    expect(now.sort()).toEqual([...expected].sort());
  });
  it('the outside follows from bore and slots where it is not written, and says so', () => {
    // 162 mm + 2 x (15.2 mm deep, 0.8 mm of opening at either end).
    const written = both.replace('194 mm', '195.6 mm');
    const left = withLine(both, 'outside', null);
    expect(missingOf(left)).toEqual(base);
    const line = 'machine outside: 195.6 mm (from bore, slot depth and opening-height)';
    expect(assumptionsOf(left)).toContain(line);
    expect(assumptionsOf(written)).not.toContain(line);
    const [one, other] = [examine(written), examine(left)];
    expect(other.emf.gaps!.map(({ diameter }) => diameter)).toEqual([0.162, expect.closeTo(0.1956, 12)]);
    for (const [place, value] of Object.entries(one.emf))
      if (typeof value === 'number')
        expect((other.emf as unknown as Record<string, number>)[place]! / value).toBeCloseTo(1, 12);
    expect(other.copper.loss.ac! / one.copper.loss.ac!).toBeCloseTo(1, 12);
  });
  it.each([
    ['opening-height', 'machine outside or slot opening-height'],
    ['depth', 'machine outside or slot depth'],
    ['bore', 'machine outside or machine bore'],
  ])('without %s it does not: both statements that would do are named', (start, need) => {
    const without = examine(withLine(withLine(both, 'outside', null), start, null));
    const gaps = without.emf.missing.find(({ quantity }) => quantity === 'emf.gaps');
    expect(gaps?.needs).toContain(need);
  });
  it('both diameters missing: the radii are too', () => {
    const without = missingOf(withLine(withLine(both, 'bore', null), 'outside', null));
    expect(without.has('copper.length.bars')).toBe(true);
  });
});

describe('models', () => {
  it('every known figure names its model, unit and source, and only those', () => {
    const { copper: result, emf: voltages } = examine(ferryDrive);
    const lines = [...result.models, ...voltages.models];
    for (const { line, source, unit } of lines) {
      expect(line.length).toBeGreaterThan(3);
      expect(source.length).toBeGreaterThan(3);
      expect(unit.length).toBeGreaterThan(0);
    }
    const missing = new Set([...result.missing, ...voltages.missing].map((entry) => entry.quantity));
    expect(lines.filter((model) => missing.has(model.quantity))).toEqual([]);
    const modeled = [...figuresOf('copper'), ...figuresOf('emf')].filter(
      (path) => figureRegister[path].model !== undefined,
    );
    const told = new Set<string>([...lines.map(({ quantity }) => quantity), ...missing]);
    // What this machine has nothing of: rings, harmonics, a field at the bars, a core that the bars heat.
    expect(modeled.filter((path) => !told.has(path))).toEqual([
      'copper.ringCurrentDensity',
      'copper.loss.harmonics',
      'copper.loss.barField',
      'copper.heat.coreTemperature',
    ]);
  });
});
