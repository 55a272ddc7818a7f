import { significant } from '../../../core/language/numbers.ts';
import type { ShownVariants } from '../../protocol/shownVariants.ts';
import type { VariantsWords } from '../../protocol/variantsWords.ts';
import { filled, textElement } from '../parts.ts';
import { type SvgAttributes, svgElement } from '../svgElement.ts';
import type { Size } from '../viewport/viewport.ts';
import { type Axis, axisOf } from './axis.ts';
import { candidateWords } from './candidate.ts';
import { createChanges } from './changes.ts';
import { axesOf, columnTitle, type Seen, type VariantsPart } from './look.ts';

export interface ChartHooks {
  /** A candidate is looked at. */
  readonly look: (number: number) => void;
  /** It is to be set beside others, or taken away. */
  readonly toggle: (number: number) => void;
}

interface Point {
  readonly number: number;
  readonly kind: 'front' | 'listed' | 'other' | 'own';
  readonly left: number;
  readonly top: number;
}

const margin = { left: 58, right: 14, top: 10, bottom: 40 };
/** Pixels about a point within which a press means it. */
const reach = 14;

/** The chart of two columns, a point for each candidate; it takes the room of its element. */
export function createChart(words: VariantsWords, { look, toggle }: ChartHooks): VariantsPart {
  const element = document.createElement('div');
  element.className = 'variants-chart';
  const svg = svgElement('svg', {
    class: 'picture',
    role: 'slider',
    tabindex: '0',
    'aria-describedby': 'panel-variants-chart-keys',
  });
  const keys = textElement('p', words.chartKeys);
  keys.className = 'unseen';
  keys.id = 'panel-variants-chart-keys';
  const none = textElement('p', words.noChart);
  none.className = 'variants-quiet';
  element.append(svg, none, keys);
  let points: readonly Point[] = [];
  let shown: { readonly variants: ShownVariants; readonly seen: Seen } | null = null;
  const hasChanged = createChanges();

  /** The candidates that the keys go along. */
  const along = () =>
    points
      .filter(({ kind }) => kind === 'front' || kind === 'listed')
      .sort((a, b) => a.left - b.left || a.top - b.top || a.number - b.number);
  const nearest = ({ offsetX, offsetY }: MouseEvent): Point | undefined => {
    let best: Point | undefined;
    let least = reach * reach;
    for (const point of points) {
      const distance = (point.left - offsetX) ** 2 + (point.top - offsetY) ** 2;
      // Those that are listed come before the others, which lie under them.
      if (point.number > 0 && distance < least) [best, least] = [point, distance];
    }
    return best;
  };
  svg.addEventListener('click', (event) => {
    const point = nearest(event as MouseEvent);
    if (point) look(point.number);
  });
  svg.addEventListener('dblclick', (event) => {
    const point = nearest(event as MouseEvent);
    if (point) toggle(point.number);
  });
  svg.addEventListener('keydown', (event) => {
    const { key } = event as KeyboardEvent;
    const current = shown?.seen.current ?? 0;
    const candidates = along();
    const at = candidates.findIndex(({ number }) => number === current);
    const last = candidates.length - 1;
    const [next, previous] = [at + 1, Math.max(0, at - 1)];
    const to = {
      ArrowRight: next,
      ArrowUp: next,
      ArrowLeft: previous,
      ArrowDown: previous,
      Home: 0,
      End: last,
    }[key];
    if (key === ' ' && current > 0) toggle(current);
    else if (to === undefined) return;
    event.preventDefault();
    const point = to === undefined ? undefined : candidates[Math.min(last, to)];
    if (point) look(point.number);
  });

  const draw = () => {
    if (shown === null) return;
    const { variants, seen } = shown;
    const { question } = variants;
    const [width, height] = [element.clientWidth, Math.max(160, element.clientHeight)];
    if (question === null || width === 0) return;
    const columns = axesOf(question, seen.look, variants);
    const all = pointsOf(variants, columns);
    const axes = axesFor(all, { width, height });
    none.hidden = axes !== null;
    svg.toggleAttribute('hidden', axes === null);
    if (axes === null) return;
    points = all.map(({ number, kind, x, y }) => ({
      number,
      kind,
      left: axes.across.at(x),
      top: axes.upwards.at(y),
    }));
    const titles = {
      x: columnTitle(question.columns[columns.x]!),
      y: columnTitle(question.columns[columns.y]!),
    };
    const front = points.filter(({ kind }) => kind === 'front');
    svg.setAttribute('width', String(width));
    svg.setAttribute('height', String(height));
    svg.replaceChildren(
      ...gridShapes(axes, { width, height }),
      ...titleShapes(titles, { width, height }),
      ...frontShapes(front),
      ...drawnOrder(points).map(pointShape),
      ...markShapes(points, seen),
    );
    const [x, y] = [spanOf(all, 'x'), spanOf(all, 'y')];
    svg.setAttribute(
      'aria-label',
      filled(words.chartWords, all.length, titles.x, ...x, titles.y, ...y, front.length),
    );
    // To a screen reader it is a slider along the candidates, whose value is the one looked at, in words.
    const candidates = along();
    svg.setAttribute('aria-valuemin', '0');
    svg.setAttribute('aria-valuemax', String(candidates.length));
    const place = candidates.findIndex(({ number }) => number === seen.current) + 1;
    svg.setAttribute('aria-valuenow', String(place));
    svg.setAttribute('aria-valuetext', candidateWords(variants, seen, words));
  };
  new ResizeObserver(draw).observe(element);
  return {
    element,
    show: (variants, seen) => {
      shown = { variants, seen };
      const { question, own, rows, others } = variants;
      if (hasChanged(question, own, rows, others, seen)) draw();
    },
  };
}

/** A candidate by its amounts in the columns of the axes. */
type Amounts = Pick<Point, 'number' | 'kind'> & { readonly x: number; readonly y: number };

/** What has a number in both columns. */
function pointsOf(
  { own, rows, others }: ShownVariants,
  { x, y }: { readonly x: number; readonly y: number },
): readonly Amounts[] {
  const made = (number: number, kind: Point['kind'], amounts: readonly (number | null | undefined)[]) => {
    const [across, upwards] = [amounts[x] ?? null, amounts[y] ?? null];
    return across === null || upwards === null ? [] : [{ number, kind, x: across, y: upwards }];
  };
  return [
    ...rows.flatMap(({ number, front, amounts }) => made(number, front ? 'front' : 'listed', amounts)),
    ...(own ? made(0, 'own', own.amounts) : []),
    ...others.flatMap(([number, ...amounts]) => made(number ?? 0, 'other', amounts)),
  ];
}

interface Axes {
  readonly across: Axis;
  readonly upwards: Axis;
}

/** Axes over all amounts; null where there is nothing to span. */
function axesFor(all: readonly Amounts[], { width, height }: Size): Axes | null {
  const across = axisOf(
    all.map(({ x }) => x),
    margin.left,
    width - margin.right,
    Math.max(2, Math.floor((width - margin.left) / 56)),
  );
  const upwards = axisOf(
    all.map(({ y }) => y),
    height - margin.bottom,
    margin.top,
    Math.max(2, Math.floor(height / 40)),
  );
  return across === null || upwards === null ? null : { across, upwards };
}

/** The least and the largest amount, as told to those who do not see the chart. */
function spanOf(all: readonly Amounts[], of: 'x' | 'y'): readonly [string, string] {
  const values = all.map((amounts) => amounts[of]);
  return [significant(Math.min(...values)), significant(Math.max(...values))];
}

function gridShapes({ across, upwards }: Axes, { width, height }: Size): readonly SVGElement[] {
  const bottom = height - margin.bottom;
  const line = (d: string) => svgElement('path', { class: 'variants-grid', d });
  return [
    ...across.ticks.flatMap(({ value, text }) => {
      const x = across.at(value);
      return [
        line(`M${x} ${margin.top}V${bottom}`),
        label(text, { x, y: bottom + 15, 'text-anchor': 'middle' }),
      ];
    }),
    ...upwards.ticks.flatMap(({ value, text }) => {
      const y = upwards.at(value);
      return [
        line(`M${margin.left} ${y}H${width - margin.right}`),
        label(text, { x: margin.left - 6, y: y + 4, 'text-anchor': 'end' }),
      ];
    }),
  ];
}

function titleShapes(titles: { readonly x: string; readonly y: string }, { width, height }: Size) {
  const middle = (margin.top + height - margin.bottom) / 2;
  return [
    label(titles.x, { x: (margin.left + width) / 2, y: height - 6, 'text-anchor': 'middle' }),
    label(titles.y, { x: -middle, y: 13, transform: 'rotate(-90)', 'text-anchor': 'middle' }),
  ];
}

/** The line that joins the front. */
function frontShapes(front: readonly Point[]): readonly SVGElement[] {
  if (front.length < 2) return [];
  const along = [...front].sort((a, b) => a.left - b.left || b.top - a.top);
  const d = along.map(({ left, top }, index) => `${index === 0 ? 'M' : 'L'}${left} ${top}`).join('');
  return [svgElement('path', { class: 'variants-front', d })];
}

/** The points as they lie over each other, those of the front and of the text on top. */
function drawnOrder(points: readonly Point[]): readonly Point[] {
  const bottommost = ['other', 'listed', 'front', 'own'];
  return [...points].sort((a, b) => bottommost.indexOf(a.kind) - bottommost.indexOf(b.kind));
}

/** Rings about the candidate looked at and those beside. */
function markShapes(points: readonly Point[], { current, beside }: Seen): readonly SVGElement[] {
  return points
    .filter(({ number }) => number > 0 && (number === current || beside.includes(number)))
    .map(({ number, left, top }) =>
      svgElement('circle', {
        class: number === current ? 'variants-current' : 'variants-beside',
        cx: left,
        cy: top,
        r: number === current ? 9 : 7,
      }),
    );
}

/** Kinds are told apart by their shape: a filled diamond, a ring, a dot, a cross. */
function pointShape({ kind, left, top }: Point): SVGElement {
  switch (kind) {
    case 'front':
      return svgElement('path', {
        class: 'variants-best',
        d: `M${left} ${top - 5.5}l5.5 5.5-5.5 5.5-5.5-5.5z`,
      });
    case 'own':
      return svgElement('path', {
        class: 'variants-own',
        d: `M${left - 6} ${top}h12M${left} ${top - 6}v12`,
      });
    default:
      return svgElement('circle', {
        class: kind === 'listed' ? 'variants-listed' : 'variants-other',
        cx: left,
        cy: top,
        r: kind === 'listed' ? 3.5 : 1.5,
      });
  }
}

/** The shapes of the legend, each with its words. */
export function legend(words: VariantsWords): HTMLElement {
  const list = document.createElement('ul');
  list.className = 'variants-legend';
  const kinds = [
    ['front', words.legendFront],
    ['listed', words.legendListed],
    ['other', words.legendOther],
    ['own', words.legendOwn],
  ] as const;
  for (const [kind, text] of kinds) {
    const item = document.createElement('li');
    const svg = svgElement('svg', { width: 14, height: 14, 'aria-hidden': 'true' });
    svg.append(pointShape({ number: 0, kind, left: 7, top: 7 }));
    item.append(svg, text);
    list.append(item);
  }
  return list;
}

function label(text: string, attributes: SvgAttributes): SVGElement {
  const element = svgElement('text', attributes);
  element.textContent = text;
  return element;
}
