import type { Speech } from '../../figures/speech.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { fixed, withMinus } from '../../language/numbers.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { filledShape, pathShape, text, textRow, textSize } from '../../picture/make.ts';
import { arrowHead } from '../../picture/outlines.ts';
import type { PathPart, Primitive, Text } from '../../picture/picture.ts';
import { barName, type Winding } from '../../winding/model.ts';
import { chartNumber } from '../chart/chart.ts';
import { thinnedTexts } from '../chart/labels.ts';
import { emphasisOf } from '../layout/bars.ts';
import type { LayoutInput } from '../layout/input.ts';
import type { PhasorChain } from './chains.ts';
import type { PhaseSum } from './diagram.ts';

/** What the rows of chains need. */
export interface RowsRequest {
  readonly winding: Winding;
  readonly chains: readonly PhasorChain[];
  readonly sums: readonly PhaseSum[];
  readonly emphasis: LayoutInput['emphasis'];
  readonly barSource: LayoutInput['barSource'];
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly speech: Speech;
}

/** A row's sum in words: length, number of bars, quotient, angle against its phase. */
export function sumWords(chain: PhasorChain, sum: PhaseSum, { say }: Speech): string {
  const size = Math.hypot(chain.re, chain.im);
  const count = chain.steps.length;
  if (count === 0) return say('no bars');
  const ratio = say('{0} of {1} = {2}', fixed(size, 3), count, fixed(size / count, 4));
  if (chain.path === null) return ratio;
  const turn = Math.atan2(chain.im * sum.re - chain.re * sum.im, chain.re * sum.re + chain.im * sum.im);
  const degrees = withMinus(fixed((180 * turn) / Math.PI, 2));
  return size < 1e-9 ? ratio : `${ratio}, ${degrees}\u00b0`;
}

/**
 * One row for each chain, turned so that its phase's sum points to the right: every bar one phasor
 * (`data-bar`), all to one scale.
 */
export function drawRows(request: RowsRequest): {
  readonly items: readonly Primitive[];
  readonly bottom: number;
} {
  const { winding, chains, sums, left, top, width, speech } = request;
  const turned = chains.map((chain) => turnedPoints(chain, sums[chain.phase]!));
  const names = chains.map((chain) => rowName(winding, chain, speech));
  const words = chains.map((chain) => sumWords(chain, sums[chain.phase]!, speech));
  const nameWidth = Math.max(...names.map((name) => textWidth(name, textSize))) + 3;
  const wordsWidth = Math.max(...words.map((each) => textWidth(each, textSize))) + 3;
  const low = Math.min(0, ...turned.map(({ minX }) => minX));
  const high = Math.max(1, ...turned.map(({ maxX }) => maxX));
  const tallest = Math.max(1, ...turned.map(({ minY, maxY }) => maxY - minY));
  const unit = Math.min((width - nameWidth - wordsWidth) / (high - low), 60 / tallest, 14);
  const start = left + nameWidth - unit * low;
  const items: Primitive[] = [];
  let y = top;
  turned.forEach((points, index) => {
    const axis = y + textRow + 0.6 + unit * points.maxY;
    const chain = chains[index]!;
    const labels = [
      text(`row-${names[index]}`, 'row-name', left, axis + 0.91, names[index]!),
      text(`row-sum-${names[index]}`, 'value', start + unit * high + 3, axis + 0.91, words[index]!),
    ];
    items.push(...drawRow(request, chain, points, { start, axis, unit }), ...labels);
    y = axis - unit * points.minY + 3.5;
  });
  return { items: [...items, ...drawRowScale(start, y, unit, high, speech)], bottom: y + 1 + textRow };
}

function rowName(winding: Winding, { phase, path }: PhasorChain, { say }: Speech): string {
  const name = winding.phases.names[phase]!;
  return path === null ? say('phase {0}', name) : say('{0}, path {1}', name, path);
}

/** The corners of a chain, x along its phase's sum, y leading it. */
interface TurnedChain {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
}

function turnedPoints(chain: PhasorChain, sum: PhaseSum): TurnedChain {
  const size = Math.hypot(sum.re, sum.im);
  const [cos, sin] = size < 1e-9 ? [1, 0] : [sum.re / size, sum.im / size];
  const xs = [0];
  const ys = [0];
  let [re, im] = [0, 0];
  for (const step of chain.steps) {
    re += step.re;
    im += step.im;
    xs.push(re * cos + im * sin);
    ys.push(im * cos - re * sin);
  }
  const least = (values: readonly number[]) => values.reduce((a, b) => Math.min(a, b), 0);
  const most = (values: readonly number[]) => values.reduce((a, b) => Math.max(a, b), 0);
  return { xs, ys, minX: least(xs), maxX: most(xs), minY: least(ys), maxY: most(ys) };
}

interface RowPlace {
  readonly start: number;
  readonly axis: number;
  readonly unit: number;
}

function drawRow(
  { winding, emphasis, barSource }: RowsRequest,
  chain: PhasorChain,
  points: TurnedChain,
  { start, axis, unit }: RowPlace,
): readonly Primitive[] {
  const { phase } = chain;
  const path = chain.path ?? undefined;
  const key = `${winding.phases.names[phase]}${path === undefined ? '' : `-${path}`}`;
  const shown = emphasisOf({ emphasis }, phase, path);
  const x = (index: number) => start + unit * points.xs[index]!;
  const y = (index: number) => axis - unit * points.ys[index]!;
  const heads: PathPart[] = [];
  const names: Text[] = [];
  const steps = chain.steps.map(({ bar }, index): Primitive => {
    const [fromX, fromY, toX, toY] = [x(index), y(index), x(index + 1), y(index + 1)];
    const head = unit >= 1.2 ? arrowHead(fromX, fromY, toX, toY, 1.5) : null;
    if (head !== null) heads.push(head);
    const name = barName(bar);
    const source = barSource?.(bar);
    names.push(
      text(`step-${name}`, 'layer-letter', (fromX + toX) / 2, axis - unit * points.maxY - 0.9, name, {
        anchor: 'middle',
        subject: { label: name },
        source,
      }),
    );
    return pathShape(`phasor-${name}`, 'phasor', [[fromX, fromY, toX, toY]], {
      subject: { bar: name },
      phase,
      path,
      source,
      emphasis: shown,
    });
  });
  const ticks = path === undefined ? layerTicks(chain, x, y) : [];
  return [
    pathShape(`row-axis-${key}`, 'grid', [[start, axis, x(chain.steps.length), axis]]),
    ...steps,
    ...(heads.length > 0
      ? [filledShape(`row-heads-${key}`, 'phasor-dot', heads, { phase, path, emphasis: shown })]
      : []),
    ...(ticks.length > 0 ? [pathShape(`row-layers-${key}`, 'axis', ticks)] : []),
    ...thinnedTexts(names, 0.6),
  ];
}

/** Marks where the next layer's bars begin. */
function layerTicks(
  chain: PhasorChain,
  x: (index: number) => number,
  y: (index: number) => number,
): readonly PathPart[] {
  return chain.steps.flatMap(({ bar }, index) =>
    index > 0 && chain.steps[index - 1]!.bar.layer !== bar.layer
      ? [[x(index), y(index) - 1.5, x(index), y(index) + 1.5]]
      : [],
  );
}

/** A scale bar in EMFs of one bar. */
function drawRowScale(
  left: number,
  top: number,
  unit: number,
  most: number,
  { say }: Speech,
): readonly Primitive[] {
  const count =
    [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000].find((each) => each * unit >= 12) ?? Math.ceil(most);
  const y = top + 1.5;
  const right = left + count * unit;
  return [
    pathShape('rows-scale', 'axis', [
      [left, y, right, y],
      [left, y - 1, left, y + 1],
      [right, y - 1, right, y + 1],
    ]),
    text(
      'rows-scale-name',
      'axis-number',
      right + 1.5,
      y + 0.91,
      count === 1 ? say('EMF of one bar') : say('EMF of {0} bars', chartNumber(count)),
    ),
  ];
}

/** Letters of the layers in the order of a phase's chain, for notes. */
export function layerOrder({ layers }: Winding): string {
  return Array.from({ length: layers }, (_, layer) => layerLetter(layer)).join(' ');
}
