/** What a number measures. `angle` keeps its unit: edeg and slot need the machine to become radians. */
export type Dimension =
  | 'length'
  | 'angle'
  | 'speed'
  | 'frequency'
  | 'flux'
  | 'flux-density'
  | 'current'
  | 'voltage'
  | 'temperature'
  | 'ratio'
  | 'conductance'
  | 'heat-capacity'
  | 'cooling'
  | 'current-density'
  | 'resistance'
  | 'inductance'
  | 'power'
  | 'energy'
  | 'mass'
  | 'torque'
  | 'duration'
  | 'motor-constant'
  | 'torsional-stiffness'
  | 'stress'
  | 'none';

export interface Unit {
  readonly name: string;
  readonly dimension: Dimension;
  /** SI value of 1 of this unit; degC stays degC, angles stay in their own unit (1). */
  readonly factor: number;
}

/** The unit table; the first unit of a dimension is the one shown in messages and examples. */
export const units: readonly Unit[] = [
  { name: 'mm', dimension: 'length', factor: 1e-3 },
  { name: 'm', dimension: 'length', factor: 1 },
  { name: 'um', dimension: 'length', factor: 1e-6 },
  { name: 'deg', dimension: 'angle', factor: 1 },
  { name: 'edeg', dimension: 'angle', factor: 1 },
  { name: 'slot', dimension: 'angle', factor: 1 },
  { name: 'rpm', dimension: 'speed', factor: 1 / 60 },
  { name: 'Hz', dimension: 'frequency', factor: 1 },
  { name: 'kHz', dimension: 'frequency', factor: 1e3 },
  { name: 'mWb', dimension: 'flux', factor: 1e-3 },
  { name: 'Wb', dimension: 'flux', factor: 1 },
  { name: 'T', dimension: 'flux-density', factor: 1 },
  { name: 'mT', dimension: 'flux-density', factor: 1e-3 },
  { name: 'A', dimension: 'current', factor: 1 },
  { name: 'kA', dimension: 'current', factor: 1e3 },
  { name: 'V', dimension: 'voltage', factor: 1 },
  { name: 'kV', dimension: 'voltage', factor: 1e3 },
  { name: 'degC', dimension: 'temperature', factor: 1 },
  { name: '%', dimension: 'ratio', factor: 1e-2 },
  { name: 'W/(m K)', dimension: 'conductance', factor: 1 },
  { name: 'W/mK', dimension: 'conductance', factor: 1 },
  { name: 'J/K', dimension: 'heat-capacity', factor: 1 },
  { name: 'kJ/K', dimension: 'heat-capacity', factor: 1e3 },
  { name: 'W/K', dimension: 'cooling', factor: 1 },
  { name: 'A/mm2', dimension: 'current-density', factor: 1e6 },
  { name: 'mohm', dimension: 'resistance', factor: 1e-3 },
  { name: 'uohm', dimension: 'resistance', factor: 1e-6 },
  { name: 'ohm', dimension: 'resistance', factor: 1 },
  { name: 'mH', dimension: 'inductance', factor: 1e-3 },
  { name: 'uH', dimension: 'inductance', factor: 1e-6 },
  { name: 'H', dimension: 'inductance', factor: 1 },
  { name: 'W', dimension: 'power', factor: 1 },
  { name: 'kW', dimension: 'power', factor: 1e3 },
  { name: 'kJ', dimension: 'energy', factor: 1e3 },
  { name: 'J', dimension: 'energy', factor: 1 },
  { name: 'kg', dimension: 'mass', factor: 1 },
  { name: 'g', dimension: 'mass', factor: 1e-3 },
  { name: 's', dimension: 'duration', factor: 1 },
  { name: 'min', dimension: 'duration', factor: 60 },
  { name: 'h', dimension: 'duration', factor: 3600 },
  { name: 'Nm', dimension: 'torque', factor: 1 },
  { name: 'kNm', dimension: 'torque', factor: 1e3 },
  { name: 'Nm/sqrt(W)', dimension: 'motor-constant', factor: 1 },
  { name: 'Nm/rad', dimension: 'torsional-stiffness', factor: 1 },
  { name: 'kNm/rad', dimension: 'torsional-stiffness', factor: 1e3 },
  { name: 'MPa', dimension: 'stress', factor: 1e6 },
];

const unitsByName = new Map(units.map((unit) => [unit.name, unit]));
/** Longest first, so that `mWb` is not read as `m`. */
const namesLongestFirst = [...unitsByName.keys()].sort((a, b) => b.length - a.length);

const namesByInitial = new Map<string, string[]>();
for (const name of namesLongestFirst) {
  const names = namesByInitial.get(name.charAt(0)) ?? [];
  names.push(name);
  namesByInitial.set(name.charAt(0), names);
}

const namesByDimension = new Map<Dimension, string[]>();
for (const unit of units) {
  namesByDimension.set(unit.dimension, [...(namesByDimension.get(unit.dimension) ?? []), unit.name]);
}

/** Names in small letters under which units go elsewhere, in the singular; nearer spellings need no entry. */
const otherNames: ReadonlyMap<string, string> = new Map(
  Object.entries({
    rpm: 'r/min rev/min u/min min-1',
    mm: 'millimeter millimetre',
    m: 'meter metre',
    um: 'micron micrometer micrometre',
    deg: 'degree',
    A: 'amp ampere',
    V: 'volt',
    Hz: 'hertz',
    H: 'henry henrie',
    mH: 'millihenry',
    uH: 'microhenry',
    Wb: 'weber',
    mWb: 'milliweber',
    T: 'tesla',
    s: 'sec second',
    min: 'minute',
    h: 'hour hr',
    W: 'watt',
    kg: 'kilogram kilogramme',
    g: 'gram gramme',
    Nm: 'n·m n*m newton-meter newton-metre',
    degC: 'c celsius',
    '%': 'percent pct',
    'A/mm2': 'a/mm² a/mm^2',
    'W/(m K)': 'w/(m·k) w/(m*k) w/m/k',
  }).flatMap(([unit, names]) => names.split(' ').map((name) => [name, unit] as const)),
);

/** The unit that goes by that name in small letters elsewhere, if there is one. */
export function unitCalled(name: string): string | undefined {
  return otherNames.get(name);
}

/** The unit of that exact spelling, if there is one. */
export function unitNamed(name: string): Unit | undefined {
  return unitsByName.get(name);
}

/** The longest unit that stands at `offset` and is not the beginning of a longer word. */
export function unitAt(text: string, offset: number): Unit | undefined {
  for (const name of namesByInitial.get(text.charAt(offset)) ?? []) {
    if (text.startsWith(name, offset) && !/[A-Za-z0-9/-]/.test(text.charAt(offset + name.length))) {
      return unitsByName.get(name);
    }
  }
  return undefined;
}

/** The spellings of a dimension's units, in the order of the table. */
export function unitNames(dimension: Dimension): readonly string[] {
  return namesByDimension.get(dimension) ?? [];
}

/** The number and unit written without the blank between them, if that is what the text is. */
export function gluedUnit(text: string): { readonly number: string; readonly unit: string } | null {
  const parts = /^([+-]?\d+(?:\.\d+)?)(.+)$/.exec(text);
  if (!parts) return null;
  const unit = unitAt(parts[2]!, 0);
  return unit && unit.name.length === parts[2]!.length ? { number: parts[1]!, unit: unit.name } : null;
}
