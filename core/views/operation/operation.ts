import type { Facts } from '../../facts/facts.ts';
import { orNull } from '../../figures/figure.ts';
import { sortedPart, type ValuesOf, valuesOf } from '../../figures/groups.ts';
import type { FigurePath } from '../../figures/register.ts';
import { inEnglish, type Speech } from '../../figures/speech.ts';
import {
  figureLabel,
  figureSentence,
  figureText,
  inShownUnit,
  withShownUnit,
} from '../../language/figureText.ts';
import type { DutyPointResult } from '../../operation/duty.ts';
import { lineFactorsOf } from '../../operation/lineVoltage.ts';
import { printable } from '../../picture/fontMetrics.ts';
import type { Picture } from '../../picture/picture.ts';
import { type ChartCell, type ChartPlace, chartCells, lacking } from '../chart/cells.ts';
import { heatChart } from '../chart/heatChart.ts';
import { pagePicture, windingWords } from '../chart/page.ts';
import type { Room } from '../room.ts';
import { cycleChart, lossChart, type MarkedPoint, type SpeedChart, speedChart } from './charts.ts';

/** What the operation view shows. */
export interface OperationViewInput {
  readonly title: string;
  readonly facts: Facts;
  /** The panel's room; left out on paper. */
  readonly room?: Room | undefined;
  /** What its words are in; default English. */
  readonly speech?: Speech | undefined;
}

/** What the machine does over its speed: torque, power, line voltage and power factor, the rated point marked. */
export function operationPicture({ title, facts, room, speech = inEnglish }: OperationViewInput): Picture {
  const page = {
    title,
    view: speech.say('operation'),
    facts: windingWords(facts.winding, speech),
    description: describe(facts, speech),
    ...chartCells(cellsOf(facts, speech), room),
    notes: notesOf(facts, speech),
    speech,
  };
  return pagePicture(page, room);
}

/** The rated point and those of the duty in the unit of a chart; without those whose value is not known. */
function markedPoints(
  facts: Facts,
  { say }: Speech,
  rated: number | null,
  read: (point: ValuesOf<DutyPointResult>) => number | null,
): readonly MarkedPoint[] {
  const frequency = orNull(facts.emf().frequency);
  const all = [
    ...(frequency === null
      ? []
      : [{ name: say('rated'), speed: frequency / facts.winding.polePairs, value: rated }]),
    ...valuesOf(facts.duty()?.points ?? []).map((point) => ({
      name: printable(point.name),
      speed: point.speed,
      value: read(point),
    })),
  ];
  return all.flatMap(({ value, ...point }) => (value === null ? [] : [{ ...point, value }]));
}

/** Temperature along the hottest bar at the rated point. */
function heatCell(facts: Facts, speech: Speech): ChartCell {
  const { heat } = facts.copperCurves();
  return {
    id: 'heat-chart',
    title: speech.say('Temperature along the hottest bar at the rated point'),
    draw: heat.known ? (place: ChartPlace) => heatChart(heat.value, place, speech) : null,
    lacks: lacking(speech, heat),
  };
}

/** Loss at the points of the duty and temperature over its cycle; none without a duty. */
function dutyCells(facts: Facts, speech: Speech): readonly ChartCell[] {
  const duty = facts.duty();
  if (duty === null) return [];
  const heat = facts.dutyCycleHeat();
  const points = valuesOf(duty.points);
  return [
    {
      id: 'losses-chart',
      title: speech.say('Winding loss at the points of the duty'),
      draw: points.some(({ loss }) => (loss.total ?? 0) > 0)
        ? (place: ChartPlace) => lossChart(points, place, speech)
        : null,
      lacks: lacking(speech, ...duty.points.map(({ loss }) => loss.total)),
    },
    {
      id: 'cycle-chart',
      title: speech.say('Temperature of the hottest place over the cycle'),
      draw: heat?.known ? (place: ChartPlace) => cycleChart(heat.value, duty, place, speech) : null,
      lacks: heat ? lacking(speech, heat) : '',
    },
  ];
}

function cellsOf(facts: Facts, speech: Speech): readonly ChartCell[] {
  const { say } = speech;
  const curve = facts.torqueSpeedCurve();
  const { topSpeed, ...operation } = facts.operation();
  const { torque, shaftPower, terminalVoltage, powerFactor, baseSpeed } = valuesOf(operation);
  const voltage = facts.specification.machine?.voltage?.value;
  const factors = lineFactorsOf(facts.specification, facts.winding);
  const level =
    voltage === undefined || !factors.known
      ? undefined
      : {
          value: (voltage * factors.value.adjacent) / factors.value.largest,
          name: say('voltage {0}', figureText('operation.terminalVoltage', voltage)),
        };
  const shownPower = (value: number | null) => value && inShownUnit('operation.shaftPower', value);
  const charts: readonly SpeedChart[] = [
    {
      id: 'torque',
      title: say('Most torque within current and voltage'),
      yName: withShownUnit(say('torque'), 'operation.torque'),
      valueOf: (point) => point.torque,
      points: markedPoints(facts, speech, torque, (point) => point.torque),
      curve,
      baseSpeed,
    },
    {
      id: 'power',
      title: say('Shaft power at that torque'),
      yName: withShownUnit(say('power'), 'operation.shaftPower'),
      valueOf: (point) => inShownUnit('operation.shaftPower', point.power),
      points: markedPoints(facts, speech, shownPower(shaftPower), (point) =>
        shownPower(point.torque && point.torque * 2 * Math.PI * point.speed),
      ),
      curve,
      baseSpeed: null,
    },
    {
      id: 'voltage',
      title: say('Line voltage'),
      yName: say('{0}, rms', withShownUnit(say('line voltage'), 'operation.terminalVoltage')),
      valueOf: (point) => point.terminalVoltage,
      points: markedPoints(facts, speech, terminalVoltage, (point) => point.terminalVoltage),
      level,
      curve,
      baseSpeed: null,
    },
    {
      id: 'power-factor',
      title: say('Power factor'),
      yName: say('power factor'),
      valueOf: (point) => point.powerFactor,
      points: markedPoints(facts, speech, powerFactor, (point) => point.powerFactor),
      curve,
      baseSpeed: null,
    },
  ];
  const overSpeed = charts.map((chart) => ({
    id: `${chart.id}-chart`,
    title: chart.title,
    draw: curve.length > 1 ? (place: ChartPlace) => speedChart(chart, place, speech) : null,
    lacks: lacking(speech, topSpeed),
  }));
  return [...overSpeed, heatCell(facts, speech), ...dutyCells(facts, speech)];
}

/** Figures whose models are told below the charts. */
const shownModels: readonly FigurePath[] = [
  'operation.terminalVoltage',
  'operation.baseSpeed',
  'operation.topSpeed',
];

/** The models behind the charts with their sources, and what was assumed. */
function notesOf(facts: Facts, speech: Speech): readonly string[] {
  const { models, assumptions } = sortedPart('operation', facts.operation());
  const lines = models.flatMap(({ quantity, line, source }) =>
    shownModels.includes(quantity)
      ? [`${figureLabel(quantity, speech)}: ${speech.model(quantity, line)} (${source}).`]
      : [],
  );
  return assumptions.length === 0
    ? lines
    : [...lines, speech.say('Assumed: {0}.', assumptions.map(speech.phrase).join('; '))];
}

/** The text equivalent: the figures that the charts show. */
function describe(facts: Facts, speech: Speech): string {
  const words = [speech.say('Operation of a winding with {0}.', windingWords(facts.winding, speech))];
  const { torque, terminalVoltage, powerFactor, baseSpeed, topSpeed } = valuesOf(facts.operation());
  const cycle = facts.dutyCycleHeat();
  const told = (path: FigurePath, value: number | null) => {
    if (value !== null) words.push(figureSentence(path, value, speech));
  };
  told('operation.torque', torque);
  told('operation.terminalVoltage', terminalVoltage);
  told('operation.powerFactor', powerFactor);
  told('duty.cycle.hotSpot', cycle?.known ? cycle.value.hotSpot : null);
  told('operation.baseSpeed', baseSpeed);
  told('operation.topSpeed', topSpeed);
  return words.join(' ');
}
