import type { Facts } from '../facts/facts.ts';
import { shopBars } from '../facts/shop.ts';
import { layerLetter } from '../language/layerLetters.ts';
import { barLine, stretchAt } from '../space/cad/barLines.ts';
import { type BendStep, bendSteps, type ToolBend, toolBend } from '../space/cad/bendSteps.ts';
import type { BentBar } from '../space/cad/bentBars.ts';
import { type RingTwist, ringTwists } from '../space/cad/ringTwists.ts';
import type { Space } from '../space/space.ts';
import type { Vector } from '../space/vectors.ts';
import type { Column } from './column.ts';

/** A bar's cut or one step of its bending, or the twist of a ring. Lengths in m, angles in radians. */
export interface BendRow {
  readonly operation: 'cut' | BendStep['kind'] | 'twist';
  /** Bars that are made so. */
  readonly quantity: number;
  readonly bar: string | null;
  /** From 1; 0 is the cut. */
  readonly step: number | null;
  /** Of the cut, or of the step. */
  readonly length: number | null;
  readonly bend: ToolBend | null;
  /** Where the center line is after it. */
  readonly place: Vector | null;
  /** Distance from the axis that it is rolled to. */
  readonly rollRadius: number;
  readonly twist: RingTwist | null;
}

/** The columns of the bend list. */
export const bendColumns: readonly Column<BendRow>[] = [
  {
    heading: 'bar',
    meaning:
      'Number of the bar shape, with a letter where not all of its bars are bent alike; empty for the twist of a ring.',
    value: ({ bar }) => bar,
  },
  {
    heading: 'quantity',
    meaning: 'How many pieces; of a twist how many bars.',
    value: (row) => row.quantity,
  },
  {
    heading: 'step',
    meaning: 'Step of its bending from the cut end of its first leg on the connection side; 0 is the cut.',
    value: ({ step }) => step,
  },
  {
    heading: 'operation',
    meaning:
      'cut: the whole length. feed: straight. bend: an arc. twist: of the ends of a ring, after all bars are in.',
    value: ({ operation }) => operation,
  },
  {
    heading: 'length',
    meaning: 'Along the center line; the steps of a bar add up to its cut length.',
    unit: 'length',
    value: ({ length }) => length,
  },
  {
    heading: 'turn',
    meaning:
      'Of the bar about itself: 0, the bend goes to the right seen from the axis; 180, to the left; 90, away from the axis; 270, towards it.',
    unit: 'degrees',
    value: ({ bend }) => bend?.turn ?? null,
  },
  {
    heading: 'angle',
    meaning: 'Angle of the bend.',
    unit: 'degrees',
    value: ({ bend }) => degrees(bend?.angle),
  },
  {
    heading: 'radius',
    meaning:
      'Of the bend, to the center line; between two layers of a crown that in the layers laid flat, where the arc is that of the bar on its cylinder.',
    unit: 'length',
    value: ({ bend }) => bend?.radius ?? null,
  },
  {
    heading: 'step angle',
    meaning: 'Of a bend out of the layer that is made on the same arc, positive away from the axis.',
    unit: 'degrees',
    value: ({ bend }) => degrees(bend?.stepAngle),
  },
  {
    heading: 'step radius',
    meaning: 'Of that bend, to the center line.',
    unit: 'length',
    value: ({ bend }) => bend?.stepRadius ?? null,
  },
  ...(['x', 'y', 'z'] as const).map(
    (heading, axis): Column<BendRow> => ({
      heading,
      meaning: [
        'Center line after the step, from the middle of the machine: through the first leg at mid-stack.',
        'Towards higher slots.',
        'Along the axis, towards the far side.',
      ][axis]!,
      unit: 'length',
      value: ({ place }) => place?.[axis] ?? null,
    }),
  ),
  {
    heading: 'roll radius',
    meaning: 'Mean radius to which the bar is rolled there; of a twist that of its ring.',
    unit: 'length',
    value: ({ rollRadius }) => rollRadius,
  },
  {
    heading: 'side',
    meaning: 'Side of a twisted ring: connection or far.',
    value: ({ twist }) => twist?.side ?? null,
  },
  {
    heading: 'layer',
    meaning: 'Layer of a twisted ring.',
    value: ({ twist }) => (twist ? layerLetter(twist.layer) : null),
  },
  {
    heading: 'slots',
    meaning: 'Slots of the bars of that layer that are twisted so, rising, with blanks between.',
    value: ({ twist }) => twist?.slots.join(' ') ?? null,
  },
  {
    heading: 'ends',
    meaning: 'What its ends are for: joint, piece, lead, star.',
    value: ({ twist }) => twist?.uses.join(' ') ?? null,
  },
  {
    heading: 'twist',
    meaning: 'Angle by which the tool turns the tips about the axis, positive towards higher slots.',
    unit: 'degrees',
    value: ({ twist }) => degrees(twist?.twist),
  },
  {
    heading: 'stroke',
    meaning: 'How far the tips come down meanwhile.',
    unit: 'length',
    value: ({ twist }) => twist?.stroke ?? null,
  },
];

/** What the bend list needs that the text does not give; empty where there is one. */
export function bendNeeds(facts: Facts): readonly string[] {
  const { bars } = shopBars(facts);
  return bars.known ? [] : bars.needs;
}

/**
 * The bend list: for each kind of bar its cut, then its steps before it is put in, from cut end to cut
 * end; then the twist and stroke of each side's rings.
 */
export function bendRows(facts: Facts): readonly BendRow[] {
  const { space, bars } = shopBars(facts);
  if (!space.known || !bars.known) return [];
  return [
    ...bars.value.flatMap((bar) => rowsOfBar(space.value, bar)),
    ...ringTwists(space.value).map(
      (twist): BendRow => ({
        operation: 'twist',
        quantity: twist.slots.length,
        bar: null,
        step: null,
        length: null,
        bend: null,
        place: null,
        rollRadius: space.value.layers[twist.layer]!.radius,
        twist,
      }),
    ),
  ];
}

/** A bar's cut, and the steps of its bending. */
export function rowsOfBar(space: Space, bar: BentBar): readonly BendRow[] {
  const line = barLine(space, bar.legs, 'before');
  const common = { quantity: bar.places.length, bar: bar.name, twist: null };
  const at = (place: Vector) => ({ place, rollRadius: Math.hypot(place[0], place[1]) });
  const start = at(stretchAt(line.stretches[0]!, 0).point);
  return [
    { ...common, ...start, operation: 'cut', step: 0, length: line.length, bend: null },
    ...bendSteps(line).map(
      (step, index): BendRow => ({
        ...common,
        ...at(step.end),
        operation: step.kind,
        step: index + 1,
        length: step.length,
        bend: step.kind === 'bend' ? toolBend(step) : null,
      }),
    ),
  ];
}

/** Degrees to four decimals. */
function degrees(angle: number | null | undefined): number | null {
  return angle == null ? null : Math.round((angle * 180e4) / Math.PI) / 1e4 + 0;
}
