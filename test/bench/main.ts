import { readFileSync, statSync } from 'node:fs';
import { getLanguageService, type JSONSchema, TextDocument } from 'vscode-json-languageservice';
import { type Connector, connectNow } from '../../core/facts/connection.ts';
import type { Steps } from '../../core/figures/steps.ts';
import type { Measurer } from '../../core/figures/work.ts';
import { checkText } from '../../core/findings/checkedText.ts';
import { reportSchema } from '../../core/report/schema.ts';
import { type RouteOptions, route } from '../../core/routing/route.ts';
import { buildSpace } from '../../core/space/buildSpace.ts';
import { clearanceSteps } from '../../core/space/clearance/clearance.ts';
import { endInductanceSteps } from '../../core/space/inductance/endInductance.ts';
import { study, studyOf } from '../../core/study.ts';
import { solidsOf } from '../../core/views/space/solids.ts';
import type { Winding } from '../../core/winding/model.ts';
import { createBackgroundConnector } from '../../extension/engine/backgroundConnector.ts';
import { createBackgroundMeasurer } from '../../extension/engine/backgroundMeasurer.ts';
import { moreRoutingCases, routingCases, witnesses } from '../routing/routingCases.ts';
import { machine } from '../winding/windings.ts';
import { activationTimes } from './activation.ts';
import { longestSteps } from './cancel.ts';
import { type Figure, figureLine, missed, verdict } from './ledger.ts';
import { frameCosts, liveCases, solidsOfText } from './liveSpace.ts';
import { type TypedText, type Typing, typingCosts } from './loop.ts';
import { medianTime, processorTimes, type Work } from './measure.ts';
import { redraws, redrawTimes } from './panel.ts';
import { benchProgram } from './program.ts';
import { questionsOf } from './questions.ts';
import { spectrumRace, withoutSymmetry } from './spectrum.ts';
import { benchVariants } from './variants.ts';

// Each budget of the project beside what this machine shows. Times are medians; ratios are of processor time, taken
// by turns with a reference in the same process.

const figures: Figure[] = [];

function tell(figure: Figure): void {
  figures.push(figure);
  console.log(figureLine(figure));
}

/** A time in milliseconds, told beside its budget. */
function tellTime(what: string, value: number | null, budget: number | null, note = ''): void {
  tell({ what, kind: 'time', value, budget, note });
}

/** Leaves what takes its time to the turns between keys. */
const later: Measurer = () => null;

/** What a keystroke needs: findings, factors, MMF and the layout picture. */
function keystroke(text: string, connector: Connector, measurer: Measurer): void {
  const studied = studyOf(checkText(text, connector, measurer));
  studied.findings.length;
  studied.factorRows();
  studied.keyFigures();
  studied.layoutPicture();
}

function windingText(slots: number, poles: number, layers: number, span: number): string {
  return `winding "Bench"\nmachine { slots ${slots} poles ${poles} phases 3 }\nlayout { layers ${layers} span ${span} }\nconnect { star }\n`;
}

/** A schema as strict as the language: every key known and required, every number in a range. */
function schemaOf(value: unknown): JSONSchema {
  if (Array.isArray(value))
    return { type: 'array', items: value.length > 0 ? { anyOf: value.slice(0, 3).map(schemaOf) } : {} };
  if (typeof value === 'object' && value !== null) {
    const properties = Object.fromEntries(
      Object.entries(value).map(([key, member]) => [key, schemaOf(member)]),
    );
    return { type: 'object', properties, required: Object.keys(properties), additionalProperties: false };
  }
  if (typeof value === 'number') return { type: 'number', minimum: -1e12, maximum: 1e12 };
  if (typeof value === 'string') return { type: 'string', minLength: 0, maxLength: 10_000 };
  return {};
}

/** A text and the data it holds that change with nothing else, so that figures of different days can be compared. */
const stator = readFileSync('test/bench/stator.winding', 'utf8');
const statorData = JSON.stringify(JSON.parse(readFileSync('test/bench/stator.json', 'utf8')));

/** What an editor does with a text of that size anyway: a language service parses and checks it. */
function reference(): Work {
  const service = getLanguageService({});
  const schema = schemaOf(JSON.parse(statorData));
  let n = 0;
  return async () => {
    const document = TextDocument.create('file:///bench.json', 'json', n++, statorData);
    await service.doValidation(document, service.parseJSONDocument(document), {}, schema);
  };
}

/**
 * A keystroke in a text as in the editor: paths that have been found and bar ends that have been measured between keys
 * are kept, all else is computed anew. Each work changes the text in another way.
 */
async function typing(text: string, change: (n: number) => string = (n) => `${text}# ${n}\n`): Promise<Work> {
  let n = 0;
  const surroundings = { now: () => performance.now(), later: setImmediate };
  const { connect } = createBackgroundConnector(surroundings, () => {});
  const measurer = createBackgroundMeasurer(surroundings, () => {});
  const settled = () => {
    const { pending, measuring } = checkText(text, connect, measurer);
    return !pending && !measuring;
  };
  while (!settled()) await new Promise(setImmediate);
  return () => keystroke(change(n++), connect, measurer);
}

/** What one types: what it leaves as it was is kept, so that each kind of edit has a row of its own. */
const titleLetter = (n: number) => stator.replace('stator B', `stator B${'x'.repeat(n % 40)}`);
const machineDigit =
  (text = stator) =>
  (n: number) =>
    text.replace('current 210', `current ${200 + (n % 60)}`);

/** A hop of a written path, to where it must not go and back. */
function pathHop(): (n: number) => string {
  const edit = checkText(stator).writeOutPaths();
  if (edit === null) throw new Error('a bench text whose paths are not found');
  const written = stator.slice(0, edit.range.start) + edit.text + stator.slice(edit.range.end);
  const wrong = written.replace(/([+-])6([a-d])/, '$17$2');
  if (wrong === written) throw new Error('a bench text without a hop to change');
  return (n) => `${n % 2 === 0 ? wrong : written}# ${n}\n`;
}

/** The same machine grown to so many slots, of the same pitch and frequency, with two layers. */
function grownStator(slots: number): string {
  const times = slots / 48;
  return [
    ['slots   48', `slots ${slots}`],
    ['poles   8', `poles ${8 * times}`],
    ['bore    162 mm', `bore ${162 * times} mm`],
    ['speed   3600 rpm', `speed ${3600 / times} rpm`],
    ['voltage 400 V', `voltage ${400 * times} V`],
    ['depth   15.2 mm', 'depth 8.4 mm'],
    ['layers 4', 'layers 2'],
  ].reduce((text, [before, after]) => {
    if (!text.includes(before!)) throw new Error(`no '${before}' in the bench text`);
    return text.replace(before!, after!);
  }, stator);
}

async function benchKeystroke(): Promise<void> {
  const typed = await typing(stator, titleLetter);
  const digit = await typing(stator, machineDigit());
  const hop = await typing(stator, pathHop());
  const json = reference();
  const [large, middling] = await Promise.all(
    [2400, 600].map((slots) => typing(grownStator(slots), machineDigit(grownStator(slots)))),
  );
  tellTime('reference: a JSON language service on the same data', await medianTime(json), null);
  tellTime('keystroke, 48 slots, 4 layers', await medianTime(typed), 3);
  let n = 0;
  const anew = await medianTime(() => keystroke(`${stator}# ${n++}\n`, connectNow, later));
  tellTime('  with its paths found anew', anew, null);
  tellTime('keystroke, 2400 slots, 2 layers', await medianTime(large!, 7), 60);
  const scattered = windingText(2397, 2 * 17, 2, 70).replace(' }', ' current 210 A }');
  const fractional = await typing(scattered, machineDigit(scattered));
  tellTime('keystroke, 2397 slots, 34 poles (fractional)', await medianTime(fractional, 7), 60);
  const asked = await questionsOf(stator, machineDigit());
  const [own, other] = (await processorTimes(typed, json)) as [number, number];
  const [ofDigit, ofHop, again] = (await processorTimes(digit, hop, json)) as [number, number, number];
  const [less, most, some] = (await processorTimes(digit, large!, middling!)) as [number, number, number];
  const [plain, answered] = (await processorTimes(digit, asked)) as [number, number];
  tellRatio('a key with all that the editor asks behind it, against it alone', answered / plain, 3);
  tellRatio('keystroke, 48 slots, 4 layers, a letter of the title, against the reference', own / other, 2);
  tellRatio('  a digit of the machine', ofDigit / again, 2);
  tellRatio('  a hop of a path', ofHop / again, 2);
  tellRatio('a digit of the machine, 2400 slots, 2 layers, against 48 slots, 4 layers', most / less, 15);
  const allowed = (4 * Math.log2(2400)) / Math.log2(600);
  tellRatio('  growth from 600 to 2400 slots (Q log Q)', most / some, allowed);
}

function tellRatio(what: string, value: number, budget: number): void {
  tell({ what, kind: 'ratio', value, budget });
}

async function benchSpectrum(): Promise<void> {
  for (const slots of [48, 480, 2400]) {
    const { winding } = study(windingText(slots, slots / 6, 2, 6));
    await benchFactors(`factors of all orders, ${slots} slots, against an FFT`, winding!);
    await benchFactors(`  the same without symmetry, ${slots} slots`, withoutSymmetry(winding!));
  }
}

async function benchFactors(what: string, winding: Winding): Promise<void> {
  const race = spectrumRace(winding);
  const often = (work: Work) => () => {
    for (let i = 0; i < 50; i++) work();
  };
  const [own, library] = (await processorTimes(often(race.own), often(race.library))) as [number, number];
  tell({ what, kind: 'ratio', value: own / library, budget: 4, note: `${(own / 50).toFixed(4)} ms` });
}

async function benchPanel(): Promise<void> {
  const browser = process.env.SLOTWRIGHT_CHROMIUM;
  if (!browser) {
    tellTime('panel redraw', null, null, 'needs a Chromium');
    return;
  }
  const cases = [
    { bars: 288, budgets: [8, 33], times: 45 },
    { bars: 4800, budgets: [50, 400], times: 18 },
  ];
  for (const { bars, budgets, times } of cases) {
    const list = redraws(bars / 4);
    const [opened, fitted] = [
      await redrawTimes(browser, list, times, 'height'),
      await redrawTimes(browser, list, times, 'whole'),
    ];
    for (const [index, { what }] of list.entries()) {
      const { inView, all } = opened[index]!;
      tellTime(
        `panel redraw, ${bars} bars, ${what} changes: to the frame with what is in view`,
        inView,
        budgets[index]!,
      );
      tellTime('  until the rest is painted too, in pauses', all, null);
      tellTime('  to the frame with all of it in view', fitted[index]!.inView, budgets[index]!);
    }
  }
}

/** The bars in space live: making their surfaces, and a frame without a graphics processor. */
async function benchLiveSpace(): Promise<void> {
  const list = liveCases.map(({ text }) => solidsOfText(text));
  for (const { what, text } of liveCases) {
    const { facts } = checkText(text, connectNow, () => null);
    const time = await medianTime(() => solidsOf(facts!));
    tellTime(`surfaces of the bars in space, ${what}`, time, null);
  }
  const browser = process.env.SLOTWRIGHT_CHROMIUM;
  if (!browser) {
    tellTime('a frame of the bars in space', null, null, 'needs a Chromium');
    return;
  }
  const costs = await frameCosts(browser, list);
  costs.forEach(({ frame, calls, triangles }, index) => {
    const note = `${calls} draw calls, ${triangles} triangles`;
    tellTime(`a frame of the bars in space, ${liveCases[index]!.what}`, frame, null, note);
  });
}

/** The whole loop: keys at full speed, the extension, messages, the panel's page in a browser. */
async function benchLoop(): Promise<void> {
  const browser = process.env.SLOTWRIGHT_CHROMIUM;
  if (!browser) {
    tellTime('typing with the panel open', null, null, 'needs a Chromium');
    return;
  }
  const large = windingText(480, 80, 4, 6);
  const longer = (text: string, title: string) => (letters: number) =>
    text.replace(title, `${title}${'x'.repeat(letters % 40)}`);
  const turned = (letters: number) =>
    letters % 2 === 0 ? stator : stator.replace('poles   8', 'poles   16').replace('span   6', 'span   3');
  const cases: readonly (TypedText & {
    readonly what: string;
    readonly most: number;
    readonly wait: number;
  })[] = [
    {
      what: '48 x 4, title',
      text: stator,
      after: longer(stator, 'stator B'),
      letters: 1000,
      most: 4,
      wait: 100,
    },
    { what: '480 x 4, title', text: large, after: longer(large, 'Bench'), letters: 200, most: 4, wait: 400 },
    { what: '48 x 4, every bar', text: stator, after: turned, letters: 101, most: 120, wait: 100 },
  ];
  const costs = await typingCosts(browser, cases);
  for (const [index, one] of cases.entries()) tellTyping(one.what, costs[index]!, one.most, one.wait);
}

function tellTyping(what: string, cost: Typing, most: number, wait: number): void {
  const { letters, messages, bytes, largest } = cost;
  const all = `${(bytes / 1000).toFixed(0)} kB`;
  tell({
    what: `messages for ${letters} letters, ${what}`,
    kind: 'count',
    value: messages,
    budget: letters,
    note: all,
  });
  tell({ what: `  largest message, ${what}`, kind: 'size', value: largest / 1000, budget: most });
  tellTime('  last key to its frame', cost.lastKeyToFrame, wait);
  tellTime('  a single key to its frame', cost.keyToFrame, wait);
  tell({ what: '  growth of the extension host', kind: 'size', value: cost.memory / 1000, budget: null });
}

function benchActivation(): void {
  const alone = activationTimes('');
  tellTime('activation with an empty text open', alone.activated, 50);
  tellTime('  reading its bundle', alone.loaded, null);
  const open = activationTimes(stator);
  tellTime('  with the 48-slot text open', open.activated, 50);
  tellTime('  reading the engine and the first study of that text, after that', open.studied, null);
}

async function benchRouter(): Promise<void> {
  const cases: readonly (readonly [slots: number, poles: number, layers: number, paths: number])[] = [
    [48, 8, 4, 2],
    [48, 8, 8, 4],
    [72, 8, 8, 4],
    [54, 6, 8, 3],
    [96, 16, 4, 8],
    [12, 10, 2, 2],
    [288, 32, 8, 8],
  ];
  for (const [slots, poles, layers, paths] of cases) {
    const span = Math.max(1, Math.floor(slots / poles));
    const { winding } = study(windingText(slots, poles, layers, span));
    const times: number[] = [];
    for (const wishes of [[], ['joints']] as const) {
      const start = performance.now();
      route(winding!, { paths, wishes });
      times.push(performance.now() - start);
    }
    const what = `paths: ${slots} slots, ${poles} poles, ${layers} layers, ${paths} paths`;
    tellTime(what, times[0]!, null, `fewest joints ${times[1]!.toFixed(0)} ms`);
  }
}

/** The bars of a text in space, and what is measured of them, as work and as work in slices. */
function spaceWorks(text: string) {
  const { facts, winding } = study(text);
  const built = facts!.space().space;
  const connection = facts!.connection;
  if (!built.known || connection.kind !== 'connected') throw new Error('a bench text without bars in space');
  const { paths } = connection.facts;
  const specification = facts!.specification;
  const input = { specification, winding: winding!, connections: connection.facts.joints() };
  const clearances = () => clearanceSteps(built.value, { bars: 6e-4, pieces: 6e-4 });
  const inductances = function* () {
    for (const against of ['ends', 'images'] as const)
      yield* endInductanceSteps(built.value, paths, winding!.table.cells, against);
  };
  const whole = (steps: () => Steps<unknown>) => () => {
    for (const _ of steps());
  };
  return {
    build: () => buildSpace(input),
    slices: { clearances, inductances },
    clearances: whole(clearances),
    inductances: whole(inductances),
  };
}

/** The usual one of the longest times between two places where some work gives way, ms: what is left of another may be cleared away in any. */
function usualLongestSlice(work: () => Steps<unknown>): number {
  const longest = Array.from({ length: 7 }, () => longestSlice(work())).sort((a, b) => a - b);
  return longest[3]!;
}

function longestSlice(steps: Steps<unknown>): number {
  let longest = 0;
  for (let from = performance.now(); ; ) {
    const { done } = steps.next();
    const now = performance.now();
    longest = Math.max(longest, now - from);
    if (done) return longest;
    from = now;
  }
}

/** Bars in space: pieces and lengths with a keystroke, clearances and inductance in slices beside it. */
async function benchSpace(): Promise<void> {
  const own = spaceWorks(stator);
  const twice = spaceWorks(
    stator
      .replace('slots   48', 'slots   96')
      .replace('poles   8', 'poles   16')
      .replace('bore    162 mm', 'bore    324 mm'),
  );
  tellTime('bars in space, 48 slots, 4 layers: pieces and lengths', await medianTime(own.build), 3);
  for (const of of ['clearances', 'inductances'] as const) {
    tellTime(
      `${of} of the bar ends, 48 slots, 4 layers`,
      await medianTime(own[of], 5),
      100,
      '500 ms at most',
    );
    tellTime('  its longest slice', usualLongestSlice(own.slices[of]), 8);
    const [small, large] = (await processorTimes(own[of], twice[of])) as [number, number];
    tellRatio('  growth from 48 to 96 slots (linear)', large / small, 2.5);
  }
}

/** How soon a press on Cancel is heard while files are made. */
async function benchCancel(): Promise<void> {
  const bent = stator.replace('end-straight 6 mm', 'end-straight 6 mm\n  bend-radius 4 mm');
  for (const [name, text] of [
    ['48 slots, 4 layers', bent],
    ['480 slots, 8 layers', windingText(480, 80, 8, 6)],
  ] as const) {
    const steps = await longestSteps(text);
    const { what, time } = steps.reduce((a, b) => (b.time > a.time ? b : a));
    tellTime(`longest step of an export, ${name}`, time, 200, what);
  }
}

/** Processor time of finding paths: of the common stator with any number of paths, and of the slowest known machine. */
async function benchWaitForPaths(): Promise<void> {
  const spent = (winding: Winding, paths: number, options: Omit<RouteOptions, 'paths'> = {}): number => {
    const start = process.cpuUsage();
    route(winding, { paths, ...options });
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  };
  const common = machine({ slots: 48, poles: 8, layers: 4 });
  const usual = [1, 2, 4].map((paths) => Math.min(...[1, 2, 3].map(() => spent(common, paths))));
  tellTime('paths of 48 slots, 4 layers, the slowest of 1, 2 and 4 paths', Math.max(...usual), 50);
  const cases = [...routingCases, ...moreRoutingCases].map((each) => ({ ...each, options: {} }));
  const known = [...cases, ...witnesses].map(({ machine: request, paths, options }) => ({
    name: `${request.slots}/${request.poles}, ${request.layers} layers, ${paths} paths`,
    time: spent(machine(request), paths, options),
  }));
  const slowest = known.reduce((a, b) => (b.time > a.time ? b : a));
  tellTime(`paths of ${known.length} known machines, the slowest`, slowest.time, 500, slowest.name);
}

/** The largest each file that users load may be, in kB. */
const sizes: readonly (readonly [string, number])[] = [
  ['dist/extension/host.js', 30],
  ['dist/extension/shared.js', 523],
  ['dist/extension/onDemand.js', 630],
  ['dist/extension/tableReader.js', 45],
  ['dist/extension/panel.js', 80],
  ['dist/extension/space.js', 600],
  ['dist/extension/variants.js', 60],
];

function benchSizes(): void {
  for (const [file, budget] of sizes)
    tell({ what: file, kind: 'size', value: statSync(file).size / 1000, budget });
}

async function benchReport(): Promise<void> {
  const time = await medianTime(() => reportSchema.parse(study(stator).report()));
  tellTime('report, 48 slots, 4 layers, checked against its schema', time, null);
}

async function main(): Promise<void> {
  console.log(`\nNode ${process.version}. Times are medians on this machine; ratios hold on any.\n`);
  // First, as V8 makes all spectra among what is old once many were kept, which those of this race are not.
  await benchSpectrum();
  await benchKeystroke();
  await benchPanel();
  await benchLiveSpace();
  await benchLoop();
  benchActivation();
  await benchRouter();
  await benchWaitForPaths();
  await benchReport();
  benchVariants(stator, tell);
  await benchSpace();
  await benchCancel();
  benchProgram(stator, tell);
  benchSizes();
  console.log(`\n${verdict(figures)}`);
  if (missed(figures).length > 0) process.exitCode = 1;
}

main();
