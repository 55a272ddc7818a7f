import type { LeanTradeRow } from '../../copper/leanTrade.ts';
import type { Facts } from '../../facts/facts.ts';
import { orNull } from '../../figures/figure.ts';
import { type ValuesOf, valuesOf } from '../../figures/groups.ts';
import { type FigurePath, figureRegister, figuresOf } from '../../figures/register.ts';
import { figureText, withShownUnit } from '../../language/figureText.ts';
import { layerLetter, layerLetters } from '../../language/layerLetters.ts';
import { fixed, rounded, shownFigure, significant } from '../../language/numbers.ts';
import { roundSpeeds } from '../../operation/curve.ts';
import type { DutyResult } from '../../operation/duty.ts';
import type { Column } from '../../tables/column.ts';
import { idleWords, isIdle, reportedDutyColumns } from '../../tables/duty.ts';
import { operationColumns } from '../../tables/operation.ts';
import { leanTradeOf, reportedCycle } from '../machine.ts';
import { sentence } from './guard.ts';
import type { Sources } from './sources.ts';
import { columnsTable, markdownTable } from './table.ts';

/** Numbers stand below each other by their last digits. */
const rightAligned = <Row>(column: Column<Row>): Column<Row> => ({ ...column, align: 'right' });

/** EMF, torque and inductances, or what is missing for them. */
export function emfText(facts: Facts, sources: Sources): string {
  const table = figuresTable('emf', { emf: valuesOf(facts.emf()) }, sources);
  const gaps = orNull(facts.emf().gaps) ?? [];
  if (gaps.length < 2) return table;
  const shares = gaps.map(
    ({ side, area, shearStress }) =>
      `${side} gap: ${significant(area * 1e4, 4)} cm², shear stress ${figureText('emf.gaps', shearStress)}`,
  );
  return `${table}\n\n${shares.join('; ')}. A second gap does not by itself double the torque of the same bars and flux.`;
}

/** The rated load point, and what current and voltage leave at other speeds. */
export function operationText(facts: Facts, sources: Sources): string {
  const parts = [figuresTable('operation', { operation: valuesOf(facts.operation()) }, sources)];
  const curve = facts.torqueSpeedCurve();
  if (curve.length > 0) {
    const last = curve[curve.length - 1]!;
    const listed = roundSpeeds(last.speed, fewestSpeeds);
    const isListed = (speed: number) => listed.some((one) => Math.abs(one - speed) < 1e-9 * last.speed);
    const rows = curve.filter((point) => isListed(point.speed) || point === last);
    const table = columnsTable(operationColumns.map(rightAligned), rows);
    parts.push(
      `Most torque at each speed within the rated current and the voltage, the current at its best angle:\n\n${table}`,
    );
  }
  return parts.join('\n\n');
}

/** Round speeds that the table of the torque-speed curve lists at the least: a fifth of the curve's, so that these hold them. */
const fewestSpeeds = 8;

/** The points of the duty and their cycle. */
export function dutyText(facts: Facts, duty: DutyResult, sources: Sources): string {
  const [point, ...numbers] = reportedDutyColumns;
  const table = columnsTable(
    [{ ...point!, value: ({ name }) => sentence(name) }, ...numbers],
    valuesOf(duty.points),
  );
  const cycle = figuresTable('duty', { duty: { cycle: reportedCycle(facts, duty) } }, sources);
  const idle = duty.points.some(isIdle) ? ` ${idleWords}` : '';
  return `${table}\n\nThe hot spot is that of a point that lasted; the rise is that without any cooling.${idle}\n\n${cycle}\n\nA cycle lasts ${figureText('duty.cycle.duration', duty.cycle.duration)}.`;
}

/** The copper, with the AC ratio of each layer and the trade of the lean where the bars lean. */
export function copperText(facts: Facts, sources: Sources): string {
  const parts = [figuresTable('copper', { copper: valuesOf(facts.copper()) }, sources)];
  const acRatio = valuesOf(facts.copper().acRatio);
  if (acRatio.layers) {
    const layers = acRatio.layers
      .map((ratio, layer) => `${layerLetter(layer)} ${fixed(ratio, 3)}`)
      .join(', ');
    const best = (acRatio.bestHeights ?? []).map(
      ({ layers: row, height, ratio, room }) =>
        `${figureText('copper.acRatio.bestHeights', rounded(height, 3))} for layers ${layerLetters(row)} (ratio ${fixed(ratio, 3)}${room !== null && height > room ? `; the slot has room for ${figureText('copper.acRatio.bestHeights', rounded(room, 3))} only` : ''})`,
    );
    parts.push(
      `AC ratio by layer: ${layers}. Bar height of least AC resistance at this frequency, one height for the layers of a slot: ${best.join('; ')}.`,
    );
  }
  const trade = leanTradeOf(facts);
  if (trade.length > 0) parts.push(leanText(trade));
  return parts.join('\n\n');
}

/** Every figure of a part of the report that is one number, with its model; `results` holds the part by its name. */
export function figuresTable(
  part: string,
  results: Readonly<Record<string, unknown>>,
  sources: Sources,
): string {
  const rows = figuresOf(part).flatMap((path) => {
    const found = lookUp(results, path);
    if (typeof found !== 'number') return [];
    const { words, shown } = figureRegister[path];
    return [[words, shownFigure(found, shown), modelText(path, sources)]];
  });
  if (rows.length === 0) return 'Nothing of it can be computed yet; see what is not computed below.';
  return markdownTable(['figure', 'value', 'model'], ['left', 'right', 'left'], rows);
}

/** How a figure is computed, with the mark of its source; empty for what is counted or looked up. */
export function modelText(path: FigurePath, sources: Sources): string {
  const { model, source } = figureRegister[path];
  return model === undefined ? '' : `${model} ${sources.mark(source!)}`;
}

function lookUp(results: Readonly<Record<string, unknown>>, path: string): unknown {
  let found: unknown = results;
  for (const key of path.split('.'))
    found = (found as Readonly<Record<string, unknown>> | null | undefined)?.[key];
  return found;
}

function leanText(rows: readonly ValuesOf<LeanTradeRow>[]): string {
  const shown = (value: number | null, factor: number, digits: number) =>
    value === null ? '–' : fixed(value / factor, digits);
  const {
    'copper.length.bars': length,
    'copper.cage.stiffness': stiffness,
    'copper.cage.stress': stress,
  } = figureRegister;
  const table = markdownTable(
    [
      'lean in slots',
      'skew factor',
      withShownUnit('bar length', 'copper.length.bars', ' '),
      'resistance',
      withShownUnit('stiffness', 'copper.cage.stiffness', ' '),
      withShownUnit('axial stress', 'copper.cage.stress', ' '),
      withShownUnit('bending stress', 'copper.cage.bending', ' '),
    ],
    ['right', 'right', 'right', 'right', 'right', 'right', 'right'],
    rows.map((row) => [
      fixed(row.slots, 2),
      shown(row.skewFactor, 1, 4),
      shown(row.barLength, length.shown.factor, 1),
      shown(row.resistanceRatio, 1, 4),
      shown(row.stiffness, stiffness.shown.factor, 2),
      shown(row.stress, stress.shown.factor, 3),
      shown(row.bending, stress.shown.factor, 3),
    ]),
  );
  return `What the lean gives and costs, each layer leaning as far in its own sense; the skew factor holds the rotor's skew too; stiffness between rigid rings, without insulation, joints, fatigue, buckling and unbalanced pull:\n\n${table}`;
}
