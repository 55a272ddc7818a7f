import { connectWinding } from '../facts/connect.ts';
import { type ConnectionState, type Connector, connectionOf, routeOptions } from '../facts/connection.ts';
import { type Facts, gatherFacts } from '../facts/facts.ts';
import { createWhole, type Whole, workStore } from '../facts/workFirst.ts';
import { checkCopper } from '../findings/copper/rules.ts';
import { limitMargin } from '../findings/limits.ts';
import { rules } from '../findings/rules.ts';
import type { Finding } from '../language/finding.ts';
import { itemText } from '../language/specification/series.ts';
import type { Measure, RequiredLimit, Specification } from '../language/specification/specification.ts';
import type { SeriesItem } from '../language/text/document.ts';
import { type RouteResult, routeSteps } from '../routing/route.ts';
import { withinLimits } from '../routing/withinLimits.ts';
import { type DerivedWinding, deriveWinding, layoutRefusal } from '../winding/derive.ts';
import type { Winding } from '../winding/model.ts';
import { builder } from './build.ts';
import { type Holding, holding } from './hold.ts';
import { figureOf, reachOf, reasonMissing } from './measures.ts';
import { type Place, placesOf, type Setting } from './places.ts';
import { digitsOf, measureName, type Question } from './question.ts';

/** What became of a candidate. Figures are those of the question's measures, null where missing. */
export type Verdict =
  | { readonly kind: 'refused'; readonly reason: string }
  | { readonly kind: 'left-out' }
  | { readonly kind: 'kept'; readonly figures: readonly (number | null)[] };

/** Judges the candidates of a question by the study's own functions. */
export interface Evaluator {
  readonly question: Question;
  readonly holding: Holding;
  /** The file itself makes a winding, from which to count. */
  readonly hasBase: boolean;
  /** Whether whole studies are made, with paths, of candidates that their layout does not leave out. */
  readonly wholeAsked: boolean;
  /** What tells the layouts of candidates apart: candidates of one key are in one shard. */
  readonly layoutKey: (number: number) => string;
  /** By the layout alone; null where the whole winding decides. */
  readonly byLayout: (number: number) => Verdict | null;
  /** By the whole winding; gives way while paths are being found. */
  readonly byWhole: (number: number) => Generator<undefined, Verdict>;
  /** All values a candidate's text has in place of those of the file: of its rows, and what follows. */
  readonly settings: (number: number) => readonly Setting[] | null;
  /** The values of its rows, resolved: `layout span 5`; null where it is refused before it has any. */
  readonly values: (number: number) => readonly SeriesItem[] | null;
  /** What is known of a candidate before its bars are joined; null where it makes no winding. */
  readonly layoutFacts: (number: number) => Facts | null;
  /** How each limit of the require block stands, null where it is not known; and why figures are missing. */
  readonly look: (number: number) => Generator<undefined, Looked>;
}

/** What is told of a row beside its figures. */
export interface Looked {
  readonly limits: readonly (boolean | null)[];
  readonly missing: Readonly<Record<string, string>>;
}

const inSpace = new Set(['end-clearance-left', 'end-inductance']);

const leftOut: Verdict = { kind: 'left-out' };
const refused = (reason: string): Verdict => ({ kind: 'refused', reason });

/** Layouts, tables, connections and work kept, so that what is equal is computed once. */
const mostLayouts = 4096;
const mostConnections = 256;
const mostWork = 32;

// Words of the machine that the slot table or its findings depend on; all of layout and connect do.
const derivingWords = new Set([
  'slots',
  'poles',
  'phases',
  'gap',
  'air-gap',
  'magnet-height',
  'speed',
  'frequency',
  'rotor-skew',
]);
const none: ConnectionState = { kind: 'none', why: 'not-said' };
const layoutRules = rules.filter(({ name }) =>
  ['balance of the phases', 'layers of slots and bars'].includes(name),
);

interface Layout {
  readonly verdict: Verdict | null;
  readonly winding: Winding | null;
  readonly paths: DerivedWinding['paths'];
  /** Values of the measures that follow from the layout. */
  readonly figures: ReadonlyMap<number, number | null>;
}

/** The evaluator of a question without errors. */
export function evaluator(question: Question): Evaluator {
  const { document, specification: base, rows, measures, keeps } = question;
  const build = builder(document, base);
  const baseWinding = deriveWinding(base).winding;
  const held = holding(question, baseWinding ? { specification: base, winding: baseWinding } : null, build);
  const columns = rows.flatMap(({ columns: held }, row) => held.map((column) => ({ column, row })));
  const places: readonly (readonly Place[])[] = columns.map(({ column }) => placesOf(document, column.word));
  const derives = columns.map(
    ({ column: { word } }) =>
      word.entry.block === 'layout' ||
      word.entry.block === 'connect' ||
      (word.entry.block === 'machine' && derivingWords.has(word.entry.word)),
  );
  const derivingRows = rows.map((_, row) => columns.some((each, at) => each.row === row && derives[at]));
  const limits: readonly RequiredLimit[] = [
    ...keeps.flatMap((keep) => keep ?? []),
    ...(keeps.includes(null) ? base.limits.map(({ value }) => value) : []),
  ];
  const of = (reach: string, each: readonly Measure[]) => each.some((measure) => reachOf(measure) === reach);
  const wholeAsked = of('whole', measures) || of('whole', limits);
  const openingAsked = of('opening', measures) || of('opening', limits);
  const store = workStore(mostWork);
  const layouts = new Map<number, Layout>();
  const tables = new Map<string, ReadonlyMap<number, number | null>>();
  const connections = new Map<string, { readonly result: RouteResult; readonly state: ConnectionState }>();

  /** The number of a candidate's layout, and its digits. */
  const layoutNumber = (digits: readonly number[]): number => {
    let number = 0;
    for (let row = 0; row < rows.length; row++)
      if (derivingRows[row]) number = number * rows[row]!.count + digits[row]!;
    return number;
  };

  const resolved = (digits: readonly number[]): readonly SeriesItem[] | string => {
    const items = columns.map(({ column, row }) => column.values[digits[row]!]!);
    if (!items.some(({ kind }) => kind === 'nominal')) return items;
    const count = (word: string): number | null => {
      const at = columns.findIndex(({ column }) => column.name === `machine ${word}`);
      const item = items[at];
      if (item?.kind === 'number') return Number(item.text);
      return base.machine?.[word as 'slots' | 'poles']?.value ?? null;
    };
    const [slots, poles] = [count('slots'), count('poles')];
    if (slots === null || poles === null) return 'no-pole-pitch';
    const pitch = Math.max(1, Math.round(slots / poles));
    const out = items.map((item) =>
      item.kind === 'nominal'
        ? ({ kind: 'number', text: String(pitch + item.offset), unit: null, range: item.range } as const)
        : item,
    );
    return out.some(
      (item, at) => items[at]!.kind === 'nominal' && item.kind === 'number' && Number(item.text) < 1,
    )
      ? 'span-below-1'
      : out;
  };
  const settingsOf = (items: readonly SeriesItem[], derivingOnly: boolean): Setting[] =>
    items.flatMap((item, at) =>
      derivingOnly && !derives[at] ? [] : places[at]!.map((place) => ({ place, text: itemText(item) })),
    );

  const valuesOf = (facts: Facts, reach: string): Map<number, number | null> => {
    const out = new Map<number, number | null>();
    measures.forEach((measure, at) => {
      if (reachOf(measure) === reach) out.set(at, figureOf(measure, facts));
    });
    return out;
  };
  const allOf: readonly Measure[] = [...measures, ...limits];
  /** Values of measures, and behind them of limits, that follow from the layout. */
  const layoutFigures = (facts: () => Facts, winding: Winding): ReadonlyMap<number, number | null> => {
    const key = tableKey(winding);
    const known = tables.get(key);
    if (known) return known;
    const figures = new Map<number, number | null>();
    allOf.forEach((measure, at) => {
      if (reachOf(measure) === 'layout') figures.set(at, figureOf(measure, facts()));
    });
    if (tables.size >= mostLayouts) tables.clear();
    tables.set(key, figures);
    return figures;
  };
  const meets = (limit: RequiredLimit, value: number | null) =>
    value !== null && limitMargin(limit, value) >= 0;

  const makeLayout = (digits: readonly number[]): Layout => {
    const nothing = (reason: string): Layout => ({
      verdict: refused(reason),
      winding: null,
      paths: null,
      figures: new Map(),
    });
    const items = resolved(digits);
    if (typeof items === 'string') return nothing(items);
    const specification = build(settingsOf(items, true));
    const { winding, paths, findings } = deriveWinding(specification);
    const error = findings.find(({ severity }) => severity === 'error');
    if (error || !winding) return nothing(error ? reasonOf(error, specification) : 'no-winding');
    let made: Facts | null = null;
    const facts = () => {
      made ??= gatherFacts(specification, winding, none);
      return made;
    };
    const figures = layoutFigures(facts, winding);
    if (!facts().balance().balanced) return nothing('phases-unbalanced');
    const fails = limits.some(
      (limit, at) => reachOf(limit) === 'layout' && !meets(limit, figures.get(measures.length + at) ?? null),
    );
    const verdict: Verdict | null = fails
      ? leftOut
      : wholeAsked || openingAsked
        ? null
        : { kind: 'kept', figures: measures.map((_, at) => figures.get(at) ?? null) };
    return { verdict, winding, paths, figures };
  };
  const layoutAt = (digits: readonly number[]): Layout => {
    const number = layoutNumber(digits);
    const known = layouts.get(number);
    if (known) return known;
    if (layouts.size >= mostLayouts) layouts.clear();
    const layout = makeLayout(digits);
    layouts.set(number, layout);
    return layout;
  };

  /** The whole text of a candidate, as said: with the values of its rows, and what follows from them. */
  const wholeText = (digits: readonly number[], winding: Winding): Specification => {
    const settings = settingsOf(resolved(digits) as readonly SeriesItem[], false);
    const specification = build(settings);
    const follows = held.follow(settings, specification, winding);
    return follows.length === 0 ? specification : build([...settings, ...follows]);
  };
  function* connected(specification: Specification, layout: Layout): Generator<undefined, ConnectionState> {
    const winding = layout.winding!;
    let asked: Parameters<Connector>[1] | null = null;
    const pending: Connector = (_, request) => {
      asked = request;
      return { kind: 'pending' };
    };
    const state = connectWinding(specification, winding, layout.paths, pending, store);
    if (asked === null) return state;
    const request: Parameters<Connector>[1] = asked;
    // Limits that the whole winding tells choose among what is found, and only that is shared.
    const plain = { ...request, judge: null };
    const key = `${tableKey(winding)} ${JSON.stringify(plain)}`;
    let known = connections.get(key);
    if (!known) {
      const result = yield* routeSteps(winding, routeOptions(plain));
      known = { result, state: connectionOf(winding, plain, result) };
      if (connections.size >= mostConnections) connections.clear();
      connections.set(key, known);
    }
    const { result, state: shared } = known;
    if (request.judge === null || !result.ok) return shared;
    const chosen = yield* withinLimits(winding, routeOptions(request), result);
    return chosen === result ? shared : connectionOf(winding, request, chosen);
  }
  function* wholeFacts(number: number): Generator<undefined, Whole | Verdict> {
    const digits = digitsOf(question, number);
    const layout = layoutAt(digits);
    if (!layout.winding) return layout.verdict!;
    const specification = wholeText(digits, layout.winding);
    const connection = yield* connected(specification, layout);
    if (connection.kind === 'refused') return refused(`route-refused: ${connection.reason.kind}`);
    const { winding } = layout;
    // Work on the bars in space is done in steps, between two readings of what asked for it.
    const whole = createWhole((measurer) => gatherFacts(specification, winding, connection, measurer), store);
    const error = yield* whole.read((facts) => errorOf(facts));
    return error ? refused(error.code) : whole;
  }

  return {
    question,
    holding: held,
    hasBase: baseWinding !== null,
    wholeAsked,
    layoutKey: (number) => {
      const digits = digitsOf(question, number);
      let key = '';
      columns.forEach(({ column, row }, at) => {
        if (derives[at]) key += `${itemText(column.values[digits[row]!]!)} `;
      });
      return key;
    },
    byLayout: (number) => {
      const digits = digitsOf(question, number);
      const layout = layoutAt(digits);
      if (layout.verdict !== null || wholeAsked) return layout.verdict;
      // The openings of the slots count too, but no paths.
      const specification = wholeText(digits, layout.winding!);
      const facts = gatherFacts(specification, layout.winding!, none);
      const fails = limits.some(
        (limit) => reachOf(limit) === 'opening' && !meets(limit, figureOf(limit, facts)),
      );
      if (fails) return leftOut;
      const figures = valuesOf(facts, 'opening');
      return {
        kind: 'kept',
        figures: measures.map((_, at) => figures.get(at) ?? layout.figures.get(at) ?? null),
      };
    },
    *byWhole(number) {
      const whole = yield* wholeFacts(number);
      if ('kind' in whole) return whole;
      for (const limit of limits) {
        if (reachOf(limit) === 'layout') continue;
        if (!meets(limit, yield* whole.read((facts) => figureOf(limit, facts)))) return leftOut;
        yield;
      }
      const layout = layoutAt(digitsOf(question, number));
      const figures: (number | null)[] = [];
      for (const [at, measure] of measures.entries()) {
        const known = layout.figures.get(at);
        figures.push(known === undefined ? yield* whole.read((facts) => figureOf(measure, facts)) : known);
        yield;
      }
      return { kind: 'kept', figures };
    },
    settings: (number) => {
      const digits = digitsOf(question, number);
      const layout = layoutAt(digits);
      const items = resolved(digits);
      if (!layout.winding || typeof items === 'string') return null;
      const settings = settingsOf(items, false);
      return [...settings, ...held.follow(settings, build(settings), layout.winding)];
    },
    values: (number) => {
      const items = resolved(digitsOf(question, number));
      return typeof items === 'string' ? null : items;
    },
    layoutFacts: (number) => {
      const digits = digitsOf(question, number);
      const { winding } = layoutAt(digits);
      return winding && gatherFacts(wholeText(digits, winding), winding, none);
    },
    *look(number) {
      const whole = yield* wholeFacts(number);
      const required = base.limits.map(({ value }) => value);
      if ('kind' in whole) return { limits: required.map(() => null), missing: {} };
      const out: (boolean | null)[] = [];
      for (const limit of required) {
        // What takes bars against bars in space is looked at only where it is to be kept.
        const skipped = inSpace.has(limit.entry.word) && !keeps.includes(null);
        const value = skipped ? null : yield* whole.read((facts) => figureOf(limit, facts));
        out.push(value === null ? null : limitMargin(limit, value) >= 0);
        yield;
      }
      const missing: Record<string, string> = {};
      for (const measure of measures) {
        const reason = yield* whole.read((facts) => reasonMissing(measure, facts));
        if (reason !== null) missing[measureName(measure)] = reason;
      }
      return { limits: out, missing };
    },
  };

  function errorOf(facts: Facts): Finding | undefined {
    const findings = layoutRules.flatMap(({ check }) => check(facts));
    return [...findings, ...checkCopper(facts)].find(({ severity }) => severity === 'error');
  }
}

/** Why the language refuses a candidate: the code of the finding, and for layouts what kind of refusal. */
function reasonOf({ code }: Finding, specification: Specification): string {
  const kind = code === 'layout-refused' ? layoutRefusal(specification)?.kind : undefined;
  return kind === undefined ? code : `${code}: ${kind}`;
}

/** What equal slot tables with equal skews have in common. */
function tableKey({
  slots,
  poles,
  phases,
  layers,
  lean,
  rotorSkew,
  parallelPaths,
  table,
  origin,
}: Winding): string {
  const laid = origin.kind === 'generated' ? `${origin.span} ${origin.stagger} ${origin.belt}` : origin.kind;
  let cells = '';
  for (const cell of table.cells) cells += String.fromCharCode(200 + cell);
  return `${slots} ${poles} ${phases.names.length} ${phases.axes.join()} ${layers} ${lean.join()} ${rotorSkew.angle} ${rotorSkew.steps} ${parallelPaths} ${laid} ${cells}`;
}
