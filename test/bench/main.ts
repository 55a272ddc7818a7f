import { execFileSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { getLanguageService, type JSONSchema, TextDocument } from 'vscode-json-languageservice';
import { type Connector, connectNow } from '../../core/facts/connection.ts';
import { specify } from '../../core/language/specification/specify.ts';
import { parse } from '../../core/language/text/parser.ts';
import { reportSchema } from '../../core/report/schema.ts';
import { route } from '../../core/routing/route.ts';
import { study } from '../../core/study.ts';
import type { Winding } from '../../core/winding/model.ts';
import { createBackgroundConnector } from '../../extension/backgroundConnector.ts';
import { activationTimes } from './activation.ts';
import { type TypedText, type Typing, typingCosts } from './loop.ts';
import { redraws, redrawTimes } from './panel.ts';
import { spectrumRace, withoutSymmetry } from './spectrum.ts';

// Each budget as a median in milliseconds, beside a reference run in the same process where there is one.

type Work = () => unknown;

/** Median of at least `least` runs and half a second, after a second of warming up: an editor types for hours. */
async function median(work: Work, least = 15): Promise<number> {
  await runFor(1000, 5, work);
  return middle(await runFor(500, least, work));
}

/** Medians of works that are compared, run by turns in short stretches: what else the machine does slows all of them. */
async function medians(...works: readonly Work[]): Promise<readonly number[]> {
  for (const work of works) await runFor(1000, 5, work);
  const times = works.map((): number[] => []);
  for (let stretch = 0; stretch < 10; stretch++)
    for (const [index, work] of works.entries()) times[index]!.push(...(await runFor(100, 3, work)));
  return times.map(middle);
}

/** Times of the runs in so many milliseconds, at least `least` of them. */
async function runFor(duration: number, least: number, work: Work): Promise<readonly number[]> {
  const times: number[] = [];
  const end = performance.now() + duration;
  while (times.length < least || performance.now() < end) {
    const start = performance.now();
    await work();
    times.push(performance.now() - start);
  }
  return times;
}

function middle(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[times.length >> 1]!;
}

function row(what: string, figure: string, budget: string, met: boolean | null): void {
  const verdict = met === null ? '' : met ? 'within' : 'OVER';
  console.log(`${what.padEnd(62)} ${figure.padStart(14)}   ${budget.padEnd(40)} ${verdict}`);
}

const milliseconds = (time: number) => `${time.toFixed(time < 0.1 ? 4 : time < 10 ? 2 : 0)} ms`;

/** What a keystroke needs: findings, factors, MMF and the layout picture. */
function keystroke(text: string, connector: Connector = connectNow): void {
  const studied = study(text, connector);
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

async function benchKeystroke(): Promise<void> {
  const text = readFileSync('examples/harbor-ferry-pod-drive.winding', 'utf8');
  let n = 0;
  const connector = createBackgroundConnector(
    { now: () => performance.now(), later: setImmediate },
    () => {},
  );
  keystroke(text, connector);
  await new Promise((resolve) => setTimeout(resolve, 500));
  const service = getLanguageService({});
  const report = JSON.stringify(specify(parse(text)));
  const schema = schemaOf(JSON.parse(report));
  const validate = async () => {
    const document = TextDocument.create('file:///bench.json', 'json', n++, report);
    await service.doValidation(document, service.parseJSONDocument(document), {}, schema);
  };
  // As in the editor: paths that have been found are kept, all else is computed anew.
  const typed = () => keystroke(`${text}# ${n++}\n`, connector);
  const [time, json] = (await medians(typed, validate)) as [number, number];
  const anew = await median(() => keystroke(`${text}# ${n++}\n`));
  row('keystroke, 48 slots, 4 layers', milliseconds(time), 'median <= 3 ms', time <= 3);
  row('  with its paths found anew', milliseconds(anew), '', null);
  row(
    '  against a JSON language service on the same data',
    `x ${(time / json).toFixed(2)}`,
    `<= 3 (${milliseconds(json)})`,
    time <= 3 * json,
  );
}

async function benchGrowth(): Promise<void> {
  const sizes = [300, 600, 1200, 2400];
  const times: number[] = [];
  for (const slots of sizes)
    times.push(await median(() => keystroke(windingText(slots, slots / 6, 2, 6)), 7));
  row('keystroke, 2400 slots, 2 layers', milliseconds(times[3]!), '<= 60 ms', times[3]! <= 60);
  const growth = times[3]! / times[1]!;
  const allowed = (4 * Math.log2(2400)) / Math.log2(600);
  row(
    '  growth from 600 to 2400 slots',
    `x ${growth.toFixed(2)}`,
    `<= ${allowed.toFixed(2)} (Q log Q)`,
    growth <= allowed,
  );
  const coprime = await median(() => keystroke(windingText(2397, 2 * 17, 2, 70)), 7);
  row('keystroke, 2397 slots, 34 poles (fractional)', milliseconds(coprime), '<= 60 ms', coprime <= 60);
}

async function benchSpectrum(): Promise<void> {
  for (const slots of [48, 480, 2400]) {
    const { winding } = study(windingText(slots, slots / 6, 2, 6));
    await benchFactors(`all orders' factors, ${slots} slots`, winding!);
    await benchFactors(`all orders' factors, ${slots} slots, no symmetry`, withoutSymmetry(winding!));
  }
}

async function benchFactors(what: string, winding: Winding): Promise<void> {
  const race = spectrumRace(winding);
  const often = (work: Work) => () => {
    for (let i = 0; i < 50; i++) work();
  };
  const times = await medians(often(race.own), often(race.library));
  const [time, reference] = times.map((fifty) => fifty / 50) as [number, number];
  const budget = `<= 4 x FFT (x ${(time / reference).toFixed(2)})`;
  row(what, milliseconds(time), budget, time <= 4 * reference);
}

async function benchPanel(): Promise<void> {
  const browser = process.env.SLOTWRIGHT_CHROMIUM;
  if (!browser) return row('panel redraw', 'not measured', 'needs a Chromium', null);
  const cases = [
    { bars: 288, budget: 16, times: 90 },
    { bars: 4800, budget: 150, times: 18 },
  ];
  for (const { bars, budget, times } of cases) {
    const list = redraws(bars / 4);
    const spent = await redrawTimes(browser, list, times);
    for (const [index, { what }] of list.entries())
      row(
        `panel redraw, ${bars} bars, ${what} changes`,
        milliseconds(spent[index]!),
        `<= ${budget} ms`,
        spent[index]! <= budget,
      );
  }
}

const kilobytes = (bytes: number) => `${(bytes / 1000).toFixed(1)} kB`;

/** The whole loop: keys at full speed, the extension, messages, the panel's page in a browser. */
async function benchLoop(): Promise<void> {
  const browser = process.env.SLOTWRIGHT_CHROMIUM;
  if (!browser) return row('typing with the panel open', 'not measured', 'needs a Chromium', null);
  if (!existsSync('dist/extension/panel.js'))
    return row('typing with the panel open', 'not built', 'npm run build first', null);
  const small = readFileSync('examples/harbor-ferry-pod-drive.winding', 'utf8');
  const large = windingText(480, 80, 4, 6);
  const longer = (text: string, title: string) => (letters: number) =>
    text.replace(title, `${title}${'x'.repeat(letters % 40)}`);
  const turned = (letters: number) =>
    letters % 2 === 0 ? small : small.replace('poles   8', 'poles   16').replace('span   6', 'span   3');
  const cases: readonly (TypedText & {
    readonly what: string;
    readonly most: number;
    readonly wait: number;
  })[] = [
    {
      what: '48 x 4, title',
      text: small,
      after: longer(small, 'stator B'),
      letters: 1000,
      most: 4,
      wait: 100,
    },
    { what: '480 x 4, title', text: large, after: longer(large, 'Bench'), letters: 200, most: 4, wait: 400 },
    { what: '48 x 4, every bar', text: small, after: turned, letters: 101, most: 120, wait: 100 },
  ];
  const costs = await typingCosts(browser, cases);
  for (const [index, one] of cases.entries()) benchTyping(one.what, costs[index]!, one.most, one.wait);
}

function benchTyping(what: string, cost: Typing, most: number, wait: number): void {
  row(
    `typing ${cost.letters} letters at full speed, ${what}`,
    `${cost.messages} messages`,
    `<= one a letter (${kilobytes(cost.bytes)})`,
    cost.messages <= cost.letters,
  );
  row('  largest message', kilobytes(cost.largest), `<= ${most} kB`, cost.largest <= most * 1000);
  row('  last key to its frame', milliseconds(cost.lastKeyToFrame), `${wait} ms, told only`, null);
  row('  a single key to its frame', milliseconds(cost.keyToFrame), `${wait} ms, told only`, null);
  row('  growth of the extension host', kilobytes(cost.memory), 'told only', null);
}

function benchActivation(): void {
  if (!existsSync('dist/extension/desktop.js')) {
    row('activation', 'not built', 'npm run build first', null);
    return;
  }
  const alone = activationTimes('');
  const text = readFileSync('examples/harbor-ferry-pod-drive.winding', 'utf8');
  const withText = activationTimes(text).activated;
  row('activation with an empty text open', milliseconds(alone.activated), '<= 50 ms', alone.activated <= 50);
  row('  reading its bundle', milliseconds(alone.loaded), '', null);
  row('  with the 48-slot text open and studied', milliseconds(withText), '<= 50 ms', withText <= 50);
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
    for (const objective of ['fewest-jumpers', 'fewest-joints'] as const) {
      const start = performance.now();
      route(winding!, { paths, objective });
      times.push(performance.now() - start);
    }
    const what = `paths: ${slots} slots, ${poles} poles, ${layers} layers, ${paths} paths`;
    row(what, milliseconds(times[0]!), `fewest joints ${milliseconds(times[1]!)}`, null);
  }
}

async function benchCheck(): Promise<void> {
  const program = 'dist/cli/slotwright.js';
  if (!existsSync(program)) return row('check of 1000 files', 'not built', 'npm run build first', null);
  const folder = mkdtempSync(join(tmpdir(), 'slotwright-bench-'));
  const texts = readdirSync('examples')
    .filter((name) => !name.startsWith('broken'))
    .map((name) => readFileSync(join('examples', name), 'utf8'));
  mkdirSync(join(folder, 'files'));
  for (let i = 0; i < 1000; i++)
    writeFileSync(join(folder, 'files', `${i}.winding`), texts[i % texts.length]!);
  const start = performance.now();
  execFileSync('node', [program, 'check', join(folder, 'files')], { stdio: 'ignore' });
  const time = performance.now() - start;
  rmSync(folder, { recursive: true });
  row('check of 1000 files, whole program', milliseconds(time), '<= 5 s', time <= 5000);
}

function benchSizes(): void {
  const budgets: readonly (readonly [string, number])[] = [
    ['dist/extension/desktop.js', 300],
    ['dist/extension/web.js', 300],
    ['dist/extension/panel.js', 160],
  ];
  for (const [file, most] of budgets) {
    if (!existsSync(file)) {
      row(`size of ${file}`, 'not built', 'npm run build first', null);
      continue;
    }
    const size = statSync(file).size / 1000;
    row(`size of ${file}`, `${size.toFixed(0)} kB`, `<= ${most} kB`, size <= most);
  }
}

async function benchReport(): Promise<void> {
  const text = readFileSync('examples/harbor-ferry-pod-drive.winding', 'utf8');
  const time = await median(() => reportSchema.parse(study(text).report()));
  row('report, 48 slots, 4 layers, checked against its schema', milliseconds(time), '', null);
}

async function main(): Promise<void> {
  console.log(`Node ${process.version}; medians; the machine is shared, so look at the ratios.\n`);
  await benchKeystroke();
  await benchGrowth();
  await benchSpectrum();
  await benchPanel();
  await benchLoop();
  benchActivation();
  await benchRouter();
  await benchReport();
  await benchCheck();
  benchSizes();
}

main();
