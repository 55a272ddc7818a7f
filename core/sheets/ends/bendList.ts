import { layerLetter } from '../../language/layerLetters.ts';
import { withMinus, withSign } from '../../language/numbers.ts';
import { fixedText } from '../../picture/numberText.ts';
import type { BentBar } from '../../space/cad/bentBars.ts';
import { type RingTwist, ringTwists } from '../../space/cad/ringTwists.ts';
import type { Space } from '../../space/space.ts';
import { type BendRow, rowsOfBar } from '../../tables/bends.ts';
import { plainMillimeters, runsText } from '../numbers.ts';
import type { SheetTable } from '../page/table.ts';
import { underRows } from '../page/text.ts';

const end = { align: 'end' } as const;

/** What the shop cuts and bends before the bars are put in, and how it twists their ends after. */
export function bendTables(space: Space, bars: readonly BentBar[], section: string): readonly SheetTable[] {
  const twists = ringTwists(space);
  return [
    bendTable(space, bars, section),
    ...(twists.length > 0 ? [twistTable(space, twists, section)] : []),
  ];
}

function bendTable(space: Space, bars: readonly BentBar[], section: string): SheetTable {
  const { edge, flat } = space.bends;
  const made: { readonly name: string; readonly sizes: readonly number[] }[] = [];
  const rows = bars.flatMap(({ name, ...bar }) => {
    const steps = rowsOfBar(space, { name, ...bar });
    const sizes = steps.flatMap(sizesOf);
    const like = made.find((other) => alike(other.sizes, sizes));
    if (like) return [[name, String(bar.places.length), `as ${like.name}`, ...Array<string>(11).fill('')]];
    made.push({ name, sizes });
    return steps.map(barRow);
  });
  const stepped = bars.some(({ legs: [first, second] }) => second && first!.bar.layer !== second.bar.layer);
  const radii =
    flat === edge
      ? `${plainMillimeters(edge)} mm edgewise and flatwise`
      : `${plainMillimeters(edge)} mm edgewise, ${plainMillimeters(flat)} mm flatwise`;
  return {
    id: 'bend-list',
    section,
    heading: 'Bend list, before the bars are put in',
    remarks: [
      'Along the center line from the cut end of the first leg, connection side; straights and arcs of a bar add up to its cut length. Ends without a crown stay straight until their ring is twisted.',
      'A letter after the number of a bar shape tells bars apart that are not all bent alike; the slot table has their places. As 2: cut and bent like bar 2, within 0.05 mm; its ends are joined otherwise.',
      'Turn of the bar about itself: 0\u00b0 the bend goes to the right seen from the axis, 180\u00b0 to the left, 90\u00b0 away from the axis, 270\u00b0 towards it. Out: bend away from the axis (\u2212: towards it) on the same arc.',
      `R: of the center line, mm; inner radius ${radii}. Roll: mean radius to which the bar is rolled there.`,
      ...(stepped
        ? [
            'From one layer to another R is that of the layers laid flat; angles and arcs are those of the bar on its cylinder, so that an arc there is not R \u00d7 angle.',
          ]
        : []),
      'x, y, z: center line after the step, from the middle of the machine: x through the first leg at mid-stack, y towards higher slots, z to the far side.',
    ],
    columns: [
      { name: 'bar', ...end },
      { name: 'quantity', ...end },
      { name: 'step', ...end },
      ...[
        'straight mm',
        'turn \u00b0',
        'angle \u00b0',
        'R mm',
        'arc mm',
        'out \u00b0',
        'out R mm',
        'x',
        'y',
        'z',
        'roll R mm',
      ].map((name) => ({ name, ...end })),
    ],
    letters: 1.8,
    rows,
    begins: (row) => rows[row]![1] !== '',
  };
}

/** Bars are made alike where all sizes agree within this, m. */
const alikeWithin = 5e-5;

/** Lengths of a row in m, angles as their arcs 100 mm away. */
function sizesOf({ length, bend, place, rollRadius }: BendRow): readonly number[] {
  const { turn, angle, radius, stepAngle, stepRadius } = bend ?? {};
  const bent = [turn ?? -1, (angle ?? 0) / 10, radius ?? 0, (stepAngle ?? 0) / 10, stepRadius ?? 0];
  return [length ?? 0, rollRadius, ...(place ?? []), ...bent];
}

function alike(one: readonly number[], other: readonly number[]): boolean {
  return (
    one.length === other.length && one.every((size, index) => Math.abs(size - other[index]!) <= alikeWithin)
  );
}

function barRow({
  operation,
  quantity,
  bar,
  step,
  length,
  bend,
  place,
  rollRadius,
}: BendRow): readonly string[] {
  const first = operation === 'cut';
  const sized = millimeters(length ?? 0);
  const optional = (value: number | null | undefined, words: (value: number) => string) =>
    value == null ? '' : words(value);
  return [
    bar ?? '',
    first ? String(quantity) : '',
    first ? operation : String(step),
    bend ? '' : sized,
    optional(bend?.turn, String),
    optional(bend?.angle, degrees),
    optional(bend?.radius, millimeters),
    bend ? sized : '',
    optional(bend?.stepAngle, degrees),
    optional(bend?.stepRadius, millimeters),
    ...(place ?? []).map(millimeters),
    millimeters(rollRadius),
  ];
}

/** Two decimals: what a bar is cut and bent by adds up to a tenth. */
function millimeters(length: number): string {
  return withMinus(fixedText(length * 1e3, 2));
}

function plainDegrees(angle: number): string {
  return fixedText((angle * 180) / Math.PI, 2);
}

function degrees(angle: number): string {
  return withMinus(plainDegrees(angle));
}

const slotsWidth = 60;

function twistTable(space: Space, twists: readonly RingTwist[], section: string): SheetTable {
  const pitch = (2 * Math.PI) / space.slots;
  return {
    id: 'twist-list',
    section,
    heading: 'Twist of the rings, bars in place',
    remarks: [
      'Twist: angle by which the tool turns the tips about the axis, + towards higher slots; stroke: how far the tips come down.',
      'Ends of other twist or stroke than most of their ring are bent one by one.',
    ],
    columns: [
      { name: 'side' },
      { name: 'layer' },
      { name: 'ends' },
      { name: 'bars', ...end },
      { name: 'twist \u00b0', ...end },
      { name: 'slots', ...end },
      { name: 'stroke mm', ...end },
      { name: 'mean radius mm', ...end },
      { name: 'bars in slots', most: slotsWidth },
    ],
    rows: twists.flatMap((ring) => {
      const { side, layer, uses, slots, twist, stroke } = ring;
      const cells = [
        side,
        layerLetter(layer),
        uses.join(', '),
        String(slots.length),
        withSign(plainDegrees(twist)),
        withSign(fixedText(twist / pitch, 2)),
        millimeters(stroke),
        millimeters(space.layers[layer]!.radius),
        ringSlots(space, twists, ring),
      ];
      return underRows(cells, slotsWidth);
    }),
  };
}

/** Which bars of a ring are twisted so: all, those that the rows below it do not name, or their slots. */
function ringSlots({ bars }: Space, twists: readonly RingTwist[], ring: RingTwist): string {
  const own = twists.filter(({ side, layer }) => side === ring.side && layer === ring.layer);
  const named = own.reduce((sum, { slots }) => sum + slots.length, 0);
  const all = bars.filter((each) => each?.bar.layer === ring.layer).length;
  if (ring !== own[0] || named < all) return runsText(ring.slots);
  return own.length === 1 ? 'all' : 'the others';
}
