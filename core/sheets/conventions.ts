import { layerLetter } from '../language/layerLetters.ts';
import type { PhaseConnection } from '../language/specification/statements.ts';
import { filledShape, group, pathShape } from '../picture/make.ts';
import { arrowHeadAt, boxOutline } from '../picture/outlines.ts';
import type { PathPart, Primitive } from '../picture/picture.ts';
import type { Winding } from '../winding/model.ts';
import { terminalWords } from './joining.ts';
import type { Block } from './page/flow.ts';
import type { Area } from './page/format.ts';
import { wholeBlock } from './page/split.ts';
import { drawHeading, headingHeight } from './page/table.ts';
import { line, linePitch, toBase, widthOf, wrapped } from './page/text.ts';

/** Words of the slots' and layers' names, shared by the conventions box and the foot of each sheet. */
function layersWords({ layers }: Winding): string {
  return layers === 1
    ? 'The only layer is a'
    : `Layers are lettered a ${layers === 2 ? 'and' : 'to'} ${layerLetter(layers - 1)} from the axis outwards`;
}

/** What a bar may be called in an example: the last layer of a slot in the middle. */
function exampleBar({ layers, slots }: Winding): { readonly name: string; readonly words: string } {
  const [slot, letter] = [Math.min(7, slots), layerLetter(Math.min(1, layers - 1))];
  return { name: `${slot}${letter}`, words: `the bar of slot ${slot} in layer ${letter}` };
}

/** What the sign before a phase's name tells of a bar. */
function senseWords({ phases }: Winding): string {
  const phase = phases.names[0]!;
  return `+${phase}: a current that enters at the line terminal of ${phase} runs from the connection side to the far side (arrow down); \u2212${phase}: back.`;
}

const strokesWords = 'Cross strokes on a bar count its parallel path; a wide stroke counts five.';

/** The conventions in sentences. */
function conventions(winding: Winding, connection: PhaseConnection | null): readonly string[] {
  const { slots, phases, layers } = winding;
  const example = exampleBar(winding);
  const lean = winding.lean.some((each) => each !== 0);
  return [
    `Seen from the connection side, the end where the leads come out, slots are numbered clockwise from 1 to ${slots}. The other end is the far side; seen from there they run counterclockwise.`,
    `${layersWords(winding)}; ${example.name} is ${example.words}.`,
    senseWords(winding),
    'Spans count slots from one bar to the next, + towards higher slot numbers.',
    terminalWords(phases, connection),
    `Layouts are developed, not to scale, and seen from the axis with the connection side at the top.${layers > 1 ? ` In a slot the layers stand from left to right, a to ${layerLetter(layers - 1)}.` : ''} A line cut at the end of a row goes on where the same number or name stands.`,
    ...(winding.parallelPaths > 1 ? [strokesWords] : []),
    'Dimensions in mm. Figures are to scale only where a scale stands at them. In CAD files a unit is a millimeter of the sheet.',
    ...(lean ? ['Leaning bars are drawn with their true lean in slot pitches over the drawn stack.'] : []),
  ];
}

/** The same in short, for the foot of every sheet. */
function shortConventions(winding: Winding): readonly string[] {
  const example = exampleBar(winding);
  const strokes = winding.parallelPaths > 1 ? ` ${strokesWords}` : '';
  return [
    `Slots 1 to ${winding.slots} clockwise as seen from the connection side. ${layersWords(winding)}; ${example.name}: ${example.words}. Spans in slots. Terminals after IEC 60034-8.`,
    senseWords(winding),
    `Layouts: developed, not to scale, seen from the axis. A line cut at the end of a row goes on at the same number or name.${strokes} Thick joints are special: of another span, between other layers, or made by a separate piece.`,
  ];
}

const sampleLength = 14;
const footPitch = 3.5;
const legendPitch = 4;

/** The foot of every sheet: conventions in short and the phases' line patterns. */
export interface Foot {
  /** In mm. */
  readonly height: number;
  readonly draw: (left: number, top: number) => Primitive;
}

/** The foot of every sheet, as wide as said. */
export function sheetFoot(winding: Winding, width: number): Foot {
  const lines = shortConventions(winding).flatMap((words) => wrapped(words, 1.8, width));
  const { names } = winding.phases;
  const cell = sampleLength + 1.5 + Math.max(...names.map((name) => widthOf(name, 1.8))) + 5;
  const columns = Math.max(1, Math.floor(width / cell));
  const legendTop = lines.length * footPitch + 1;
  return {
    height: legendTop + Math.ceil(names.length / columns) * legendPitch,
    draw: (left, top) =>
      group('foot', 'note', [
        ...lines.map((words, index) =>
          line(`foot-${index + 1}`, 'sheet-text', left, top + index * footPitch + toBase(1.8), words, {
            height: 1.8,
          }),
        ),
        ...names.flatMap((name, phase): Primitive[] => {
          const x = left + (phase % columns) * cell;
          const y = top + legendTop + Math.floor(phase / columns) * legendPitch;
          const middle = y + 1.6;
          return [
            pathShape(`legend-line-${name}`, 'legend-line', [[x, middle, x + sampleLength, middle]], {
              phase,
            }),
            line(`legend-${name}`, 'legend-name', x + sampleLength + 1.5, y + 2.5, name, { height: 1.8 }),
          ];
        }),
      ]),
  };
}

const figureWidth = 58;

/** The conventions box: two figures and the sentences beside them. */
export function conventionsBlock(
  winding: Winding,
  connection: PhaseConnection | null,
  section: string,
  width: number,
): Block {
  const textWidth = width - figureWidth - 6;
  const sentences = conventions(winding, connection).map((words) => wrapped(words, 2.5, textWidth));
  const pitch = linePitch(2.5);
  const textHeight = sentences.reduce((sum, lines) => sum + lines.length * pitch + 1.6, 0);
  const height = headingHeight + Math.max(textHeight, 104) + 3;
  return wholeBlock(
    { section, width },
    {
      height,
      draw: (left, top) =>
        drawConventions(winding, sentences, { left, top, right: left + width, bottom: top + height }),
    },
  );
}

function drawConventions(
  winding: Winding,
  sentences: readonly (readonly string[])[],
  { left, top, right, bottom }: Area,
): readonly Primitive[] {
  const items: Primitive[] = [...drawHeading('conventions-heading', 'Conventions', left, top)];
  const boxTop = top + headingHeight;
  items.push(pathShape('conventions-frame', 'table-line', [boxOutline(left, boxTop, right, bottom)]));
  let y = boxTop + 2;
  sentences.forEach((lines, sentence) => {
    lines.forEach((words, row) => {
      const id = `convention-${sentence + 1}-${row + 1}`;
      items.push(line(id, 'sheet-text', left + figureWidth + 3, y + toBase(2.5), words, { height: 2.5 }));
      y += linePitch(2.5);
    });
    y += 1.6;
  });
  items.push(
    ...drawView(winding, left + figureWidth / 2, boxTop + 35),
    ...drawSense(winding, {
      left: left + 6,
      top: boxTop + 72,
      right: left + figureWidth - 4,
      bottom: boxTop + 105,
    }),
  );
  return items;
}

/** The view onto the connection side: slots clockwise from the top, layers from the axis. */
function drawView(winding: Winding, x: number, y: number): readonly Primitive[] {
  const { slots, layers } = winding;
  const [inner, outer] = [12.5, 23.2];
  const shown = Math.min(slots, 12);
  const angle = (place: number) => ((place - 0.25 * shown) * 2 * Math.PI) / shown;
  const at = (place: number, radius: number): [number, number] => [
    x + radius * Math.cos(angle(place)),
    y + radius * Math.sin(angle(place)),
  ];
  const borders = Array.from(
    { length: shown },
    (_, place): PathPart => [...at(place + 0.5, inner), ...at(place + 0.5, outer)],
  );
  const named = shown === slots ? [...Array(shown).keys()].map((place) => place + 1) : [1, 2, 3, 4];
  const numbers = named.map((slot) => {
    const [nx, ny] = at(slot - 1, outer + 3.2);
    return line(`view-slot-${slot}`, 'sheet-text', nx, ny + 1.25, String(slot), {
      height: 2.5,
      anchor: 'middle',
    });
  });
  if (shown < slots) {
    const [nx, ny] = at(shown - 1, outer + 3.8);
    numbers.push(
      line('view-slot-last', 'sheet-text', nx, ny + 1.25, String(slots), { height: 2.5, anchor: 'middle' }),
    );
  }
  const letters = layers === 1 ? ['a'] : ['a', layerLetter(layers - 1)];
  const names = letters.map((letter, index) =>
    line(
      `view-layer-${letter}`,
      'sheet-text',
      x,
      y - (index === 0 && layers > 1 ? inner + 1.1 : outer - 3),
      letter,
      { height: 1.8, anchor: 'middle' },
    ),
  );
  const arrow = arcPoints(x, y, 8.5, -150, 20);
  const [tipX, tipY] = [arrow.at(-2)!, arrow.at(-1)!];
  return [
    ...[inner, outer].map((radius) => ({
      kind: 'arc' as const,
      id: `view-circle-${radius}`,
      role: 'sketch-line' as const,
      x,
      y,
      radius,
      from: 0,
      to: 360,
    })),
    pathShape('view-borders', 'sketch-line', borders),
    ...numbers,
    ...names,
    pathShape('view-turn', 'dimension-line', [arrow]),
    filledShape('view-turn-tip', 'dimension-arrow', [arrowHeadAt(tipX, tipY, 112, 3.2, 4)]),
    line('view-name', 'sheet-text', x, y + outer + 9, 'view onto the connection side', {
      height: 1.8,
      anchor: 'middle',
    }),
  ];
}

function arcPoints(x: number, y: number, radius: number, from: number, to: number): number[] {
  return Array.from(
    { length: 25 },
    (_, step) => ((from + ((to - from) * step) / 24) * Math.PI) / 180,
  ).flatMap((turn) => [x + radius * Math.cos(turn), y + radius * Math.sin(turn)]);
}

/** A + bar and a - bar between the two sides. */
function drawSense({ phases }: Winding, { left, right, top, bottom }: Area): readonly Primitive[] {
  const [name] = phases.names;
  const x = (left + right) / 2;
  const [stackTop, stackBottom] = [top + 8, bottom - 8];
  const [plus, minus] = [x - 9, x + 9];
  const ends = [top + 3.5, bottom - 3.5];
  const middle = (stackTop + stackBottom) / 2;
  return [
    pathShape(
      'sense-core',
      'core-end',
      [stackTop, stackBottom].map((y) => [left, y, right, y]),
    ),
    pathShape(
      'sense-bars',
      'sketch-bar',
      [plus, minus].map((bar) => [bar, ends[0]!, bar, ends[1]!]),
    ),
    filledShape('sense-arrows', 'dimension-arrow', [
      arrowHeadAt(plus, middle + 2, 90, 4, 3),
      arrowHeadAt(minus, middle - 2, -90, 4, 3),
    ]),
    line('sense-plus', 'sheet-text', plus - 2.5, middle + 1.25, `+${name}`, { height: 2.5, anchor: 'end' }),
    line('sense-minus', 'sheet-text', minus + 2.5, middle + 1.25, `\u2212${name}`, { height: 2.5 }),
    line('sense-connection', 'sheet-text', x, top + 2, 'connection side', { height: 1.8, anchor: 'middle' }),
    line('sense-far', 'sheet-text', x, bottom - 0.6, 'far side', { height: 1.8, anchor: 'middle' }),
  ];
}
