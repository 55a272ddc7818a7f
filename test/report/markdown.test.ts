// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { visible } from '../../core/language/text/visible.ts';
import { code, sentence } from '../../core/report/markdown/guard.ts';
import { suppliesOf } from '../../core/report/markdown/missing.ts';
import { markdownTable } from '../../core/report/markdown/table.ts';
import { examples, soundExamples } from '../support/files.ts';
import { buildCommands, hostileTexts, inQuotes } from '../support/hostile.ts';
import { forgeActions, headings, html, htmlElements, shownText, tableRows } from '../support/markdown.ts';
import { study } from '../support/study.ts';
import { windingText } from '../support/windingText.ts';

const expected = new Set([
  'h1',
  'h2',
  'h3',
  'p',
  'table',
  'thead',
  'tbody',
  'tr',
  'th',
  'td',
  'ul',
  'li',
  'code',
  'strong',
]);

/** Nothing of the text acts: no markup but ours, no link, mention, reference or command. */
function expectPlain(markdown: string): void {
  expect({
    elements: [...htmlElements(markdown)].filter((name) => !expected.has(name)),
    actions: forgeActions(markdown),
    commands: buildCommands(markdown),
    unseen: markdown.match(/[^\P{C}\n\u200b]|[\u2028\u2029]/gu),
  }).toEqual({ elements: [], actions: [], commands: [], unseen: null });
}

/** The parts of a report in which the user is quoted: without the tables, which take long to read. */
function wordyParts(markdown: string): string {
  return markdown.replace(/## (?:Slot table|Winding factors|Paths and joints)[\s\S]*?(?=\n## )/g, '');
}

describe('the report as Markdown', () => {
  it.each(examples.map(({ name, text }) => [name, text] as const))('is plain: %s', (_, text) => {
    const markdown = study(text).markdown();
    expectPlain(markdown);
    expect(headings(markdown, 1)).toHaveLength(1);
    expect(headings(markdown, 2)).toContain('Findings');
    expect(headings(markdown, 2)).toContain('Cautions');
    expect(markdown.endsWith('\n')).toBe(true);
  });

  it.each(soundExamples.map(({ name, text }) => [name, text] as const))(
    'tells findings before its tables, and each source once: %s',
    (_, text) => {
      const markdown = study(text).markdown();
      const order = headings(markdown, 2).map((heading) => heading.trim());
      expect(order.indexOf('Findings')).toBeLessThan(order.indexOf('Slot table'));
      const [body, list = ''] = markdown.split('\n## Sources\n');
      const used = new Set([...body!.matchAll(/ \[(\d+)\] \|$/gm)].map(([, mark]) => Number(mark)));
      const listed = [...list.matchAll(/^- \[(\d+)\] (.+)$/gm)];
      expect(listed.map(([, mark]) => Number(mark))).toEqual([...used].sort((a, b) => a - b));
      expect(new Set(listed.map(([, , source]) => source)).size).toBe(listed.length);
    },
  );

  it('lists the slots that the others repeat', () => {
    const whole = study(windingText({ machine: 'slots 48 poles 8 phases 3' })).markdown();
    expect(whole).toContain('Slots 1 to 12 of 48; the rest repeats them.');
    expect(whole).toContain('| 12 |');
    expect(whole).not.toMatch(/^\| 13 \| [+-]/m);
  });

  it.each(hostileTexts)('takes nothing in a title for markup: %.40j', (title) => {
    const text = windingText({}).replace('"Sluice gate drive"', () => inQuotes(title));
    const markdown = wordyParts(study(text).markdown());
    expectPlain(markdown);
    const [heading, ...others] = headings(markdown, 1);
    expect(others).toEqual([]);
    // Every visible character of the title is there, as it was written.
    expect(shownText(heading!).trim()).toBe(study(text).title.trim());
  });

  it.each(hostileTexts)('takes nothing in a mistake for markup: %.40j', (mistake) => {
    for (const text of [
      `${windingText({ rest: `sheet { date ${inQuotes(mistake)} title ${inQuotes(mistake)} }` })}${mistake}\n`,
      windingText({ machine: `slots 12 poles 2 phases 3 ${mistake}` }),
    ])
      expectPlain(wordyParts(study(text).markdown()));
  });

  it.each(soundExamples.map(({ name, text }) => [name, text] as const))(
    'has tables of full rows: %s',
    (_, text) => {
      const markdown = study(text).markdown();
      const tables = markdown.split(/\n\n/).filter((part) => part.startsWith('|'));
      expect(tables.length).toBeGreaterThan(3);
      for (const table of tables) {
        const widths = new Set(tableRows(table).map((row) => row.length));
        expect(widths.size, table.slice(0, 80)).toBe(1);
      }
    },
  );

  it.each(soundExamples.map(({ name, text }) => [name, text] as const))(
    'names what is missing once, and below it what it supplies: %s',
    (_, text) => {
      const studied = study(text);
      const body = studied.markdown().split('\n## Not computed\n\n')[1]!.split('\n## ')[0]!.trim();
      const { missing } = studied.report();
      if (missing.length === 0) return expect(body).toBe('None.');
      const lines = body.split('\n\n')[1]!.split('\n');
      expect(lines.join()).not.toMatch(/\b[a-z]+\.[a-z]/i);
      expect(lines.flatMap((line) => line.slice(line.indexOf(': ')).split('; '))).toHaveLength(
        missing.length,
      );
      const supplies = suppliesOf(missing);
      expect(lines).toHaveLength(supplies.length);
      const needs = supplies.flatMap((supply) => supply.needs);
      expect([...needs].sort()).toEqual([...new Set(missing.flatMap((each) => each.needs))].sort());
      const needsOf = new Map(missing.map((each) => [each.quantity, each.needs]));
      const given = new Set<string>();
      for (const { needs, quantities } of supplies) {
        // Each as soon as all that it needs is given, and no sooner.
        for (const quantity of quantities) {
          expect(needsOf.get(quantity)!.every((need) => given.has(need))).toBe(false);
          expect(needsOf.get(quantity)!.every((need) => given.has(need) || needs.includes(need))).toBe(true);
        }
        for (const need of needs) given.add(need);
      }
    },
  );

  it('begins with the missing statements that supply most', () => {
    const missing = [
      { quantity: 'space', needs: ['bar width', 'bar height'] },
      { quantity: 'emf.power', needs: ['machine flux', 'machine current'] },
      { quantity: 'emf.phaseVoltage', needs: ['machine flux'] },
      { quantity: 'emf.lineVoltage', needs: ['machine flux'] },
    ];
    expect(suppliesOf(missing)).toEqual([
      { needs: ['machine flux'], quantities: ['emf.phaseVoltage', 'emf.lineVoltage'] },
      { needs: ['machine current'], quantities: ['emf.power'] },
      { needs: ['bar width', 'bar height'], quantities: ['space'] },
    ]);
  });

  it('shows the slot table of the winding', () => {
    const { winding } = study(soundExamples[0]!.text);
    const rows = tableRows(study(soundExamples[0]!.text).markdown());
    const first = rows.find((row) => row[0] === '1' && row.length === winding!.layers + 1)!;
    expect(first.slice(1).every((place) => /^[+-][A-Z0-9]+$/.test(place))).toBe(true);
  });

  const joined = [...soundExamples, ...examples.filter(({ name }) => name.includes('unequal-paths'))]
    .map(({ name, text }) => [name, study(text)] as const)
    .filter(([, { facts }]) => facts?.connection.kind === 'connected');

  it.each(joined)('signs the offset of a joint shape as its bars lie: %s', (_, studied) => {
    const { connection } = studied.facts!;
    if (connection.kind !== 'connected') throw new RangeError('not joined');
    const { joints } = connection.facts.joints();
    const table = studied.markdown().split('the offset in slots from the bar in the lower layer:')[1]!;
    const rows = tableRows(table.split('\n\n')[1]!).slice(1);
    expect(rows.length).toBeGreaterThan(0);
    for (const [number, , , offset] of rows) {
      const { from, to, span } = joints.find(({ shape }) => shape === Number(number))!;
      const upwards = to.layer - from.layer;
      const told = Number(offset!.replace('\u2212', '-'));
      // Within a layer there is no lower bar: the offset has no sign.
      expect(told).toBe(upwards === 0 ? Math.abs(span) : upwards > 0 ? span : -span);
      expect(offset!.startsWith('+')).toBe(upwards !== 0 && told > 0);
    }
  });

  it.each(joined)('tells the voltage of each path over the mean of its phase: %s', (_, studied) => {
    const rows = tableRows(studied.markdown()).filter((row) => row.length === 9 && row[8]!.endsWith('edeg'));
    const { paths } = studied.report();
    expect(rows.length).toBe(paths.filter(({ voltage }) => voltage.angle !== null).length);
    const bars = new Map(paths.map((path) => [`${path.phase} ${path.path}`, path]));
    for (const row of rows) {
      const path = bars.get(row[0]!)!;
      expect([row[2], row[3], row[5]]).toEqual([path.bars[0], path.bars.at(-1), String(path.bars.length)]);
      expect(Number(row[7])).toBeCloseTo(path.voltage.relative!, 5);
    }
  });

  it('says what it does not know', () => {
    const markdown = study(windingText({})).markdown();
    expect(markdown).toMatch(
      /^- `machine current`: .*\n- `connect star`, `delta` or `open`: MMF in amperes;/m,
    );
    expect(study('').markdown()).toContain('The text yields no winding yet');
  });
});

describe('where the special spans of hairpins lie', () => {
  const written = (first: string, third: string) => `winding "Sluice gate hoist"
machine { slots 36 poles 6 phases 3 }
layout { layers 2 span 6 }
connect { star
path U 1 from U1 14a +6b +6a ${first} to N
path U 2 from U1 13b -6a -6b -5a -6b -6a to N
path U 3 from U1 13a +6b +6a ${third} to N
path U 4 from U1 14b -6a -6b -7a -6b -6a to N
repeat U as V shift 4
repeat U as W shift 8
}`;
  const routed = (layout: string) =>
    `winding "Ferry ramp"\nmachine { slots 48 poles 8 phases 3 }\nlayout { ${layout} }\nconnect { star route paths 2 }`;

  it.each([
    [
      'joined side',
      routed('layers 2 span 6'),
      'Special spans lie on the joined (connection) side; 12 legs are bent by another amount than their ring.',
    ],
    [
      'crowns',
      written('+5b +6a +6b', '+7b +6a +6b'),
      'Special spans lie in the crowns, on the far side; every leg is bent with its ring.',
    ],
    [
      'both sides',
      written('+5b +7a +6b', '+7b +5a +6b'),
      'Special spans lie on both sides, 6 on the joined (connection) side and 12 in the crowns; 12 legs are bent',
    ],
    [
      'neither: tooth coils are joined by pieces',
      'winding "Tidal fan"\nmachine { slots 12 poles 10 phases 3 }\nlayout { layers 2 span 1 }\nconnect { star route paths 1 }',
      'different shapes. Every leg is bent with its ring.',
    ],
  ])('%s', (_, text, words) => {
    const markdown = study(text).markdown();
    expect(markdown).toContain(words);
    expect(markdown.match(/Special spans/g) ?? []).toHaveLength(words.startsWith('Special') ? 1 : 0);
  });

  it('nothing is said of straight bars', () => {
    const text = `${routed('layers 2 span 6')}\nbar { form straight }`;
    expect(study(text).markdown()).not.toContain('Special spans');
  });
});

describe('text of the user in Markdown', () => {
  it.each(hostileTexts)('is shown as it is and acts nowhere, as a sentence or as code: %.40j', (text) => {
    const read = visible(text.replace(/\s+/g, ' ').trim());
    for (const guarded of [sentence(text), code(text, 10_000)]) {
      const places = [guarded, `- ${guarded}`, `**${guarded}**`, `# ${guarded}`, `Said: ${guarded}`];
      for (const place of places) {
        expectPlain(place);
        expect(shownText(html(place)).replace('Said: ', '').trim()).toBe(read);
      }
      const table = markdownTable(['name', 'other'], ['left', 'left'], [[guarded, guarded]]);
      expectPlain(table);
      expect(tableRows(table)[1]!.map((cell) => shownText(cell).replaceAll('\u200b', ''))).toEqual([
        read,
        read,
      ]);
    }
  });

  it('is left alone where it is plain, and put in code where a forge would act', () => {
    expect(sentence("'spam' is no word of layout; did you mean 'span'?")).toBe(
      "'spam' is no word of layout; did you mean 'span'?",
    );
    expect(sentence("'#12' and (GH-3), as in IEC 60034-8.")).toBe("'`#12`' and (`GH-3`), as in IEC 60034-8.");
    expect(sentence('/close 1. x')).toBe('`/close` 1. x');
    expect(code('x'.repeat(200), 20)).toHaveLength(22);
    expect(code('\u0007')).toBe('`\ufffd`');
    expect([code(' '), sentence(' ')]).toEqual(['', '']);
  });
});

describe('temperatures', () => {
  it('are told to a tenth of a degree', () => {
    const texts = soundExamples.map(({ text }) => study(text).markdown()).join('\n');
    expect(texts).toMatch(/\| hot spot \| \d+\.\d °C \|/);
    expect(texts).not.toMatch(/\d\.\d\d+ (°C|K )/);
    const points = tableRows(texts).filter((row) => row[0] === 'haul');
    expect(points.length).toBeGreaterThan(0);
    for (const row of points) expect(row[9]).toMatch(/^\d+\.\d$/);
  });
});
