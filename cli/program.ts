import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { mostCandidates } from '../core/routing/candidates.ts';
import { chordErrors, usualChordError } from '../core/space/cad/writeStl.ts';
import { connectionWords } from '../core/tables/import/head.ts';
import { scheduleTables } from '../core/tables/schedule.ts';
import { viewNames } from '../core/views/views.ts';
import { check } from './commands/check.ts';
import { compareFiles } from './commands/compare.ts';
import { draw } from './commands/draw.ts';
import { explore } from './commands/explore.ts';
import { formatFiles } from './commands/format.ts';
import { importTable } from './commands/importTable.ts';
import { mostOrders, report } from './commands/report.ts';
import { routes } from './commands/routes.ts';
import { writeSchedule } from './commands/schedule.ts';
import { complaint } from './complete.ts';
import { type FileFormats, loadFileFormats } from './files/fileFormats.ts';
import { usageLine } from './inert.ts';
import type { Outcome } from './outcome.ts';

/** Runs the program with its arguments (without node and script) and says what came of it. Never throws. */
export function run(
  args: readonly string[],
  version: string,
  loadFormats: () => FileFormats = loadFileFormats,
): Outcome {
  const written = { output: '', complaints: '' };
  let outcome: Outcome | null = null;
  const program = createProgram({
    version,
    loadFormats,
    done: (result) => {
      outcome = result;
    },
  });
  for (const command of [program, ...program.commands]) {
    command.exitOverride().configureOutput({
      writeOut: (text) => {
        written.output += text;
      },
      writeErr: (text) => {
        written.complaints += text;
      },
      outputError: (text, write) => write(usageLine(text)),
    });
  }
  try {
    program.parse([...args], { from: 'user' });
  } catch (problem) {
    if (problem instanceof CommanderError) return { exitCode: problem.exitCode === 0 ? 0 : 2, ...written };
    return { exitCode: 2, output: '', complaints: complaint(problem) };
  }
  return outcome ?? { exitCode: 0, ...written };
}

/** What the commands are given beside their arguments. */
interface Caller {
  readonly version: string;
  readonly loadFormats: () => FileFormats;
  /** Takes what came of the command. */
  readonly done: (outcome: Outcome) => void;
}

function createProgram(caller: Caller): Command {
  const program = new Command('slotwright')
    .description('The winding of an electric machine as a text file: check, compute and draw it.')
    .version(caller.version)
    .showHelpAfterError('(try slotwright --help)')
    .addHelpText(
      'after',
      `
Exit codes: 0 clean; 1 findings of severity error, or more warnings than allowed; 2 wrong call or file trouble.

Examples:
  slotwright check examples                          every .winding file in a folder
  slotwright report pump.winding --output pump.md    a report a colleague can read
  slotwright report pump.winding --format json       the same for programs
  slotwright draw pump.winding --view layout --output pump.svg
  slotwright compare --base main windings            what changed since a commit
  slotwright format --write *.winding                canonical form, in place
  cat pump.winding | slotwright check -              from standard input`,
    );
  // In the order in which the help lists them.
  for (const declare of [
    declareCheck,
    declareReport,
    declareDraw,
    declareRoutes,
    declareExplore,
    declareSchedule,
    declareImport,
    declareCompare,
    declareFormat,
  ])
    declare(program, caller);
  for (const command of program.commands)
    command.showHelpAfterError(`(try slotwright ${command.name()} --help)`);
  return program;
}

function declareCheck(program: Command, { done, version }: Caller): void {
  program
    .command('check')
    .description('Check winding files and print what is wrong.')
    .argument('<files...>', 'winding files or folders; - for standard input')
    .addOption(
      new Option('--format <format>', 'output format')
        .choices(['text', 'json', 'sarif', 'junit'])
        .default('text'),
    )
    .addOption(maxWarnings())
    .addOption(allowEmpty())
    .addOption(workersOption('threads that check'))
    .addHelpText(
      'after',
      '\nExamples:\n  slotwright check stator.winding\n  slotwright check windings --format json --max-warnings 0\n  slotwright check windings --workers 4\n  slotwright check . --format sarif > slotwright.sarif',
    )
    .action((files, options) => done(check(files, options, { version })));
}

function declareReport(program: Command, { done }: Caller): void {
  program
    .command('report')
    .description('Write the report of one winding: figures, factors, waves, limits, findings.')
    .argument('<file>', 'winding file; - for standard input')
    .addOption(
      new Option(
        '--format <format>',
        'output format (default: by the ending of --output, else markdown)',
      ).choices(['markdown', 'json']),
    )
    .addOption(outputOption('write to this .md or .json file instead of standard output'))
    .addOption(
      new Option(
        '--orders <n>',
        `highest order listed, 1 to ${mostOrders} (default: 4 times the slots, or 20 times the pole pairs if that is more)`,
      ).argParser(wholeNumber(1, mostOrders)),
    )
    .addOption(maxWarnings())
    .addHelpText(
      'after',
      '\nExamples:\n  slotwright report stator.winding\n  slotwright report stator.winding --format json --orders 200\n  slotwright report stator.winding --output stator.md',
    )
    .action((file, options) => done(report(file, options)));
}

function declareDraw(program: Command, { done, loadFormats }: Caller): void {
  program
    .command('draw')
    .description(
      'Draw one view of a winding, or its handover sheets, as SVG, PDF or DXF; its bars as STEP or STL.',
    )
    .argument('<file>', 'winding file; - for standard input')
    .addOption(
      new Option('--view <view>', 'what to draw').choices([...viewNames, 'sheet']).makeOptionMandatory(),
    )
    .addOption(new Option('--phase <name>', 'let this phase stand out'))
    .addOption(
      new Option(
        '--shape <n>',
        'of the bars in space only those of this shape, or of a kind of it (2-A), in a .step or .stl file',
      ).argParser(barShape),
    )
    .addOption(
      new Option(
        '--state <state>',
        'the bars in a .step or .stl file as they stand, or as they are put in',
      ).choices(['finished', 'before']),
    )
    .addOption(
      new Option(
        '--chord-error <mm>',
        `how far the flat faces of an .stl file may leave curves, ${chordErrors.least * 1e3} to ${chordErrors.most * 1e3} (default: ${usualChordError * 1e3})`,
      ).argParser(chordError),
    )
    .addOption(
      outputOption(
        'write to this .svg, .pdf or .dxf file (--view space: .step or .stl, too) instead of SVG to standard output',
      ),
    )
    .addOption(maxWarnings())
    .addHelpText(
      'after',
      '\nExamples:\n  slotwright draw stator.winding --view layout > stator.svg\n  slotwright draw stator.winding --view layout --output stator.pdf\n  slotwright draw stator.winding --view phasors --phase V --output phasors.dxf\n  slotwright draw stator.winding --view sheet --output stator.pdf\n  slotwright draw stator.winding --view space --output stator.step\n  slotwright draw stator.winding --view space --shape 2 --state before --output shape-2.step',
    )
    .action((file, options) => done(draw(file, options, loadFormats)));
}

function declareRoutes(program: Command, { done }: Caller): void {
  program
    .command('routes')
    .description('List the connections to choose from, with what each costs, or write one out into the text.')
    .argument('<file>', 'winding file; - for standard input')
    .addOption(
      new Option('--write <n>', 'write out the paths of this connection of the list').argParser(
        wholeNumber(1, mostCandidates),
      ),
    )
    .addOption(outputOption('with --write: write the winding to this .winding file'))
    .addOption(new Option('--in-place', 'with --write: write the winding back into its file'))
    .addHelpText(
      'after',
      '\nExamples:\n  slotwright routes stator.winding\n  slotwright routes stator.winding --write 2 --output chosen.winding\n  slotwright routes stator.winding --write 2 --in-place',
    )
    .action((file, options) => done(routes(file, options)));
}

function declareExplore(program: Command, { done, version }: Caller): void {
  program
    .command('explore')
    .description('Judge the variants that a vary block asks for: which winding at all.')
    .argument('[file]', 'winding file; - for standard input; without one all is said by --vary')
    .addOption(rowOption('--vary <row>', "a row more, as in 'machine slots 36 to 72 by 6'; repeatable"))
    .addOption(new Option('--hold <words>', "what stays equal, as in 'gap-flux-density torque shares'"))
    .addOption(
      rowOption('--keep <limit>', "leave out what does not meet it, as in 'largest-paths >= 2'; repeatable"),
    )
    .addOption(new Option('--rank <quantities>', "the order, as in 'least copper-loss least torque'"))
    .addOption(
      new Option(
        '--top <n>',
        'rows listed beside the front (default: 20; CSV: every row kept, as they come)',
      ).argParser(wholeNumber(0, 10_000)),
    )
    .addOption(workersOption('threads that judge'))
    .addOption(
      new Option('--shard <i/n>', 'only this part of the candidates, for --merge').argParser(shardNumber),
    )
    .addOption(
      new Option(
        '--format <format>',
        'output format (default: by the ending of --output, else table)',
      ).choices(['table', 'csv', 'json']),
    )
    .addOption(outputOption('write to this .txt, .csv or .json file; with --write to this .winding file'))
    .addOption(
      new Option('--write <n>', 'write the text of this candidate, by its number').argParser(wholeNumber(1)),
    )
    .addOption(new Option('--merge <parts...>', 'join the JSON of all shards to one answer'))
    .addOption(new Option('--yes', 'start more than 100000 whole studies'))
    .addHelpText(
      'after',
      "\nExamples:\n  slotwright explore stator.winding\n  slotwright explore --vary 'machine slots 12 to 48 by 3' --vary 'machine poles 8 10' --rank 'most winding-factor harmonic 1'\n  slotwright explore stator.winding --write 17 --output chosen.winding\n  slotwright explore stator.winding --shard 1/4 --output part-1.json\n  slotwright explore --merge part-1.json part-2.json part-3.json part-4.json",
    )
    .action((file, options) => done(explore(file, options, version)));
}

function declareSchedule(program: Command, { done }: Caller): void {
  program
    .command('schedule')
    .description('Write a schedule of a winding as CSV.')
    .argument('<file>', 'winding file; - for standard input')
    .addOption(new Option('--table <table>', 'what to list').choices(scheduleTables).makeOptionMandatory())
    .addOption(outputOption('write to this .csv file instead of standard output'))
    .addOption(maxWarnings())
    .addHelpText(
      'after',
      '\nExamples:\n  slotwright schedule stator.winding --table joints > joints.csv\n  slotwright schedule stator.winding --table bars --output bars.csv',
    )
    .action((file, options) => done(writeSchedule(file, options)));
}

function declareImport(program: Command, { done }: Caller): void {
  program
    .command('import')
    .description(
      'Make a winding file of a slot table, a list of bars or the bars of each path in a CSV file.',
    )
    .argument('<table>', 'CSV file from a spreadsheet; - for standard input')
    .addOption(
      new Option('--poles <n>', 'number of poles, where the table does not tell it').argParser(evenNumber),
    )
    .addOption(
      new Option('--connection <word>', 'how the phases are joined, where the table has paths').choices(
        connectionWords,
      ),
    )
    .addOption(
      new Option(
        '--first-layer <place>',
        'where layer 1 lies, where layers have numbers (default: axis)',
      ).choices(['axis', 'outside']),
    )
    .addOption(new Option('--title <text>', 'name of the winding'))
    .addOption(outputOption('write to this .winding file instead of standard output'))
    .addHelpText(
      'after',
      '\nExamples:\n  slotwright import slots.csv --output stator.winding\n  slotwright import paths.csv --poles 8 --connection star\n  slotwright schedule old.winding --table bars | slotwright import - --poles 8 --connection star',
    )
    .action((table, options) => done(importTable(table, options)));
}

function declareCompare(program: Command, { done }: Caller): void {
  program
    .command('compare')
    .description('Say what changed in a winding, in bars, joints and numbers.')
    .argument('<files...>', 'two winding files, OLD and NEW; with --base one file or folder')
    .addOption(new Option('--base <ref>', 'compare with what git has at this commit, branch or tag'))
    .addOption(
      new Option('--format <format>', 'output format; svg lays the old winding over the new')
        .choices(['markdown', 'json', 'svg'])
        .default('markdown'),
    )
    .addOption(
      new Option(
        '--view <view>',
        'what --format svg draws: the layouts laid over each other, or the bars in space side by side',
      )
        .choices(['layout', 'space'])
        .default('layout'),
    )
    .addOption(
      new Option(
        '--fail-on <what>',
        'exit 1 on anything worse, on errors of a new or changed winding, or never',
      )
        .choices(['worse', 'errors', 'none'])
        .default('errors'),
    )
    .addOption(allowEmpty())
    .addHelpText(
      'after',
      '\nExamples:\n  slotwright compare old.winding new.winding\n  slotwright compare --base origin/main windings > comment.md\n  slotwright compare --base HEAD stator.winding --format svg > changes.svg\n  slotwright compare old.winding new.winding --format svg --view space > bars.svg',
    )
    .action((files, options) => done(compareFiles(files, options)));
}

function declareFormat(program: Command, { done }: Caller): void {
  program
    .command('format')
    .description('Bring winding files into canonical form; without a flag one file is printed.')
    .argument('<files...>', 'winding files or folders; - for standard input')
    .option('--check', 'change nothing; name the files that would change, and exit 1 if any would')
    .option('--write', 'change the files in place')
    .addHelpText(
      'after',
      '\nExamples:\n  slotwright format stator.winding\n  slotwright format --check windings\n  slotwright format --write windings',
    )
    .action((files, options) => done(formatFiles(files, options)));
}

function maxWarnings(): Option {
  return new Option('--max-warnings <n>', 'exit 1 when there are more warnings than this')
    .argParser(wholeNumber(0))
    .default(Number.POSITIVE_INFINITY, 'any number');
}

/** In how many threads something is done; what comes of it does not depend on them. */
function workersOption(words: string): Option {
  return new Option('--workers <n>', words).argParser(wholeNumber(1, 64)).default(1);
}

function allowEmpty(): Option {
  return new Option('--allow-empty', 'a folder without winding files is no trouble');
}

/** Where the result is written; one place only. */
function outputOption(words: string): Option {
  return new Option('--output <file>', words).argParser((file: string, before: string | undefined) => {
    if (before !== undefined) throw new InvalidArgumentError('it is given twice; one file is written.');
    return file;
  });
}

/** Reads a number of poles, or says what it should be. */
function evenNumber(text: string): number {
  const value = Number(text);
  if (!/^\d{1,4}$/.test(text) || value < 2 || value > 2400 || value % 2 === 1)
    throw new InvalidArgumentError('An even number from 2 to 2400 is expected.');
  return value;
}

/** Reads the number of a bar shape, or the name of a kind of it. */
function barShape(text: string): string {
  if (!/^[1-9]\d{0,5}(-[A-Z]{1,9})?$/.test(text))
    throw new InvalidArgumentError('A bar shape or a kind of it is expected, such as 2 or 2-A.');
  return text;
}

/** A row of a vary block; each is one more. */
function rowOption(flags: string, words: string): Option {
  return new Option(flags, words).argParser((row: string, before: readonly string[] | undefined) => [
    ...(before ?? []),
    row,
  ]);
}

/** Reads `2/8`, or says what it should be. */
function shardNumber(text: string): { readonly index: number; readonly of: number } {
  const [, index, of] = (/^(\d{1,4})\/(\d{1,4})$/.exec(text) ?? []).map(Number);
  if (!index || !of || index > of)
    throw new InvalidArgumentError('Which shard of how many is expected, such as 2/8.');
  return { index, of };
}

/** Reads how far chords may leave curves, in mm, or says what it should be; m. */
function chordError(text: string): number {
  const value = Number(text) / 1e3;
  if (!/^\d*\.?\d+$/.test(text) || value < chordErrors.least || value > chordErrors.most)
    throw new InvalidArgumentError(
      `millimeters from ${chordErrors.least * 1e3} to ${chordErrors.most * 1e3} are expected.`,
    );
  return value;
}

/** Reads a whole number option, or says what it should be. */
function wholeNumber(least: number, most = Number.MAX_SAFE_INTEGER): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (!/^\d+$/.test(text) || value < least || value > most) {
      throw new InvalidArgumentError(
        `A whole number from ${least}${most === Number.MAX_SAFE_INTEGER ? '' : ` to ${most}`} is expected.`,
      );
    }
    return value;
  };
}
