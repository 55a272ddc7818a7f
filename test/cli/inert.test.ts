// Takes its time: runs the command line on whole windings and repositories.

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { complete } from '../../cli/complete.ts';
import { run } from '../../cli/program.ts';
import { format } from '../../core/language/format/formatter.ts';
import { replaceUnseen } from '../../core/language/text/visible.ts';
import { readXml, valuesOf } from '../picture/checkPicture.ts';
import { buildCommands, hostileTexts, inQuotes } from '../support/hostile.ts';
import { tries, withMore } from '../support/tries.ts';
import { cleanWinding } from '../support/windingText.ts';
import { makeRepository, type Repository } from './repository.ts';

const plain = cleanWinding;

/** Names that files may have, each of which would do something in a log, a terminal or a comment. */
const actingNames = [
  '::remove-matcher owner=x::.winding',
  'a\r\n  ::error::c.winding',
  '\u001b[31mred\u001b[0m \u202e.winding',
  '@office #12 [a](b) {0} `c` | <b> ##[add-mask]y.winding',
];
/** Further ones that act by the same means. */
const likewise = [
  ' ::error file=a::b.winding',
  'a\n::error::b.winding',
  'x ##[add-mask]y ##vso[task.x]z.winding',
  '\u200e\u200f\u202epump.winding',
];
const hostileNames = [...actingNames, ...likewise];

let repository: Repository;
let alone: string;
let home: string;

/** A repository with every such name, one sound and one broken file of each, all changed since the first commit. */
beforeAll(() => {
  repository = makeRepository();
  for (const name of hostileNames) {
    repository.write(name, plain);
    repository.write(`broken/${name}`, 'machine { slots 48');
  }
  repository.commit('start');
  for (const name of hostileNames) {
    repository.write(name, plain.replace('span   6', 'span 5'));
    repository.write(`broken/${name}`, 'machine { slots 48 }\n\u200elayout {');
  }
  alone = mkdtempSync(join(tmpdir(), 'slotwright-inert-'));
  home = process.cwd();
  process.chdir(repository.folder);
});

afterAll(() => {
  process.chdir(home);
  repository.dispose();
  rmSync(alone, { recursive: true, force: true });
});

/** Calls the program and expects that nothing it prints acts. */
async function called(...args: readonly string[]) {
  const outcome = await complete(run(args, '0.0.0'));
  const acts = [outcome.output, outcome.complaints].flatMap((text) => {
    const found: string[] = [...buildCommands(text)];
    // In a table a backslash and a pipe are parted.
    replaceUnseen(text.replace(/\r?\n/g, '').replaceAll('\\\u200b\\|', ''), (character) => {
      found.push(JSON.stringify(character));
      return '!';
    });
    return found;
  });
  expect([args, acts]).toEqual([args, []]);
  expect(outcome.complaints).not.toContain('internal error');
  return outcome;
}

const parsed = (output: string) => JSON.parse(output);

describe('names of files', () => {
  it.each(withMore(actingNames, likewise))('begin no command and show what they hold: %j', async (name) => {
    const file = join('broken', name);
    for (const here of [name, join(repository.folder, file)]) {
      for (const args of [
        ['check', here],
        ['format', '--check', here],
        ['draw', here, '--view', 'layout'],
        ['schedule', here, '--table', 'slots'],
        ['report', here],
        ['report', here, '--format', 'json'],
        ['compare', here, 'nowhere.winding'],
      ])
        await called(...args);
    }
    for (const form of ['markdown', 'json', 'svg'])
      await called('compare', name, hostileNames[0]!, '--format', form);
    for (const args of [
      ['compare', '--base=HEAD', '--', file],
      ['draw', name, '--view', 'layout', '--output', `${name}.gif`],
      ['draw', name, '--view', 'layout', '--output', join('no', name)],
      ['check', `not there ${name}`, `${name}/below`],
      ['format', '--write', `not there ${name}`],
      ['compare', '--base', name, '.'],
      ['compare', '--base=HEAD', '--', `not there ${name}`],
    ])
      await called(...args);
  });

  it('are exact in JSON, SARIF and JUnit', async () => {
    const { output } = await called('check', ...hostileNames, '--format', 'json');
    expect(parsed(output).files.map(({ file }: { file: string }) => file)).toEqual(hostileNames);
    const sarif = parsed((await called('check', 'broken', '--format', 'sarif')).output);
    const uris = sarif.runs[0].results.map(
      (result: { locations: [{ physicalLocation: { artifactLocation: { uri: string } } }] }) =>
        decodeURIComponent(result.locations[0].physicalLocation.artifactLocation.uri),
    );
    expect([...new Set(uris)].sort()).toEqual(hostileNames.map((name) => `broken/${name}`).sort());
    // XML 1.0 has no way to write an escape character.
    const junit = await called('check', ...hostileNames, '--format', 'junit');
    expect(new Set(valuesOf(readXml(junit.output), 'classname'))).toEqual(
      new Set(hostileNames.map((name) => name.replaceAll('\u001b', '\ufffd'))),
    );
    const compared = await called('compare', '--base=HEAD', '.', '--format', 'json');
    expect(
      parsed(compared.output)
        .files.map(({ file }: { file: string }) => file)
        .sort(),
    ).toEqual([...hostileNames, ...hostileNames.map((name) => `broken/${name}`)].sort());
  });

  it('that would begin a command are shown with the folder they lie in', async () => {
    const { output } = await called('check', 'broken');
    expect(output).toContain('broken/::remove-matcher owner=x::.winding:1:1: warning: ');
    process.chdir('broken');
    const here = await called('check', '::remove-matcher owner=x::.winding');
    process.chdir('..');
    expect(here.output).toMatch(/^\.\/::remove-matcher owner=x::\.winding:1:1: warning: /);
    const formatted = await called('format', '--check', '.');
    expect(formatted.output.split('\n')).toContain('./::remove-matcher owner=x::.winding');
  });
});

/** Texts that an argument may hold: those that would act in a log, or as a pattern of a replacement; then the others. */
const acting = (text: string) =>
  buildCommands(text).length > 0 || replaceUnseen(text, () => '!') !== text || text.includes('$');
const arguable = hostileTexts.filter((text) => !text.includes('\0'));
const complained = arguable.filter(acting);
const passing = arguable.filter((text) => !acting(text));

describe('text of the user', () => {
  it.each(hostileTexts.map((text) => [text.slice(0, 300)]))('acts in no output: %j', async (words) => {
    const title = (text: string) => text.replace(/winding ".*"/, () => `winding ${inQuotes(words)}`);
    const file = join(alone, 'hostile.winding');
    const sheet = `sheet { note ${inQuotes(words)} title ${inQuotes(words)} owner ${inQuotes(words)} }\n`;
    writeFileSync(file, title(plain) + sheet);
    // In every form what would act in a log; of the others one each, but with more tries.
    const all = acting(words) || tries(1) > 1;
    for (const form of all ? ['markdown', 'json'] : ['markdown'])
      await called('report', file, '--format', form);
    // Sheets take long: all others stand on one, below.
    for (const view of acting(words) ? ['layout', 'sheet'] : ['layout'])
      await called('draw', file, '--view', view);
    for (const form of all ? ['markdown', 'json', 'svg'] : ['markdown'])
      await called('compare', hostileNames[0]!, file, '--format', form);
    writeFileSync(file, `${title(plain).replace('poles', `${words}\npoles ${words}\n`)}\n${words}\n`);
    for (const form of all ? ['text', 'json', 'sarif', 'junit'] : ['text'])
      await called('check', file, '--format', form);
    for (const args of [
      ['report', file],
      ['compare', file, hostileNames[0]!],
    ])
      await called(...args);
  });

  it('acts on no sheet', async () => {
    const file = join(alone, 'hostile.winding');
    const notes = hostileTexts.map((words) => `  note ${inQuotes(words)}\n`).join('');
    writeFileSync(file, `${plain}sheet {\n${notes}}\n`);
    const { output } = await called('draw', file, '--view', 'sheet');
    expect(output).toContain('remove-matcher owner=slotwright');
    expect(output).not.toContain('NOT PRINTED');
  });

  it.each(withMore(complained, passing))('acts in no complaint on the call: %.60j', async (words) => {
    for (const args of [
      [words],
      [words, 'x'],
      ['check', `--${words}`],
      ['check', `--format=${words}`, 'x'],
      ['check', `--max-warnings=${words}`, 'x'],
      ['report', `--orders=${words}`, 'x'],
      ['report', 'x', words],
      ['draw', `--view=${words}`, hostileNames[0]!],
      ['draw', '--view=layout', `--phase=${words}`, hostileNames[0]!],
      ['draw', '--view=layout', `--output=${words}`, hostileNames[0]!],
      ['compare', `--base=${words}`, '.'],
      ['compare', `--fail-on=${words}`, '.'],
    ])
      expect((await called(...args)).exitCode).toBe(2);
  });
});

describe('format', () => {
  it.each([
    ['a line that begins with ::', `${plain}::remove-matcher owner=slotwright::\n`],
    ['such a line behind blanks', `${plain} \u3000\u200b ::error::x\r\n`],
    ['such a comment', `${plain}# see ##[group] x\n`],
  ])('prints no file with %s, and says which', async (_, text) => {
    const file = join(alone, 'command.winding');
    writeFileSync(file, text);
    const { exitCode, output, complaints } = await called('format', file);
    expect([exitCode, output]).toEqual([2, '']);
    expect(complaints).toContain(
      `build servers would take line ${format(text).split('\n').length - 1} for a command if it were printed`,
    );
    expect((await called('format', '--check', file)).exitCode).toBeLessThan(2);
    expect((await called('format', '--write', file)).exitCode).toBe(0);
  });

  it('prints any other', async () => {
    const file = join(alone, 'plain.winding');
    mkdirSync(alone, { recursive: true });
    const text = `${plain}# a:: b ## c [d] # #[e]\n`;
    writeFileSync(file, text);
    expect((await called('format', file)).output).toBe(format(text));
  });
});
