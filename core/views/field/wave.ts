import type { ComplexSeries } from '../../analysis/fourier.ts';
import { mmfWaveform, slotCurrents } from '../../analysis/mmf.ts';
import type { Speech } from '../../figures/speech.ts';
import { fixed, withMinus } from '../../language/numbers.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { filledShape, pathShape, text, textSize } from '../../picture/make.ts';
import { boxArea } from '../../picture/outlines.ts';
import type { Primitive } from '../../picture/picture.ts';
import { type PhaseSystem, phaseOfCell, placeName, printedSigns, type Winding } from '../../winding/model.ts';
import { type Chart, chart, chartNumber } from '../chart/chart.ts';
import { alikeLayers, slotRuns } from '../chart/layers.ts';

/** The working wave as a phasor: at angle theta and instant t it is Re(c exp(j (omega t - order theta))). */
export interface WorkingWave {
  /** Of the amplitude. */
  readonly re: number;
  /** Of the amplitude. */
  readonly im: number;
  /** +p where it runs with the slot numbers, -p against them. */
  readonly order: number;
}

/**
 * The larger of the two waves of order p, of point slots, A: c = j C / order with
 * C = (1 / 2 pi) sum of A_s exp(j order theta_s), summed directly.
 */
export function workingWave(winding: Winding, current: number): WorkingWave {
  const { slots, polePairs } = winding;
  const currents = slotCurrents(winding, current);
  const [forward, backward] = [1, -1].map((sense) => {
    let [re, im] = [0, 0];
    for (let slot = 0; slot < slots; slot++) {
      const angle = (sense * 2 * Math.PI * ((polePairs * slot) % slots)) / slots;
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
      re += currents.re[slot]! * cos - currents.im[slot]! * sin;
      im += currents.re[slot]! * sin + currents.im[slot]! * cos;
    }
    const order = sense * polePairs;
    // Times j: (re, im) becomes (-im, re).
    return { re: -im / (2 * Math.PI * order), im: re / (2 * Math.PI * order), order };
  }) as [WorkingWave, WorkingWave];
  return Math.hypot(forward.re, forward.im) >= Math.hypot(backward.re, backward.im) ? forward : backward;
}

/** The working wave's value at an angle (mechanical radians from slot 1) and instant (radians). */
export function waveAt({ re, im, order }: WorkingWave, theta: number, instant: number): number {
  const angle = instant - order * theta;
  return re * Math.cos(angle) - im * Math.sin(angle);
}

/** What the wave chart needs; lengths in millimeters, `instant` in radians. */
export interface WaveRequest {
  readonly winding: Winding;
  readonly teeth: ComplexSeries;
  readonly wave: WorkingWave;
  /** Radians past the peak of the first phase's current. */
  readonly instant: number;
  /** Slots shown, from slot 1. */
  readonly count: number;
  readonly unit: string;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly speech: Speech;
}

const height = 74;
const rowHeight = 4;

/** The MMF over the bore as a staircase with its working wave, and below it the phases of the slots. */
export function drawWave(request: WaveRequest): {
  readonly items: readonly Primitive[];
  readonly bottom: number;
} {
  const { winding, teeth, wave, count, left, top, width, unit } = request;
  const { say } = request.speech;
  let most = Math.hypot(wave.re, wave.im);
  for (let tooth = 0; tooth < winding.slots; tooth++)
    most = Math.max(most, Math.hypot(teeth.re[tooth]!, teeth.im[tooth]!));
  const rows = alikeLayers(winding);
  const names = rows.map(({ letters }) => say('layer {0}', letters));
  const inset = Math.max(...names.map((name) => textWidth(name, textSize))) + 2;
  const frame = chart({
    id: 'mmf',
    left,
    top,
    width,
    height,
    inset,
    title: say('MMF over the bore'),
    x: {
      from: 0.5,
      to: count + 0.5,
      round: false,
      ticks: Array.from({ length: count }, (_, index) => ({ value: index + 1, name: String(index + 1) })),
    },
    // The same for every instant, so that the picture stays still while the wave runs.
    y: { from: -most, to: most },
    xName: say('slot'),
    yName: say('MMF in {0}', unit),
  });
  const stairs = stairPoints(request, frame);
  const zero = frame.y.at(0);
  const stripTop = top + height + 1;
  const [first, last] = [stairs[0]!, stairs.at(-2)!];
  return {
    items: [
      filledShape('mmf-area', 'curve-area', [[first, zero, ...stairs, last, zero]]),
      ...frame.items,
      pathShape('mmf-wave', 'second-curve', [wavePoints(request, frame)]),
      pathShape('mmf-stairs', 'curve', [stairs]),
      ...drawStrip(request, frame, stripTop),
      ...drawWaveLegend(request, frame, top),
    ],
    bottom: stripTop + rows.length * rowHeight,
  };
}

function stairPoints({ winding, teeth, instant, count }: WaveRequest, frame: Chart): readonly number[] {
  const values = mmfWaveform(teeth, instant);
  const points: number[] = [];
  for (let tooth = 0; tooth <= count; tooth++) {
    const value = values[(tooth + winding.slots - 1) % winding.slots]!;
    const y = frame.y.at(value);
    const from = tooth === 0 ? 0.5 : tooth;
    const to = tooth === count ? count + 0.5 : tooth + 1;
    points.push(frame.x.at(from), y, frame.x.at(to), y);
  }
  return points;
}

function wavePoints({ winding, wave, instant, count }: WaveRequest, frame: Chart): readonly number[] {
  const poles = (count * winding.poles) / winding.slots;
  const steps = Math.max(60, Math.ceil(24 * poles));
  return Array.from({ length: steps + 1 }, (_, step) => {
    const place = 0.5 + (count * step) / steps;
    const theta = (2 * Math.PI * (place - 1)) / winding.slots;
    return [frame.x.at(place), frame.y.at(waveAt(wave, theta, instant))];
  }).flat();
}

/** Blocks of the slots' phases, a row for each kind of layer. */
function drawStrip({ winding, count, speech }: WaveRequest, frame: Chart, top: number): readonly Primitive[] {
  return alikeLayers(winding).flatMap(({ letters, layer }, row): readonly Primitive[] => {
    const y = top + row * rowHeight;
    const middle = y + (rowHeight - 0.5) / 2 + 0.91;
    const blocks = slotRuns(winding, layer, count).flatMap(({ cell, first, count: long }) => {
      const [x1, x2] = [frame.x.at(first - 0.5), frame.x.at(first + long - 0.5)];
      const trim = Math.min(0.2, 0.1 * (x2 - x1));
      const phase = phaseOfCell(cell);
      const name = nameInBlock(cell, winding.phases, x2 - x1);
      const id = `strip-${first}-${letters}`;
      const box = boxArea(x1 + trim, y, x2 - trim, y + rowHeight - 0.5);
      const block = filledShape(id, 'sector', [box], { phase });
      if (name === null) return [block];
      return [
        block,
        text(`${id}-name`, 'sector-name', (x1 + x2) / 2, middle, name, { anchor: 'middle', phase }),
      ];
    });
    return [
      text(`strip-${letters}`, 'row-name', frame.field.left - 1.6, middle, speech.say('layer {0}', letters), {
        anchor: 'end',
      }),
      ...blocks,
    ];
  });
}

/**
 * What a block of the strip says: its phase with the sign, or without where the signs of all phases do not find room,
 * so that blocks of one width say alike; null where no name does.
 */
function nameInBlock(cell: number, phases: PhaseSystem, width: number): string | null {
  const every = phases.names.map((_, phase) => placeName(-phase - 1, phases, printedSigns));
  const haveRoom = (names: readonly string[]) =>
    names.every((name) => textWidth(name, textSize) + 0.6 <= width);
  if (haveRoom(every)) return placeName(cell, phases, printedSigns);
  return haveRoom(phases.names) ? phases.names[phaseOfCell(cell)]! : null;
}

function drawWaveLegend(request: WaveRequest, frame: Chart, top: number): readonly Primitive[] {
  const { winding, wave, instant, unit } = request;
  const { say } = request.speech;
  const amplitude = chartNumber(Math.hypot(wave.re, wave.im));
  const words = [
    { id: 'stairs', role: 'curve', name: say('MMF') },
    {
      id: 'wave',
      role: 'second-curve',
      name: say('working wave, order {0}, {1}', winding.polePairs, `${amplitude} ${unit}`),
    },
  ] as const;
  const items: Primitive[] = [];
  let right = frame.field.right;
  const y = top + 2.37;
  for (const { id, role, name } of [...words].reverse()) {
    items.push(text(`mmf-legend-${id}-name`, 'legend-name', right, y, name, { anchor: 'end' }));
    const at = right - textWidth(name, textSize) - 1.5;
    items.push(pathShape(`mmf-legend-${id}`, role, [[at - 7.6, y - 0.9, at, y - 0.9]]));
    right = at - 11;
  }
  const currents = winding.phases.axes.map((axis, phase) => {
    const value = withMinus(fixed(Math.cos(instant - (axis * Math.PI) / 180), 2));
    return `${winding.phases.names[phase]} ${value}`;
  });
  const degrees = chartNumber((180 * instant) / Math.PI, 5);
  const at = say('at {0}', `\u03c9t = ${degrees}\u00b0`);
  const names = say('{0}; currents over their peak: {1}', at, currents.join(', '));
  // As much of it as stands beside the name of the axis.
  const room = frame.field.right - request.left - textWidth(say('MMF in {0}', unit), textSize) - 2;
  const shown = [names, at].find((each) => textWidth(each, textSize) <= room);
  if (shown !== undefined)
    items.push(
      text('mmf-instant', 'axis-number', frame.field.right, frame.field.top - 1.6 - 0.63, shown, {
        anchor: 'end',
      }),
    );
  return items;
}
