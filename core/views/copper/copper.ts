import type { CopperResult } from '../../copper/copper.ts';
import type { CopperCurves } from '../../copper/curves.ts';
import { sortedPart, valuesOf } from '../../figures/figure.ts';
import type { FigurePath } from '../../figures/register.ts';
import { figureLabel, figureSentence, figureText } from '../../language/figureText.ts';
import { plural } from '../../language/lists.ts';
import { significant } from '../../language/numbers.ts';
import type { Picture } from '../../picture/picture.ts';
import { layerLetter, type Winding } from '../../winding/model.ts';
import { type ChartCell, chartCells, lacking } from '../chart/cells.ts';
import { heatChart } from '../chart/heatChart.ts';
import { pagePicture, windingWords } from '../chart/page.ts';
import type { Room } from '../room.ts';
import {
  acRatioByLayerChart,
  acRatioCurveChart,
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

/** The copper's charts in rows, and below them which statements the others need. */
export function copperPicture(input: CopperViewInput): Picture {
  const { room } = input;
  const page = {
    title: input.title,
    view: 'copper',
    facts: windingWords(input.winding),
    description: describe(input),
    ...chartCells(cellsOf(input), room),
    notes: copperNotes(input.result),
  };
  return pagePicture(page, room);
}

/** Figures whose models are told below the charts. */
const shownModels: readonly FigurePath[] = [
  'copper.acRatio.layers',
  'copper.heat.rise',
  'copper.cage.stiffness',
];

/** The models behind the charts with their sources, and what was assumed. */
function copperNotes(result: CopperResult): readonly string[] {
  const { models, assumptions } = sortedPart('copper', result);
  const lines = models.flatMap(({ quantity, line, source }) =>
    shownModels.includes(quantity) ? [`${figureLabel(quantity)}: ${line} (${source}).`] : [],
  );
  return assumptions.length === 0 ? lines : [...lines, `Assumed: ${assumptions.join('; ')}.`];
}

function cellsOf({ winding, result, curves, frequency }: CopperViewInput): readonly ChartCell[] {
  const { acRatio, heat } = curves;
  const { layers } = result.acRatio;
  const leanTrade = valuesOf(curves.leanTrade);
  const present = presentLean(winding);
  const hasSome = (of: (row: (typeof leanTrade)[number]) => number | null) =>
    leanTrade.some((row) => of(row) !== null);
  const cells: readonly ChartCell[] = [
    {
      id: 'ac-layers-chart',
      title: 'AC resistance by layers',
      draw: layers.known ? (place) => acRatioByLayerChart(layers.value, place) : null,
      lacks: lacking(layers),
    },
    {
      id: 'ac-curve-chart',
      title: 'AC resistance against frequency',
      draw: acRatio.known ? (place) => acRatioCurveChart(acRatio.value, frequency, place) : null,
      lacks: lacking(acRatio),
    },
    {
      id: 'heat-chart',
      title: 'Temperature along the hottest bar',
      draw: heat.known ? (place) => heatChart(heat.value, place) : null,
      lacks: lacking(heat),
    },
  ];
  if (leanTrade.length === 0) return cells;
  return [
    ...cells,
    {
      id: 'lean-cost-chart',
      title: 'What lean costs',
      draw: hasSome(({ skewFactor }) => skewFactor)
        ? (place) => leanCostChart(leanTrade, present, place)
        : null,
      lacks: lacking(result.length.bars, result.resistance.phase20),
    },
    {
      id: 'lean-stiffness-chart',
      title: 'What lean gives',
      draw: hasSome(({ stiffness }) => stiffness)
        ? (place) => leanStiffnessChart(leanTrade, present, place)
        : null,
      lacks: lacking(result.cage.stiffness),
    },
    {
      id: 'lean-stress-chart',
      title: 'Stress at the machine\u2019s torque',
      draw: hasSome(({ stress }) => stress) ? (place) => leanStressChart(leanTrade, present, place) : null,
      lacks: lacking(result.cage.stress),
    },
  ];
}

/** The lean all layers share but for its sense, in slot pitches; null where they differ. */
function presentLean({ lean, slots }: Winding): number | null {
  const sizes = lean.map((each) => (Math.abs(each) * slots) / (2 * Math.PI));
  const [first = 0] = sizes;
  return sizes.every((size) => Math.abs(size - first) < 1e-9) ? first : null;
}

/** The text equivalent: the figures that the charts show. */
function describe({ winding, result, curves, frequency }: CopperViewInput): string {
  const words = [`Copper of a winding with ${windingWords(winding)}.`];
  const { layers, slot } = valuesOf(result.acRatio);
  if (layers && slot !== null) {
    const each = layers.flatMap((ratio, layer) =>
      ratio === null ? [] : [`${layerLetter(layer)} ${figureText('copper.acRatio.layers', ratio)}`],
    );
    const at = frequency === null ? '' : ` at ${figureText('emf.frequency', frequency)}`;
    words.push(
      `${figureLabel('copper.acRatio.slot')}${at}: ${figureText('copper.acRatio.slot', slot)}, by layers ${each.join(', ')}.`,
    );
  }
  const { hotSpot } = result.heat;
  const { stiffness } = result.cage;
  if (hotSpot.known) words.push(figureSentence('copper.heat.hotSpot', hotSpot.value));
  if (stiffness.known) words.push(figureSentence('copper.cage.stiffness', stiffness.value));
  const last = curves.leanTrade.at(-1);
  if (last?.skewFactor.known)
    words.push(
      `At a lean of ${plural(significant(last.slots, 3), 'slot pitch', 'slot pitches')} the working wave is ${significant(last.skewFactor.value, 4)} of that of straight bars.`,
    );
  return words.join(' ');
}
