import { readFileSync, writeFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { attachToHost, type HostSession } from '../editor/hostSession.ts';
import { openFile, openWorkbench, panelFrame, runCommand } from '../editor/workbench.ts';
import { type Figure, figureLine, missed, verdict } from './ledger.ts';
import { type Profile, samplesByOwner } from './profile.ts';

// The whole loop in a real editor: keys typed into the 48-slot text with the panel open and every provider asked, the
// extension's host profiled meanwhile. After every ten keys the engine's own share of them runs, four times, in the same
// worker under the same profiler, so that the ratio holds on a busy machine, too. The browser's developer tools read the
// profile, out/editor.cpuprofile.

const name = 'stator.winding';
const text = readFileSync('test/bench/stator.winding', 'utf8');
/** Edits in all, half of them letters of the title, half digits of a number. */
const edits = 200;
/** Keys of the engine alone for each edit: they take few samples. */
const more = 4;
/** Between two samples, microseconds. */
const interval = 100;
/** Between two keys at least, ms: fast typing. */
const pace = 120;

const shownText = `.monaco-editor[data-uri$="/${name}"] .view-lines`;

async function main(): Promise<void> {
  const bench = await openWorkbench({ [name]: text }, { bare: true });
  try {
    const { page } = bench;
    await openFile(page, name);
    await runCommand(page, 'Show Layout Panel');
    await panelFrame(page).locator('[data-bar]').first().waitFor({ state: 'attached' });
    const host = await attachToHost(page);
    await host.ask('Profiler.enable');
    await host.ask('Profiler.setSamplingInterval', { interval });
    await host.ask('Runtime.evaluate', { expression: readFileSync('out/benchEngineKeys.js', 'utf8') });
    await evaluated(host, `engineKeys.settle(${JSON.stringify(text)})`);
    await calm(page, host);
    // A first round warms both up.
    await round(page, host, 40);
    const { own, engine } = await round(page, host, edits);
    const figures: Figure[] = [
      { what: 'samples of the engine alone, a key', kind: 'count', value: engine / edits, budget: null },
      {
        what: 'samples under the extension, a key in the editor',
        kind: 'count',
        value: own / edits,
        budget: null,
      },
      {
        what: 'the whole loop in a real editor, against the engine',
        kind: 'ratio',
        value: own / engine,
        budget: 3,
      },
    ];
    for (const figure of figures) console.log(figureLine(figure));
    console.log(`\n${verdict(figures)}`);
    if (missed(figures).length > 0) process.exitCode = 1;
  } finally {
    await bench.close();
  }
}

/** Samples of the extension, and of the engine by itself. */
interface Counts {
  readonly own: number;
  readonly engine: number;
}

/** Where one types, and what: characters, or `Backspace`; each list leaves the text as it was. */
const places = [
  { words: 'stator B', keys: ['x', 'y', 'z', 'x', 'y', ...Array<string>(5).fill('Backspace')] },
  { words: 'current 210', keys: [1, 2, 3, 4, 0].flatMap((digit) => ['Backspace', `${digit}`]) },
];

/** The text after each of the keys. */
function textsOf({ words, keys }: (typeof places)[number]): readonly string[] {
  let typed = words;
  return keys.map((key) => {
    typed = key === 'Backspace' ? typed.slice(0, -1) : typed + key;
    return text.replace(words, typed);
  });
}

/** Types so many edits, the engine taking turns, and counts the samples of both. */
async function round(page: Page, host: HostSession, keys: number): Promise<Counts> {
  await host.ask('Profiler.start');
  let done = 0;
  for (let next = 0; done < keys; next++) {
    const place = places[next % places.length]!;
    await goBehind(page, place.words);
    for (const key of place.keys) {
      await page.keyboard.press(key);
      await page.waitForTimeout(pace);
      // The host answers once it is through with what the key asked of it.
      await evaluated(host, '0');
    }
    for (const changed of Array(more).fill(textsOf(place)).flat())
      await evaluated(host, `engineKeys.key(${JSON.stringify(changed)})`);
    done += place.keys.length;
  }
  // What the editor asks for late belongs to the keys.
  await page.waitForTimeout(1000);
  return counted(host);
}

/** Stops the profiler, and counts what it saw. */
async function counted(host: HostSession): Promise<Counts> {
  const { profile } = await host.ask<{ profile: Profile }>('Profiler.stop');
  writeFileSync('out/editor.cpuprofile', JSON.stringify(profile));
  const counts = samplesByOwner(profile, (url) =>
    /benchEngineKeys/.test(url) ? 'engine' : /slotwright\/|extension\/host\.js/.test(url) ? 'own' : null,
  );
  return { own: counts.get('own') ?? 0, engine: (counts.get('engine') ?? 0) / more };
}

/** Comes back once the extension does nothing any more: paths are found, ends measured, pictures sent. */
async function calm(page: Page, host: HostSession): Promise<void> {
  for (;;) {
    await host.ask('Profiler.start');
    await page.waitForTimeout(1000);
    if ((await counted(host)).own < 20) return;
  }
}

async function evaluated(host: HostSession, expression: string): Promise<void> {
  await host.ask('Runtime.evaluate', { expression, awaitPromise: true });
}

/** Puts the cursor behind words of the text. */
async function goBehind(page: Page, words: string): Promise<void> {
  const before = text.slice(0, text.indexOf(words) + words.length).split('\n');
  await page.locator(shownText).click();
  await page.keyboard.press('Control+G');
  const box = page.locator('.quick-input-widget input.input');
  await box.fill(`:${before.length}:${before.at(-1)!.length + 1}`);
  await page.keyboard.press('Enter');
  await page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
}

main();
