import { ratedTorque } from '../analysis/emf/emf.ts';
import { factorRow, factorSpectrum } from '../analysis/factors/factors.ts';
import { slotOfLayer } from '../analysis/machineInputs.ts';
import { orNull } from '../figures/figure.ts';
import { listed } from '../language/lists.ts';
import { significant } from '../language/numbers.ts';
import { defaultOf, valueOrDefault } from '../language/specification/defaults.ts';
import type { Specification, VariedWord } from '../language/specification/specification.ts';
import type { Hold } from '../language/specification/statements.ts';
import { statementsOf } from '../language/specification/varyRules.ts';
import type { Document, SeriesItem, Statement, Value } from '../language/text/document.ts';
import { machineStatements } from '../language/vocabulary/blocks/machine.ts';
import { varyStatements } from '../language/vocabulary/blocks/vary.ts';
import { unitNamed } from '../language/vocabulary/units.ts';
import { statementEntry } from '../language/vocabulary/vocabulary.ts';
import { barCoating } from '../sizes/barInputs.ts';
import { roomForBars } from '../sizes/fit.ts';
import { slotLength, slotLiner, slotRows } from '../sizes/slotRows.ts';
import type { Winding } from '../winding/model.ts';
import type { Builder } from './build.ts';
import type { Place, Setting } from './places.ts';
import type { Question } from './question.ts';

/** What stays equal, and what therefore follows. */
export interface Holding {
  readonly field: NonNullable<Hold['field']>;
  readonly load: NonNullable<Hold['load']>;
  readonly room: NonNullable<Hold['room']>;
  /** Torque held, Nm; null where none is. */
  readonly torque: number | null;
  /** What cannot be settled, each with the row that it is because of. */
  readonly unsettled: readonly string[];
  /** The values that follow for a candidate, beside those of its rows. */
  readonly follow: (
    settings: readonly Setting[],
    specification: Specification,
    winding: Winding,
  ) => readonly Setting[];
}

/** A winding to count from. */
interface Base {
  readonly specification: Specification;
  readonly winding: Winding;
}

/** Digits to which values that follow are written. */
const heldDigits = 7;

/**
 * What a question holds equal. Values that follow are rounded to seven digits, because they stand in the
 * candidate's text: its figures are those of that text.
 */
export function holding(question: Question, base: Base | null, build: Builder): Holding {
  const { document, specification, hold, rows } = question;
  const { machine } = specification;
  const varied = new Set(rows.flatMap(({ columns }) => columns.map(({ word }) => wordName(word))));
  const unsaid = defaultOf(varyStatements.hold);
  const { field, room } = { ...unsaid, ...hold } as Required<Hold>;
  const torque = base ? torqueOf(base.specification, base.winding) : null;
  const canHold = torque !== null && torque > 0 && !varied.has('machine current');
  const load = hold.load ?? (canHold ? unsaid.load! : 'current');
  const unsettled: string[] = [];
  const fluxPlaces = varied.has('machine flux') ? [] : valuePlaces(document, 'machine', 'flux');
  const currentPlaces = varied.has('machine current') ? [] : valuePlaces(document, 'machine', 'current');
  const scalesFlux = field === 'gap-flux-density' && fluxPlaces.length > 0;
  const diameter = valueOrDefault(machineStatements, machine, 'gap') === 'outer' ? 'outside' : 'bore';
  const unknown = (words: readonly string[]) =>
    words.filter((word) => varied.has(`machine ${word}`) && baseValue(specification, word) === null);
  if (scalesFlux) {
    const missing = [...unknown(['poles', diameter, 'stack']), ...(varied.has('machine gap') ? ['gap'] : [])];
    if (missing.length > 0) unsettled.push(told('machine flux', missing));
  }
  if (load === 'torque' && torque === null) {
    unsettled.push('machine current: the file gives no torque to hold; that takes its flux and current');
  }
  const widths = statementsFor(document, 'slot', 'width').length > 0;
  const pitchUnknown = room === 'shares' && widths ? unknown(['slots', diameter]) : [];
  if (pitchUnknown.length > 0) unsettled.push(told('slot width', pitchUnknown));
  const perLayers = statementsFor(document, 'bar', 'height').some(
    ({ values }) => values[0]?.kind === 'layer',
  );
  const heightsLost =
    room === 'shares' && perLayers && varied.has('layout layers') && !varied.has('bar height');
  if (heightsLost) unsettled.push(told('bar height', ['layout layers'], ''));
  const sizing =
    room === 'shares' && base && pitchUnknown.length === 0
      ? shareSizes(question, base, diameter, varied)
      : null;

  const follow: Holding['follow'] = (settings, asked, winding) => {
    const out: Setting[] = [];
    let now = asked;
    const set = (more: readonly Setting[]) => {
      if (more.length === 0) return;
      out.push(...more);
      now = build([...settings, ...out]);
    };
    if (base && scalesFlux) {
      const factor = fluxFactor(base.specification, now, diameter);
      if (factor !== null && factor !== 1) set(scaled(fluxPlaces, () => factor));
    }
    if (sizing) {
      set(sizing.slots(now));
      set(sizing.bars(now, winding));
    }
    if (base && load === 'torque' && torque !== null) set(currentFor(torque, currentPlaces, now, winding));
    return out;
  };
  return { field, load, room, torque: load === 'torque' ? torque : null, unsettled, follow };
}

function told(what: string, words: readonly string[], block = 'machine '): string {
  const rows = listed(words.map((word) => `${block}${word}`));
  return `${what}: nothing settles it where ${rows} ${words.length === 1 ? 'varies' : 'vary'}`;
}

function wordName({ entry }: VariedWord): string {
  return `${entry.block} ${entry.word}`;
}

function statementsFor(
  document: Document,
  block: 'machine' | 'slot' | 'bar',
  word: string,
): readonly Statement[] {
  const entry = statementEntry(block, word)!;
  return statementsOf(document, { entry, slotLayers: [], qualifiers: [], range: { start: 0, end: 0 } });
}

/** The amounts of a word's statements, as places. */
function valuePlaces(document: Document, block: 'machine' | 'slot' | 'bar', word: string): readonly Place[] {
  return statementsFor(document, block, word).map((statement) => ({
    kind: 'value',
    statement,
    range: amountOf(statement).range,
  }));
}

type Amount = Extract<Value, { kind: 'quantity' }>;

function amountOf({ values }: Statement): Amount {
  const amount = values.find(({ kind }) => kind === 'quantity');
  if (amount?.kind !== 'quantity') throw new RangeError('a statement without an amount');
  return amount;
}

/** Settings that multiply what stands at some places; those that stay as they are are left out. */
function scaled(
  places: readonly Place[],
  factor: (amount: Amount, place: Place) => number | null,
): readonly Setting[] {
  return places.flatMap((place) => {
    if (place.kind !== 'value') return [];
    const amount = amountOf(place.statement);
    const by = factor(amount, place);
    return by === null || by === 1 ? [] : [{ place, item: written(amount.value * by, amount) }];
  });
}

/** An amount in SI units as it is written in the unit of another one. */
function written(amount: number, { unit, range }: Amount): SeriesItem {
  const text = significant(amount / (unit === null ? 1 : unitNamed(unit)!.factor), heldDigits);
  return { kind: 'number', text, unit, range };
}

function baseValue({ machine }: Specification, word: string): number | null {
  const given = machine?.[word as 'slots' | 'poles' | 'bore' | 'outside' | 'stack'];
  return given?.value ?? null;
}

/** By which the flux of a pole changes at equal flux density in the gap: it goes as bore and stack, and 1 / poles. */
function fluxFactor(base: Specification, now: Specification, diameter: 'bore' | 'outside'): number | null {
  let factor = 1;
  for (const [word, power] of [
    ['poles', -1],
    [diameter, 1],
    ['stack', 1],
  ] as const) {
    const [from, to] = [baseValue(base, word), baseValue(now, word)];
    if (from === to) continue;
    if (from === null || to === null) return null;
    factor *= power === 1 ? to / from : from / to;
  }
  return factor;
}

/** Torque at the stated current, Nm: the study's own. */
function torqueOf(specification: Specification, winding: Winding): number | null {
  const factor = factorRow(winding, factorSpectrum(winding, 0), winding.polePairs).winding;
  return orNull(ratedTorque(specification, winding, factor));
}

/** The current at which a winding gives a torque. */
function currentFor(
  torque: number,
  places: readonly Place[],
  specification: Specification,
  winding: Winding,
): readonly Setting[] {
  const { machine } = specification;
  const [place] = places;
  if (!machine?.current || place?.kind !== 'value') return [];
  const factor = factorRow(winding, factorSpectrum(winding, 0), winding.polePairs).winding;
  const given = machine.current;
  let current = given.value;
  // Without unequal axes the torque is proportional to the current, and the first step meets it.
  for (let step = 0; step < 40; step++) {
    const at = { ...specification, machine: { ...machine, current: { ...given, value: current } } };
    const reached = orNull(ratedTorque(at, winding, factor));
    if (reached === null || !(reached > 0)) return [];
    const next = current * (torque / reached);
    if (!Number.isFinite(next)) return [];
    if (Math.abs(next - current) <= 1e-12 * current) break;
    current = next;
  }
  const amount = amountOf(place.statement);
  return current === amount.value ? [] : [{ place, item: written(current, amount) }];
}

interface Sizing {
  readonly slots: (now: Specification) => readonly Setting[];
  readonly bars: (now: Specification, winding: Winding) => readonly Setting[];
}

/** Slots that keep their share of the pitch, and bars that fill the room in them as before. */
function shareSizes(
  { document }: Question,
  base: Base,
  diameter: 'bore' | 'outside',
  varied: ReadonlySet<string>,
): Sizing {
  const free = (block: 'slot' | 'bar', word: string) =>
    varied.has(`${block} ${word}`) ? [] : valuePlaces(document, block, word);
  const [slotWidths, openings] = [free('slot', 'width'), free('slot', 'opening')];
  const [barWidths, barHeights] = [free('bar', 'width'), free('bar', 'height')];
  const baseRoom = rooms(base.specification, base.winding);
  const widthOf = new Map(
    statementsFor(document, 'slot', 'width').map((statement) => [statement, amountOf(statement).value]),
  );
  const openSlot = (place: Place) =>
    place.kind === 'value' && [...widthOf.values()].includes(amountOf(place.statement).value);
  const layersBefore = base.winding.layers;
  return {
    slots: (now) => {
      const [slots, was] = [baseValue(now, 'slots'), baseValue(base.specification, 'slots')];
      if (slots === null || was === null) return [];
      const [wide, before] = [baseValue(now, diameter), baseValue(base.specification, diameter)];
      const factor = (was / slots) * (wide === null || before === null ? 1 : wide / before);
      // Open slots stay open: their opening is as wide as they are.
      return [
        ...scaled(slotWidths, () => factor),
        ...(slotWidths.length > 0 ? scaled(openings, (_, place) => (openSlot(place) ? factor : 1)) : []),
      ];
    },
    bars: (now, winding) => {
      const room = rooms(now, winding);
      const share = (kind: 'width' | 'height') => (amount: Amount, place: Place) => {
        const layer = place.kind === 'value' ? firstLayer(place.statement) : null;
        // Heights written layer by layer say nothing of other numbers of layers.
        if (kind === 'height' && layer !== null && winding.layers !== layersBefore) return null;
        const [from, to] = [baseRoom(layer ?? 0), room(layer ?? 0)];
        const [a, b] = [from?.[kind] ?? null, to?.[kind] ?? null];
        return a === null || b === null || !(a > 0) || !(b > 0) || !Number.isFinite(amount.value) ? 1 : b / a;
      };
      return [...scaled(barWidths, share('width')), ...scaled(barHeights, share('height'))];
    },
  };
}

function firstLayer({ values }: Statement): number | null {
  const layer = values.find(({ kind }) => kind === 'layer');
  return layer?.kind === 'layer' ? layer.layer : null;
}

/** Room for copper in the slot of a layer, m: across it for a bar, along its depth for each bar; null where unknown. */
function rooms(
  specification: Specification,
  winding: Winding,
): (layer: number) => { readonly width: number | null; readonly height: number | null } | null {
  const rows = orNull(slotRows(specification, winding)) ?? [];
  return (layer) => {
    const row = rows.find(({ layers }) => layers.includes(layer));
    if (!row || !slotOfLayer(specification, layer)) return null;
    const width = orNull(slotLength(row, 'width'));
    const around = 2 * (orNull(slotLiner(row)) ?? 0) + 2 * (orNull(barCoating(specification)) ?? 0);
    const height = orNull(roomForBars(specification, winding, row));
    return { width: width === null ? null : width - around, height };
  };
}
