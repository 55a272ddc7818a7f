import type { CopperResult } from '../../copper/copper.ts';
import type { CopperCurves } from '../../copper/curves.ts';
import { plural } from '../../language/lists.ts';
import { significant } from '../../language/numbers.ts';
import { fitText, wrapText } from '../../picture/fontMetrics.ts';
import { baseLine, group, text, textRow, textSize } from '../../picture/make.ts';
import type { Picture, Primitive } from '../../picture/picture.ts';
import { layerLetter, type Winding } from '../../winding/model.ts';
import { frameFor, pagePicture, windingWords } from '../chart/page.ts';
import type { Room } from '../room.ts';
import {
  acRatioByLayerChart,
  acRatioCurveChart,
  type ChartPlace,
  heatChart,
  leanCostChart,
  leanStiffnessChart,
  leanStressChart,
} from './charts.ts';

/** What the copper view shows. */
export interface CopperViewInput {
  readonly title: string;
  readonly winding: Winding;
  readonly result: CopperResult;
  readonly curves: CopperCurves;
  /** The machine's electrical frequency, Hz; null where the text does not give it. */
  readonly frequency: number | null;
  /** The panel's room; left out on paper. */
  readonly room?: Room | undefined;
}

const cell = { width: 126, height: 76, gap: 8 };

/** A chart; null where data for it lack. */
interface Cell {
  readonly id: string;
  readonly title: string;
  readonly draw: ((place: ChartPlace) => readonly Primitive[]) | null;
  /** Quantities of the report that say what is missing. */
  readonly quantities: readonly string[];
}

/** The charts' size, and how many stand in a row: two on paper, as many as are legible in a panel. */
function cellsFor(room: Room | undefined) {
  const { margin, top, width } = frameFor(room);
  if (room === undefined || width === null) return { ...cell, margin, top, columns: 2 };
  const inner = width - 2 * margin;
  const columns = Math.max(1, Math.floor((inner + cell.gap) / (104 + cell.gap)));
  const each = (inner - (columns - 1) * cell.gap) / columns;
  return { ...cell, width: Math.min(each, 160), margin, top, columns };
}

/** The copper's charts in rows, and below them which statements the others need. */
export function copperPicture(input: CopperViewInput): Picture {
  const { room } = input;
  const grid = cellsFor(room);
  const cells = cellsOf(input);
  const drawn = cells.flatMap(({ id, draw }) => (draw ? [{ id, draw }] : []));
  const charts = drawn.map(({ id, draw }, index): Primitive => {
    const place = {
      left: grid.margin + (index % grid.columns) * (grid.width + grid.gap),
      top: grid.top + Math.floor(index / grid.columns) * (grid.height + grid.gap),
      width: grid.width,
      height: grid.height,
    };
    return group(id, 'curve', draw(place));
  });
  const bottom = grid.top + Math.ceil(drawn.length / grid.columns) * (grid.height + grid.gap);
  const width = 2 * grid.margin + grid.columns * (grid.width + grid.gap) - grid.gap;
  const needs = cells
    .filter(({ draw }) => !draw)
    .map((each) => ({ id: each.id, words: `${each.title}: ${needsOf(input, each)}` }));
  const textRoom = width - 2 * grid.margin;
  const missing =
    room === undefined ? drawNeeds(needs, bottom, grid.margin, textRoom) : wrapNeeds(needs, bottom, grid);
  const page = {
    title: input.title,
    view: 'copper',
    facts: windingWords(input.winding),
    description: describe(input),
    items: [...charts, ...(missing.items.length > 0 ? [group('missing', 'note', missing.items)] : [])],
    width,
    bottom: missing.items.length > 0 ? bottom + missing.height : bottom - grid.gap,
    notes: copperNotes(input.result),
  };
  return pagePicture(page, room);
}

/** What a chart that is not there needs. */
interface Need {
  readonly id: string;
  readonly words: string;
}

/** What the missing charts need, a row each. */
function drawNeeds(needs: readonly Need[], top: number, left: number, width: number) {
  const items = needs.map(({ id, words }, index): Primitive => {
    const y = top + index * (textRow + 1) + baseLine;
    return text(`${id}-needs`, 'value', left, y, fitText(words, textSize, width));
  });
  return { items, height: needs.length * (textRow + 1) };
}

/** The same in a panel, wrapped. */
function wrapNeeds(needs: readonly Need[], top: number, grid: ReturnType<typeof cellsFor>) {
  const width = grid.columns * (grid.width + grid.gap) - grid.gap;
  const lines = needs.flatMap(({ id, words }) =>
    wrapText(words, textSize, width).map((line, index) => ({ id: `${id}-needs-${index + 1}`, line })),
  );
  const items = lines.map(
    ({ id, line }, index): Primitive =>
      text(id, 'value', grid.margin, top + index * (textRow + 1) + baseLine, line),
  );
  return { items, height: lines.length * (textRow + 1) };
}

const shownModels: Readonly<Record<string, string>> = {
  'copper.acRatio.layers': 'AC over DC resistance',
  'copper.heat.rise': 'Temperature rise',
  'copper.cage.stiffness': 'Stiffness',
};

/** The models behind the charts with their sources, and what was assumed. */
function copperNotes({ models, assumptions }: CopperResult): readonly string[] {
  const lines = models.flatMap(({ quantity, line, source }) => {
    const name = shownModels[quantity];
    return name === undefined ? [] : [`${name}: ${line} (${source}).`];
  });
  return assumptions.length === 0 ? lines : [...lines, `Assumed: ${assumptions.join('; ')}.`];
}

function cellsOf({ winding, result, curves, frequency }: CopperViewInput): readonly Cell[] {
  const { layers } = result.acRatio;
  const { acRatio, heat, leanTrade } = curves;
  const present = presentLean(winding);
  const anyCost = leanTrade.some(({ skewFactor }) => skewFactor !== null);
  const anyStress = leanTrade.some(({ stress }) => stress !== null);
  const anyStiffness = leanTrade.some(({ stiffness }) => stiffness !== null);
  const cells: readonly Cell[] = [
    {
      id: 'ac-layers-chart',
      title: 'AC resistance by layers',
      draw: layers && ((place) => acRatioByLayerChart(layers, place)),
      quantities: ['copper.acRatio.layers'],
    },
    {
      id: 'ac-curve-chart',
      title: 'AC resistance against frequency',
      draw: acRatio && ((place) => acRatioCurveChart(acRatio, frequency, place)),
      quantities: ['copper.acRatio.layers'],
    },
    {
      id: 'heat-chart',
      title: 'Temperature along the hottest bar',
      draw: heat && ((place) => heatChart(heat.samples, heat.layer, place)),
      quantities: ['copper.heat.rise'],
    },
  ];
  if (leanTrade.length === 0) return cells;
  return [
    ...cells,
    {
      id: 'lean-cost-chart',
      title: 'What lean costs',
      draw: anyCost ? (place) => leanCostChart(leanTrade, present, place) : null,
      quantities: ['copper.length.bars', 'copper.resistance.phase20'],
    },
    {
      id: 'lean-stiffness-chart',
      title: 'What lean gives',
      draw: anyStiffness ? (place) => leanStiffnessChart(leanTrade, present, place) : null,
      quantities: ['copper.cage.stiffness'],
    },
    {
      id: 'lean-stress-chart',
      title: 'Stress at the machine\u2019s torque',
      draw: anyStress ? (place) => leanStressChart(leanTrade, present, place) : null,
      quantities: ['copper.cage.stress'],
    },
  ];
}

/** The lean all layers share but for its sense, in slot pitches; null where they differ. */
function presentLean({ lean, slots }: Winding): number | null {
  const sizes = lean.map((each) => (Math.abs(each) * slots) / (2 * Math.PI));
  const [first = 0] = sizes;
  return sizes.every((size) => Math.abs(size - first) < 1e-9) ? first : null;
}

function needsOf({ result }: CopperViewInput, { quantities }: Cell): string {
  const needs = new Set(
    result.missing.filter(({ quantity }) => quantities.includes(quantity)).flatMap((entry) => entry.needs),
  );
  return needs.size === 0 ? 'cannot be computed' : `needs ${[...needs].join(', ')}`;
}

/** The text equivalent: the figures that the charts show. */
function describe({ winding, result, curves, frequency }: CopperViewInput): string {
  const words = [`Copper of a winding with ${windingWords(winding)}.`];
  const { layers, slot } = result.acRatio;
  if (layers && slot !== null) {
    const each = layers.map((ratio, layer) =>
      ratio === null ? '' : `${layerLetter(layer)} ${significant(ratio, 4)}`,
    );
    const at = frequency === null ? '' : ` at ${significant(frequency, 4)} Hz`;
    words.push(
      `AC over DC resistance in the slot${at}: ${significant(slot, 4)}, by layers ${each.filter((part) => part !== '').join(', ')}.`,
    );
  }
  if (result.heat.hotSpot !== null)
    words.push(`Hottest place of a bar: ${significant(result.heat.hotSpot, 4)} degrees Celsius.`);
  if (result.cage.stiffness !== null)
    words.push(`Torsional stiffness of the bars: ${significant(result.cage.stiffness, 4)} Nm/rad.`);
  const last = curves.leanTrade.at(-1);
  if (last && last.skewFactor !== null)
    words.push(
      `At a lean of ${plural(significant(last.slots, 3), 'slot pitch', 'slot pitches')} the working wave is ${significant(last.skewFactor, 4)} of that of straight bars.`,
    );
  return words.join(' ');
}
