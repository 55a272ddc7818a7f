import { expect, test } from 'vitest';
import { textBox } from '../../core/picture/bounds.ts';
import { stretchesOf, stretchMeets } from '../../core/views/chart/labels.ts';
import { drawView } from '../../core/views/views.ts';
import { withLine } from '../copper/machines.ts';
import { smallDrive } from '../operation/machines.ts';
import { examples } from '../support/files.ts';
import { study } from '../support/study.ts';
import { told, toldDuty } from '../support/told.ts';
import { expectGood, pathOf, pathsOf, textOf, textsOf, valuesAtHeight } from './chartReading.ts';

function draw(text: string) {
  const { title, specification, facts } = study(text);
  return expectGood(drawView({ title, specification, facts: facts! }, 'operation'));
}

test('torque, power, voltage and power factor over the speed, with base speed, voltage and rated point', () => {
  const picture = draw(smallDrive);
  for (const id of ['torque', 'power', 'voltage', 'power-factor']) {
    expect(textOf(picture, `${id}-title`).text).not.toBe('');
    expect(textOf(picture, `${id}-point-1-name`).text).toBe('rated');
  }
  const { baseSpeed } = told('operation', study(smallDrive).facts!.operation());
  expect(textOf(picture, 'torque-base-mark-name').text).toBe(
    `base speed ${Number((60 * baseSpeed!).toPrecision(5))} rpm`,
  );
  expect(textOf(picture, 'voltage-level-name').text).toBe('voltage 36 V');
  expect(picture.description).toContain('Torque at the rated point');
});

test('without a voltage there is no curve, and the picture names it', () => {
  const picture = draw(withLine(smallDrive, 'voltage', null));
  expect(textOf(picture, 'torque-chart-needs').text).toContain('machine voltage');
});

test('points of the duty stand in the charts, and the temperature of its cycle has one of its own', () => {
  const duty = `duty {
  point "haul" speed 3000 rpm torque 12 Nm for 2 min
  point "rest" speed 0 rpm current 0 A for 4 min
}
`;
  const picture = draw(smallDrive + duty);
  expect(textOf(picture, 'torque-point-2-name').text).toBe('haul');
  expect(textOf(picture, 'cycle-title').text).toContain('over the cycle');
  const [haul] = toldDuty(study(smallDrive + duty).facts!.duty()).points;
  expect(textOf(picture, 'loss-1-value').text).toBe(String(Number(haul!.loss.total!.toPrecision(4))));
  // What comes on top of the DC loss stands on it, as high as the axis says.
  const valueAt = valuesAtHeight(picture, 'losses');
  const outline = pathOf(picture, 'loss-1-further').parts[0] as readonly number[];
  const heights = outline.filter((_, index) => index % 2 === 1).map(valueAt);
  expect(Math.max(...heights) / haul!.loss.total!).toBeCloseTo(1, 2);
  expect(Math.min(...heights) / haul!.loss.dc!).toBeCloseTo(1, 2);
  expect(picture.description).toContain('Highest temperature of a duty cycle');
});

/** All names of points of a chart, and the stretches of all that is drawn in its field but the grid. */
function pointsOf(picture: ReturnType<typeof draw>, chart: string) {
  const names = textsOf(picture).filter(({ id }) => id.startsWith(`${chart}-point-`));
  const lines = ['curve', 'base-mark', 'level', 'point-leaders'].flatMap((name) =>
    pathsOf(picture, `${chart}-${name}`),
  );
  const stretches = lines.flatMap(({ parts }) =>
    parts.flatMap((part) => stretchesOf(part as readonly number[])),
  );
  return { names, stretches, count: pathOf(picture, `${chart}-points`).parts.length };
}

const charts = ['torque', 'power', 'voltage', 'power-factor'];

test('every point of the duty has its name, clear of base speed, voltage and curve', () => {
  const picture = draw(examples.find(({ name }) => name === 'slipway-carriage.winding')!.text);
  for (const chart of charts) {
    const { names, stretches, count } = pointsOf(picture, chart);
    expect(stretches.length).toBeGreaterThan(10);
    expect([chart, names.length]).toEqual([chart, count]);
    const crossed = names.filter((name) => stretches.some((stretch) => stretchMeets(stretch, textBox(name))));
    expect(crossed.map(({ text }) => `${chart}: ${text}`)).toEqual([]);
  }
});

test('where points stand at one place, thin lines lead from it to names further off', () => {
  const points = ['creep', 'crawl', 'inch', 'nudge', 'hold still']
    .map((name, index) => `  point "${name}" speed ${2990 + 4 * index} rpm torque 12 Nm for 1 min\n`)
    .join('');
  const picture = draw(`${smallDrive}duty {\n${points}}\n`);
  const { names, stretches, count } = pointsOf(picture, 'torque');
  expect(names).toHaveLength(count);
  const [leaders] = pathsOf(picture, 'torque-point-leaders');
  const marks = pathOf(picture, 'torque-points').parts.map(([x, y]) => [x!, y! + 0.95]);
  for (const [x1, y1, x2, y2] of leaders!.parts as readonly number[][]) {
    const near = (x: number, y: number) => Math.hypot(x - x1!, y - y1!) < 1.21;
    expect(marks.some(([x, y]) => near(x!, y!))).toBe(true);
    const boxes = names.map(textBox);
    const gap = (box: (typeof boxes)[number]) =>
      Math.max(box.left - x2!, x2! - box.right, box.top - y2!, y2! - box.bottom);
    expect(Math.min(...boxes.map(gap))).toBeLessThan(0.6);
  }
  const crossed = names.filter((name) => stretches.some((stretch) => stretchMeets(stretch, textBox(name))));
  expect(crossed.map(({ text }) => text)).toEqual([]);
});

test('of five phases the level stands at what adjacent terminals have where the largest line voltage is the stated one', () => {
  const five = smallDrive
    .replace('slots 24', 'slots 20')
    .replace('phases 3', 'phases 5')
    .replace('span 6', 'span 5');
  const picture = draw(five);
  const valueAt = valuesAtHeight(picture, 'voltage');
  const level = valueAt(pathOf(picture, 'voltage-level').parts[0]![1]!);
  // Chords of a pentagon: over one corner, and over two.
  expect(level / (36 * (Math.sin(Math.PI / 5) / Math.sin((2 * Math.PI) / 5)))).toBeCloseTo(1, 2);
});
