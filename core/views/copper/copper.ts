import type { CopperResult } from '../../copper/copper.ts';
import type { CopperCurves } from '../../copper/curves.ts';
import { sortedPart, valuesOf } from '../../figures/groups.ts';
import type { FigurePath } from '../../figures/register.ts';
import { inEnglish, type Speech } from '../../figures/speech.ts';
import { figureLabel, figureSentence, figureText } from '../../language/figureText.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { isOne } from '../../language/lists.ts';
import { significant } from '../../language/numbers.ts';
import type { Picture } from '../../picture/picture.ts';
import type { Winding } from '../../winding/model.ts';
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
  /** What its words are in; default English. */
  readonly speech?: Speech | undefined;
}

/** The copper's charts in rows, and below them which statements the others need. */
export function copperPicture(input: CopperViewInput): Picture {
  const { room, speech = inEnglish } = input;
  const page = {
    title: input.title,
    view: speech.say('copper'),
    facts: windingWords(input.winding, speech),
    description: describe(input, speech),
    ...chartCells(cellsOf(input, speech), room),
    notes: copperNotes(input.result, speech),
    speech,
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
function copperNotes(result: CopperResult, speech: Speech): readonly string[] {
  const { models, assumptions } = sortedPart('copper', result);
  const lines = models.flatMap(({ quantity, line, source }) =>
    shownModels.includes(quantity)
      ? [`${figureLabel(quantity, speech)}: ${speech.model(quantity, line)} (${source}).`]
      : [],
  );
  return assumptions.length === 0
    ? lines
    : [...lines, speech.say('Assumed: {0}.', assumptions.map(speech.phrase).join('; '))];
}

function cellsOf(
  { winding, result, curves, frequency }: CopperViewInput,
  speech: Speech,
): readonly ChartCell[] {
  const { say } = speech;
  const { acRatio, heat } = curves;
  const { layers } = result.acRatio;
  const leanTrade = valuesOf(curves.leanTrade);
  const present = presentLean(winding);
  const hasSome = (of: (row: (typeof leanTrade)[number]) => number | null) =>
    leanTrade.some((row) => of(row) !== null);
  const cells: readonly ChartCell[] = [
    {
      id: 'ac-layers-chart',
      title: say('AC resistance by layers'),
      draw: layers.known ? (place) => acRatioByLayerChart(layers.value, place, speech) : null,
      lacks: lacking(speech, layers),
    },
    {
      id: 'ac-curve-chart',
      title: say('AC resistance against frequency'),
      draw: acRatio.known ? (place) => acRatioCurveChart(acRatio.value, frequency, place, speech) : null,
      lacks: lacking(speech, acRatio),
    },
    {
      id: 'heat-chart',
      title: say('Temperature along the hottest bar'),
      draw: heat.known ? (place) => heatChart(heat.value, place, speech) : null,
      lacks: lacking(speech, heat),
    },
  ];
  if (leanTrade.length === 0) return cells;
  return [
    ...cells,
    {
      id: 'lean-cost-chart',
      title: say('What lean costs'),
      draw: hasSome(({ skewFactor }) => skewFactor)
        ? (place) => leanCostChart(leanTrade, present, place, speech)
        : null,
      lacks: lacking(speech, result.length.bars, result.resistance.phase20),
    },
    {
      id: 'lean-stiffness-chart',
      title: say('What lean gives'),
      draw: hasSome(({ stiffness }) => stiffness)
        ? (place) => leanStiffnessChart(leanTrade, present, place, speech)
        : null,
      lacks: lacking(speech, result.cage.stiffness),
    },
    {
      id: 'lean-stress-chart',
      title: say('Stress at the machine\u2019s torque'),
      draw: hasSome(({ stress }) => stress)
        ? (place) => leanStressChart(leanTrade, present, place, speech)
        : null,
      lacks: lacking(speech, result.cage.stress),
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
function describe({ winding, result, curves, frequency }: CopperViewInput, speech: Speech): string {
  const { say } = speech;
  const words = [say('Conductors of a winding with {0}.', windingWords(winding, speech))];
  const { layers, slot } = valuesOf(result.acRatio);
  if (layers && slot !== null) {
    const each = layers.flatMap((ratio, layer) =>
      ratio === null ? [] : [`${layerLetter(layer)} ${figureText('copper.acRatio.layers', ratio)}`],
    );
    const name = figureLabel('copper.acRatio.slot', speech);
    words.push(
      say(
        '{0}: {1}, by layers {2}.',
        frequency === null ? name : say('{0} at {1}', name, figureText('emf.frequency', frequency)),
        figureText('copper.acRatio.slot', slot),
        each.join(', '),
      ),
    );
  }
  const { hotSpot } = result.heat;
  const { stiffness } = result.cage;
  if (hotSpot.known) words.push(figureSentence('copper.heat.hotSpot', hotSpot.value, speech));
  if (stiffness.known) words.push(figureSentence('copper.cage.stiffness', stiffness.value, speech));
  const last = curves.leanTrade.at(-1);
  if (last?.skewFactor.known) {
    const pitches = significant(last.slots, 3);
    const lean = isOne(pitches) ? say('{0} slot pitch', pitches) : say('{0} slot pitches', pitches);
    const share = significant(last.skewFactor.value, 4);
    words.push(say('At a lean of {0} the working wave is {1} of that of straight bars.', lean, share));
  }
  return words.join(' ');
}
