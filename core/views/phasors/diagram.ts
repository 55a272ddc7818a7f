import { nice, ticks } from 'd3-array';
import { filledShape, pathShape, text } from '../../picture/make.ts';
import { arrowHead, circlePart } from '../../picture/outlines.ts';
import type { PathPart, Primitive, Text } from '../../picture/picture.ts';
import type { Winding } from '../../winding/model.ts';
import { chartNumber } from '../chart/chart.ts';
import { clearTexts } from '../chart/labels.ts';
import { emphasisOf } from '../layout/bars.ts';
import type { LayoutInput } from '../layout/input.ts';
import type { PhasorChain } from './chains.ts';

/** Where the diagram lies on paper; `radius` is that of its outermost circle. */
export interface DiagramPlace {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** The sum of a phase: the mean over its paths. */
export interface PhaseSum {
  /** Index of the phase, from 0. */
  readonly phase: number;
  /** In units of one bar without skew. */
  readonly re: number;
  /** The same. */
  readonly im: number;
}

/** The mean EMF of each phase's paths. */
export function phaseSums(winding: Winding, chains: readonly PhasorChain[]): readonly PhaseSum[] {
  return winding.phases.names.map((_, phase) => {
    const own = chains.filter((chain) => chain.phase === phase);
    const count = Math.max(1, own.length);
    return {
      phase,
      re: own.reduce((sum, { re }) => sum + re, 0) / count,
      im: own.reduce((sum, { im }) => sum + im, 0) / count,
    };
  });
}

/** Farthest place any chain reaches from its start, in bar EMFs; at least 1. */
function reachOf(chains: readonly PhasorChain[]): number {
  let reach = 1;
  for (const { steps } of chains) {
    let [re, im] = [0, 0];
    for (const step of steps) {
      re += step.re;
      im += step.im;
      reach = Math.max(reach, Math.hypot(re, im));
    }
  }
  return reach;
}

/**
 * The chains of all paths from one origin, the phases' sums as arrows, circles of equal EMF as scale.
 * The EMF of slot 1 points up, lagging is clockwise, as in the star of slots.
 */
export function drawDiagram(
  winding: Winding,
  chains: readonly PhasorChain[],
  emphasis: LayoutInput['emphasis'],
  place: DiagramPlace,
): readonly Primitive[] {
  const [, most] = nice(0, reachOf(chains), 3);
  const unit = place.radius / most;
  const onPaper = (re: number, im: number): readonly [number, number] => [
    place.x - unit * im,
    place.y - unit * re,
  ];
  const rounds = ticks(0, most, 3).filter((value) => value > 0);
  const sums = phaseSums(winding, chains);
  const names = sums.map((sum) => nameOf(winding, place, sum, unit));
  const numbers = rounds.map((value) =>
    text(
      `diagram-${chartNumber(value)}`,
      'axis-number',
      place.x + 0.8 + unit * value * Math.sin(numberAngle(sums)),
      place.y - unit * value * Math.cos(numberAngle(sums)),
      chartNumber(value),
    ),
  );
  const cross: PathPart[] = [
    [place.x - place.radius, place.y, place.x + place.radius, place.y],
    [place.x, place.y - place.radius, place.x, place.y + place.radius],
  ];
  return [
    pathShape('diagram-circles', 'grid', [
      ...rounds.map((value) => circlePart(place.x, place.y, unit * value, 96)),
      ...cross,
    ]),
    ...chains.map((chain) => drawChain(winding, chain, emphasis, onPaper)),
    ...sums.flatMap((sum) => drawSum(winding, sum, emphasis, place, onPaper)),
    ...clearTexts([...names, ...numbers]),
  ];
}

function chainName(winding: Winding, { phase, path }: PhasorChain): string {
  return `${winding.phases.names[phase]}${path === null ? '' : `-${path}`}`;
}

type OnPaper = (re: number, im: number) => readonly [number, number];

function drawChain(
  winding: Winding,
  chain: PhasorChain,
  emphasis: LayoutInput['emphasis'],
  onPaper: OnPaper,
): Primitive {
  const points: number[] = [...onPaper(0, 0)];
  let [re, im] = [0, 0];
  for (const step of chain.steps) {
    re += step.re;
    im += step.im;
    points.push(...onPaper(re, im));
  }
  const { phase } = chain;
  const path = chain.path ?? undefined;
  return pathShape(`chain-${chainName(winding, chain)}`, 'phasor', [points], {
    phase,
    path,
    emphasis: emphasisOf({ emphasis }, phase, path),
  });
}

function drawSum(
  winding: Winding,
  { phase, re, im }: PhaseSum,
  emphasis: LayoutInput['emphasis'],
  place: DiagramPlace,
  onPaper: OnPaper,
): readonly Primitive[] {
  const tip = onPaper(re, im);
  const head = arrowHead(place.x, place.y, ...tip, 3.4);
  if (head === null) return [];
  const name = winding.phases.names[phase];
  const extras = { phase, emphasis: emphasisOf({ emphasis }, phase, undefined) };
  // The shaft ends within the head.
  const [x, y] = [(head[0]! + head[2]! + head[4]!) / 3, (head[1]! + head[3]! + head[5]!) / 3];
  return [
    pathShape(`sum-${name}`, 'phasor-sum', [[place.x, place.y, x, y]], extras),
    filledShape(`sum-head-${name}`, 'phasor-dot', [head], extras),
  ];
}

function nameOf(winding: Winding, place: DiagramPlace, { phase, re, im }: PhaseSum, unit: number): Text {
  const way = Math.hypot(re, im);
  const [ux, uy] = way < 1e-9 ? [0, -1] : [-im / way, -re / way];
  const distance = unit * way + 3.6;
  const name = winding.phases.names[phase]!;
  return text(
    `sum-name-${name}`,
    'terminal-name',
    place.x + distance * ux,
    place.y + distance * uy + 0.91,
    name,
    { anchor: 'middle', phase },
  );
}

/** The clockwise angle from the top, in radians, that lies farthest from all sums. */
function numberAngle(sums: readonly PhaseSum[]): number {
  const angles = sums.map(({ re, im }) => Math.atan2(-im, re)).sort((one, other) => one - other);
  let best = { gap: 0, angle: Math.PI / 4 };
  angles.forEach((angle, index) => {
    const next = angles[index + 1] ?? angles[0]! + 2 * Math.PI;
    if (next - angle > best.gap + 1e-9) best = { gap: next - angle, angle: angle + (next - angle) / 2 };
  });
  return best.angle;
}
