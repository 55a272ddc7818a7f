import type { Locator, Page } from 'playwright-core';
import { tellPages } from './failure.ts';
import { attachToHost, type HostSession } from './hostSession.ts';
import {
  askUntil,
  goToPlace,
  openFile,
  openWorkbench,
  panelFrame,
  patience,
  runCommand,
  type Workbench,
} from './workbench.ts';

// Hours of work in a real editor, in short: texts typed in, panels opened and closed, files renamed and deleted
// under them, and what the extension's host keeps of all that.

/** What is kept in the extension host after the garbage is gone. */
export interface Kept {
  readonly bytes: number;
  /** Functions: each study, panel and listener that is kept has some of its own. */
  readonly functions: number;
}

/** What the garbage leaves of everything in the host. */
async function keptBy(host: HostSession): Promise<Kept> {
  await host.ask('HeapProfiler.collectGarbage');
  const prototype = await host.ask<{ result: { objectId: string } }>('Runtime.evaluate', {
    expression: 'Function.prototype',
    objectGroup: 'soak',
  });
  const { objects } = await host.ask<{ objects: { objectId: string } }>('Runtime.queryObjects', {
    prototypeObjectId: prototype.result.objectId,
    objectGroup: 'soak',
  });
  const counted = await host.ask<{ result: { value: number } }>('Runtime.callFunctionOn', {
    functionDeclaration: 'function () { return this.length; }',
    objectId: objects.objectId,
    returnByValue: true,
  });
  await host.ask('Runtime.releaseObjectGroup', { objectGroup: 'soak' });
  await host.ask('HeapProfiler.collectGarbage');
  const { usedSize } = await host.ask<{ usedSize: number }>('Runtime.getHeapUsage');
  return { bytes: usedSize, functions: counted.result.value };
}

/** A winding with sizes and paths that are found, of its own name. */
const drive = (name: string) => `winding "${name}"

machine { slots 24  poles 4  phases 3  bore 120 mm  stack 90 mm  speed 1500 rpm  current 90 A }
slot { width 6 mm  depth 14 mm  liner 0.25 mm }
bar { width 5 mm  height 6 mm }
layout { layers 2  span 6 }
connect { star  route paths 2 }
`;

const settings = JSON.stringify({
  'editor.quickSuggestions': { other: 'off', comments: 'off', strings: 'off' },
  'editor.suggestOnTriggerCharacters': false,
});

const row = (page: Page, name: string) =>
  page
    .locator('.explorer-folders-view .monaco-list-row')
    .filter({ has: page.getByText(name, { exact: true }) });

/** The editor with a file for each round that is deleted in it, and what each round does. */
export class Soak {
  private constructor(
    private readonly bench: Workbench,
    private readonly host: HostSession,
  ) {}

  static async begin(rounds: number): Promise<Soak> {
    const spares = Array.from({ length: rounds }, (_, round) => [
      `spare-${round}.winding`,
      drive(`Spare ${round}`),
    ]);
    const bench = await openWorkbench({
      '.vscode/settings.json': settings,
      'lock.winding': drive('Lock gate'),
      ...Object.fromEntries(spares),
    });
    await openFile(bench.page, 'lock.winding');
    return new Soak(bench, await attachToHost(bench.page));
  }

  /** What is kept while the one text is open that always is. */
  kept(): Promise<Kept> {
    return keptBy(this.host);
  }

  close(): Promise<void> {
    return this.bench.close();
  }

  /** So many keys in two texts with a panel open, one of which is renamed and back, the other deleted. */
  async round(number: number, keys: number): Promise<void> {
    const { page } = this.bench;
    const spare = `spare-${number}.winding`;
    await openFile(page, 'lock.winding');
    await runCommand(page, 'Show Layout Panel');
    await panelFrame(page).locator('#panel-title').waitFor();
    await this.type('lock.winding', Math.floor(keys / 2));
    await this.rename('lock.winding', 'sluice.winding');
    await this.rename('sluice.winding', 'lock.winding');
    await openFile(page, spare);
    await this.type(spare, Math.ceil(keys / 2));
    await runCommand(page, 'Save All');
    const sure = page.locator('.monaco-dialog-box').getByRole('button', { name: 'Delete' });
    await this.ofFile(spare, 'Delete', sure);
    await sure.click();
    await row(page, spare).waitFor({ state: 'detached' });
    await page.locator(`.tab[data-resource-name="${spare}"]`).waitFor({ state: 'detached' });
    for (const panel of await page.locator('.tab[aria-label^="Layout of"] .codicon-close').all())
      await panel.click();
    await page.locator('iframe.webview').first().waitFor({ state: 'detached' });
    await openFile(page, 'lock.winding');
  }

  /** Letters of the title, half of the keys, and then taken away again: the text stays. */
  private async type(name: string, keys: number): Promise<void> {
    const { page } = this.bench;
    const text = page.locator(`.monaco-editor[data-uri$="/${name}"] .view-lines`);
    await goToPlace(page, 1, 'winding "'.length + 1);
    const half = Math.floor(keys / 2);
    for (let key = 0; key < half; key++) await page.keyboard.press('abcdefgh'[key % 8]!);
    await text.getByText('hgfedcba'.slice(0, 1)).first().waitFor();
    for (let key = 0; key < half; key++) await page.keyboard.press('Backspace');
  }

  /** Presses a key on a file in the list until what it asks for comes: the text may take the focus back. */
  private ofFile(name: string, key: string, asked: Locator): Promise<void> {
    const press = async () => {
      await row(this.bench.page, name).click({ timeout: 5000 });
      await this.bench.page.keyboard.press(key);
    };
    return askUntil(press, asked, `${key} on ${name} asks for nothing.`);
  }

  private async rename(from: string, to: string): Promise<void> {
    const { page } = this.bench;
    await runCommand(page, 'Save All');
    const input = page.locator('.explorer-folders-view .monaco-inputbox input');
    await this.ofFile(from, 'F2', input);
    await input.fill(to);
    await input.press('Enter');
    await row(page, to).waitFor({ timeout: patience });
    await page.locator(`.tab[data-resource-name="${to}"]`).waitFor();
  }
}

/** Rounds of so many keys, what is kept told after the first two and every fifth. */
export async function soak(rounds: number, keys: number, tell: (words: string) => void): Promise<void> {
  const long = await Soak.begin(rounds);
  try {
    for (let round = 0; round < rounds; round++) {
      await long.round(round, keys);
      if (round > 1 && (round + 1) % 5 !== 0) continue;
      const { bytes, functions } = await long.kept();
      tell(`${(round + 1) * keys} keys: ${(bytes / 1e6).toFixed(2)} MB, ${functions} functions`);
    }
  } catch (problem) {
    await tellPages('soak');
    throw problem;
  } finally {
    await long.close();
  }
}
