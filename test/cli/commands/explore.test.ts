import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { complete } from '../../../cli/complete.ts';
import { run } from '../../../cli/program.ts';
import { variantsSchema } from '../../../core/variants/schema.ts';

const folder = mkdtempSync(join(tmpdir(), 'slotwright-explore-'));
afterAll(() => rmSync(folder, { recursive: true }));

const file = join(folder, 'thruster.winding');
writeFileSync(
  file,
  `winding "Bow thruster"
machine { slots 12  poles 10  phases 3 }
layout { layers 2  span 1 }
require { winding-factor harmonic 1 >= 0.93 }
vary {
  machine slots 9 to 18 by 3
  machine poles 8 10 14
  rank most winding-factor harmonic 1  most cogging-periods
}
`,
);
const explored = (...args: string[]) => complete(run(['explore', ...args], '1.2.3'));

describe('explore', () => {
  it('lists the variants of a file, best first, with what was refused and why', async () => {
    const { exitCode, output, complaints } = await explored(file);
    expect([exitCode, complaints]).toEqual([0, '']);
    expect(output).toContain('12 candidates:');
    const [heading, best] = output.slice(output.indexOf('no.')).split('\n');
    expect(heading).toMatch(
      /no\. +machine slots +machine poles +winding-factor harmonic 1 +cogging-periods +limits/,
    );
    expect(best).toMatch(/ 15 +14 +0\.9514 +210 +1 of 1 +\*$/);
  });

  it('writes JSON after its contract, and CSV in the same columns', async () => {
    const json = await explored(file, '--format', 'json', '--top', '3');
    const answer = variantsSchema.parse(JSON.parse(json.output));
    expect(answer).toMatchObject({ version: '1.2.3', candidates: 12, complete: true, top: 3 });
    expect(answer.rows[0]).toMatchObject({
      values: { 'machine slots': 15, 'machine poles': 14 },
      limits: [true],
    });
    const csv = await explored(file, '--format', 'csv', '--top', '3');
    const [heading, ...rows] = csv.output.trimEnd().split('\r\n');
    expect(heading).toBe(
      'number,machine slots,machine poles,winding-factor harmonic 1,cogging-periods,winding-factor harmonic 1 >= 0.93,front',
    );
    expect(rows).toHaveLength(answer.rows.length);
    expect(rows[0]!.split(',').slice(0, 5)).toEqual(
      [9, 15, 14, answer.rows[0]!.figures['winding-factor harmonic 1'], 210].map(String),
    );
  });

  it('without --top writes every variant kept to CSV, in the order of their numbers', async () => {
    const out = join(folder, 'all.csv');
    expect((await explored(file, '--output', out)).exitCode).toBe(0);
    const numbers = readFileSync(out, 'utf8')
      .trimEnd()
      .split('\r\n')
      .slice(1)
      .map((line) => Number.parseInt(line, 10));
    expect(numbers.length).toBeGreaterThan(5);
    expect(numbers).toEqual([...numbers].sort((a, b) => a - b));
  });

  it('takes rows from options beside the file, and without one', async () => {
    const more = await explored(file, '--keep', 'cogging-periods >= 100', '--format', 'json');
    expect(JSON.parse(more.output).keep).toEqual(['cogging-periods >= 100']);
    const other = await explored(file, '--rank', 'least cogging-periods', '--format', 'json');
    expect(JSON.parse(other.output)).toMatchObject({ rank: ['least cogging-periods'], front: null });
    const bare = await explored(
      '--vary',
      'machine slots 24',
      '--vary',
      'machine poles 4',
      '--format',
      'json',
    );
    expect(bare.complaints).toContain('without a file: phases 3, layers 2, span nominal');
    expect(JSON.parse(bare.output).rows[0].values).toEqual({
      'layout span': 6,
      'machine slots': 24,
      'machine poles': 4,
    });
  });

  it('tells what is wrong with a row by its option, and with a line by its place', async () => {
    const wrong = await explored(file, '--vary', 'layout spam 1 2', '--rank', 'least copper');
    expect(wrong.exitCode).toBe(1);
    expect(wrong.complaints).toContain(
      "slotwright: --vary 'layout spam 1 2': 'spam' is not a word of layout",
    );
    const broken = join(folder, 'broken.winding');
    writeFileSync(
      broken,
      'winding "B"\nmachine { slots 12 poles 10 phases 3 }\nlayout { layers 2 span 1 }\nvary {\n  machine poles 9\n}\n',
    );
    const { exitCode, complaints } = await explored(broken);
    expect(exitCode).toBe(1);
    expect(complaints).toContain('broken.winding:5:17: error:');
  });

  it('writes the text of one variant, which is a winding', async () => {
    const chosen = join(folder, 'chosen.winding');
    expect((await explored(file, '--write', '9', '--output', chosen)).exitCode).toBe(0);
    expect(readFileSync(chosen, 'utf8')).toContain('machine { slots 15  poles 14  phases 3 }');
    expect((await complete(run(['check', chosen], '0'))).exitCode).toBe(0);
    const beyond = await explored(file, '--write', '13');
    expect([beyond.exitCode, beyond.complaints]).toEqual([
      2,
      'slotwright: --write 13: there are 12 candidates; explore without --write lists them.\n',
    ]);
  });

  it('joins the parts of all shards to the answer of the whole, byte for byte', async () => {
    const names = [1, 2].map((index) => join(folder, `part-${index}.json`));
    for (const [at, name] of names.entries())
      await explored(file, '--shard', `${at + 1}/2`, '--output', name);
    for (const format of ['json', 'table']) {
      const joined = await explored('--merge', ...[...names].reverse(), '--format', format);
      expect(joined).toEqual(await explored(file, '--format', format));
    }
    const missing = await explored('--merge', names[0]!);
    expect([missing.exitCode, missing.complaints]).toEqual([2, 'slotwright: shard 2 of 2 is missing.\n']);
    expect((await explored('--merge', names[0]!, names[0]!)).complaints).toContain(
      'shard 1 is there already',
    );
    expect((await explored('--merge', file)).complaints).toContain('no JSON of');
  });

  it.each([
    [['--merge', 'a.json', '--write', '1'], '--merge stands alone'],
    [[file, '--shard', '3/2'], 'Which shard of how many'],
    [[file, '--format', 'json', '--output', 'a.csv'], 'does not end like a file of the format json'],
    [[file, '--write', '1', '--format', 'json'], 'leave out --format'],
  ])('refuses %j', async (args, words) => {
    const { exitCode, complaints } = await explored(...args);
    expect(exitCode).not.toBe(0);
    expect(complaints).toContain(words);
  });

  it('asks before more than a hundred thousand whole studies', async () => {
    const many = [
      '--vary',
      'bar height 1 mm to 9 mm by 0.001 mm',
      '--vary',
      'bar width 1 mm 2 mm',
      '--keep',
      'slot-fill <= 80 %',
    ];
    // Where nobody can be asked, as in a pipe, it is refused; `confirmed` has its own test.
    const { isTTY } = process.stdin;
    process.stdin.isTTY = false;
    const { exitCode, complaints } = await explored(file, ...many);
    process.stdin.isTTY = isTTY;
    expect(exitCode).toBe(2);
    expect(complaints).toMatch(/up to 192024 whole studies.*--yes/);
  });

  it('says why a figure is missing', async () => {
    const { output } = await explored(file, '--rank', 'least copper-loss');
    expect(output).toMatch(/copper-loss is missing: it needs '/);
  });

  it('says so where nothing varies', async () => {
    const plain = join(folder, 'plain.winding');
    writeFileSync(plain, 'winding "P"\nmachine { slots 12 poles 10 phases 3 }\nlayout { layers 2 span 1 }\n');
    expect((await explored(plain)).complaints).toContain('nothing varies');
  });
});
