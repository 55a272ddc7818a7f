import { writeFileSync } from 'node:fs';
import { connectNow } from '../../core/facts/connection.ts';
import { checkText } from '../../core/findings/checkedText.ts';
import { significant } from '../../core/language/numbers.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import { route } from '../../core/routing/route.ts';
import { studyOf } from '../../core/study.ts';
import { drawLines, type Series } from '../../core/views/chart/lines.ts';
import { drawView } from '../../core/views/views.ts';

// How work grows with slots and with layers: processor time against that of the smallest usual winding in the same
// process, so that the figures hold on any machine. Run by `npm run bench -- growth`, which writes docs/growth.md.

type Work = () => unknown;

/** What is measured of a winding. */
const measured = ['text to findings', 'layout picture', 'routing'] as const;

interface Row {
  readonly slots: number;
  readonly layers: number;
  /** Milliseconds of processor time, in the order of `measured`. */
  readonly times: readonly number[];
}

/** Full-pitch windings with two slots per pole and phase, in one path a phase. */
function textOf(slots: number, layers: number, joined: boolean): string {
  const connect = joined ? 'connect { star  route paths 1 }\n' : '';
  return `winding "Growth"\nmachine { slots ${slots}  poles ${slots / 6}  phases 3 }\nlayout { layers ${layers}  span 6 }\n${connect}`;
}

/** The least processor time of a run, ms, over stretches of at least 20 ms. */
function least(work: Work): number {
  for (let run = 0; run < 3; run++) work();
  let found = Number.POSITIVE_INFINITY;
  const begun = process.cpuUsage();
  const spent = (since: NodeJS.CpuUsage) => {
    const { user, system } = process.cpuUsage(since);
    return (user + system) / 1000;
  };
  for (let stretch = 0; stretch < 20 && (stretch < 2 || spent(begun) < 1200); stretch++) {
    const start = process.cpuUsage();
    let runs = 0;
    do {
      work();
      runs++;
    } while (spent(start) < 20);
    found = Math.min(found, spent(start) / runs);
  }
  return found;
}

function rowOf(slots: number, layers: number): Row {
  const [alone, joined] = [textOf(slots, layers, false), textOf(slots, layers, true)];
  const { winding } = checkText(alone);
  const found = route(winding!, { paths: 1 });
  if (!found.ok) throw new Error(`${slots} slots in ${layers} layers cannot be connected`);
  const connected = studyOf(checkText(joined, connectNow));
  const times = [
    () => {
      const studied = studyOf(checkText(alone));
      studied.findings.length;
      studied.factorRows();
    },
    () =>
      drawView(
        { title: connected.title, specification: connected.specification, facts: connected.facts! },
        'layout',
      ),
    () => route(winding!, { paths: 1 }),
  ].map(least);
  console.log(`${slots} slots, ${layers} layers: ${times.map((time) => `${time.toFixed(2)} ms`).join(', ')}`);
  return { slots, layers, times };
}

const head = `| slots | layers | bars | ${measured.join(' | ')} |\n| ---: | ---: | ---: | ---: | ---: | ---: |`;

function tableOf(rows: readonly Row[], unit: number): string {
  const lines = rows.map(
    ({ slots, layers, times }) =>
      `| ${slots} | ${layers} | ${slots * layers} | ${times.map((time) => significant(time / unit, 2)).join(' | ')} |`,
  );
  return [head, ...lines].join('\n');
}

/** The three works over slots or layers, on logarithmic axes. */
function chartOf(id: string, left: number, name: 'slots' | 'layers', rows: readonly Row[], unit: number) {
  const looks = [
    ['curve', 'dot'],
    ['second-curve', 'square'],
    ['quiet-curve', 'diamond'],
  ] as const;
  const series = measured.map(
    (what, index): Series => ({
      id: what.replaceAll(' ', '-'),
      name: what,
      role: looks[index]![0],
      marker: looks[index]![1],
      points: rows.map((row) => ({ x: row[name], y: row.times[index]! / unit })),
    }),
  );
  const ys = series.flatMap(({ points }) => points.map(({ y }) => y));
  return drawLines({
    id,
    left,
    top: 8,
    width: 120,
    height: 80,
    title: name === 'slots' ? 'two layers' : '48 slots',
    series,
    x: { logarithmic: name === 'slots' },
    y: { from: Math.min(...ys), to: Math.max(...ys), logarithmic: true },
    xName: name,
    yName: 'processor time, relative',
  }).items;
}

function main(): void {
  // Until the engine is compiled as it is after hours.
  for (const slots of [48, 384, 12]) rowOf(slots, 2);
  const byLayers = [1, 2, 4, 6, 8, 10, 12].map((layers) => rowOf(48, layers));
  const bySlots = [12, 24, 48, 96, 192, 384, 768, 1536, 2400].map((slots) => rowOf(slots, 2));
  const unit = bySlots.find(({ slots }) => slots === 48)!.times[0]!;
  const items = [
    ...chartOf('slots', 4, 'slots', bySlots, unit),
    ...chartOf('layers', 128, 'layers', byLayers, unit),
  ];
  const description = 'Processor time over the number of slots, and over the number of layers.';
  writeFileSync(
    'docs/growth.svg',
    pictureToSvg({ width: 252, height: 92, title: 'How work grows', description, items }),
  );
  writeFileSync(
    'docs/growth.md',
    `# How work grows

Made by \`npm run bench -- growth\`. Processor time relative to that of *text to findings* of 48 slots in two layers, measured in the same process, so that the figures hold on any machine; where it is busy, single ones vary by some tens of percent. The windings are full-pitch, with two slots per pole and phase, three phases, one path a phase, and no sizes: they repeat with every pair of poles, which the figures make use of. One layer takes a search, because its crowns lie in one plane.

- **text to findings**: reading the text, all its findings, and the winding factors of the orders that a report lists
- **layout picture**: drawing the developed winding of a connected text
- **routing**: finding a connection

![Processor time over slots and over layers](growth.svg)

${tableOf(bySlots, unit)}

${tableOf(byLayers, unit)}
`,
  );
}

main();
