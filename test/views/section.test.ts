// Takes its time: draws large windings.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Picture } from '../../core/picture/picture.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import { type SectionInput, sectionPicture } from '../../core/views/section/section.ts';
import type { Winding } from '../../core/winding/model.ts';
import { barsOf, flat, readXml, valuesOf } from '../picture/checkPicture.ts';
import { tries } from '../support/tries.ts';
import { expectGood, pathOf, pathsOf, specificationOf, textOf, textsOf } from './chartReading.ts';
import { fromTable, generated, type WindingRequest } from './windings.ts';

const ferry = `machine { slots 48 \n poles 8 \n gap inner \n bore 162 mm \n outside 240 mm }
slot { width 4.6 mm \n depth 15.2 mm \n opening 1.2 mm \n opening-height 0.8 mm \n liner 0.25 mm \n wedge 1 mm }
bar { width 3.6 mm \n height 3 mm \n coating 0.09 mm }`;
const ferryWinding = () => generated({ slots: 48, poles: 8, layers: 4, span: 6, parallelPaths: 2 });

const drum = `machine { gap both \n bore 250 mm \n outside 310 mm }
slot a b { width 6 mm \n depth 9 mm \n opening 3 mm }
slot c d { width 5 mm \n depth 10 mm \n opening 3 mm }
bar { width 4 mm \n height 4 mm }`;

function input(winding: Winding, text = '', more: Partial<SectionInput> = {}): SectionInput {
  return { winding, title: 'Tidal pump, stator A', specification: specificationOf(text), ...more };
}

function draw(given: SectionInput, count: number): Picture {
  const picture = expectGood(sectionPicture(given));
  const shown = barsOf(given.winding.table).filter((name) => Number.parseInt(name, 10) <= count);
  expect([...valuesOf(readXml(pictureToSvg(picture)), 'data-bar')].sort()).toEqual([...shown].sort());
  return picture;
}

const cases: readonly (WindingRequest & { readonly shown: number; readonly text?: string })[] = [
  { slots: 48, poles: 8, layers: 4, span: 6, shown: 12, text: ferry },
  { slots: 48, poles: 8, layers: 4, span: 6, shown: 12, text: drum, lean: [7.5, 7.5, -7.5, -7.5] },
  { slots: 12, poles: 10, layers: 2, span: 1, shown: 12 },
  { slots: 30, poles: 8, layers: 2, span: 3, shown: 15 },
  { slots: 36, poles: 4, layers: 1, span: 9, shown: 18, text: ferry },
  { slots: 24, poles: 2, layers: 2, span: 12, shown: 24, text: ferry },
  { slots: 72, poles: 6, phases: 6, apart: 30, layers: 2, span: 10, shown: 24 },
  {
    slots: 40,
    poles: 8,
    phases: 5,
    layers: 2,
    span: 5,
    shown: 10,
    text: ferry.replace('gap inner', 'gap outer'),
  },
  {
    slots: 480,
    poles: 32,
    layers: 4,
    span: 14,
    stagger: 1,
    shown: 30,
    text: ferry.replace('162', '1620').replace('240', '1800'),
  },
  { slots: 240, poles: 4, layers: 2, span: 50, shown: 120 },
];

test.each(cases)(
  '$slots slots, $poles poles, $layers layers: every shown bar once',
  ({ shown, text, ...request }) => {
    const winding = generated(request);
    draw(input(winding, text), shown);
    draw(input(winding, text, { extent: 'circle' }), winding.slots);
  },
);

test.each([
  [ferry, 'd', 1],
  [drum, 'd', 1],
  ['', 'd', 2],
] as const)(
  'in a panel narrower than the drawing layer letters stand where it opens (%#)',
  (text, last, rows) => {
    const room = { width: 128, height: 100 };
    const given = input(ferryWinding(), text, { extent: text === '' ? 'circle' : 'repetition' });
    const picture = expectGood(sectionPicture({ ...given, room }));
    expect(picture.width).toBeGreaterThan(room.width);
    const letters = textsOf(picture).filter(({ id }) => /^letter-\d+[a-d]$/.test(id));
    const bars = flat(picture.items).filter(({ role }) => role === 'bar-section');
    expect(bars.length).toBeGreaterThan(0);
    // In whatever stretch of the drawing is seen, and of each row of slots, every layer is named.
    for (let left = 0; left + room.width <= picture.width; left += 5) {
      const seen = letters.filter(({ x }) => x > left && x < left + room.width);
      for (const letter of ['a', 'b', 'c', last])
        expect(
          seen.filter((each) => each.text === letter).length,
          `${letter} from ${left}`,
        ).toBeGreaterThanOrEqual(rows);
    }
    // Beside the bar that it names, at its height.
    for (const { id, x, y } of letters) {
      const bar = barOnPaper(picture, id.slice('letter-'.length));
      expect(x - bar.x).toBeGreaterThan(bar.width / 2);
      expect(Math.hypot(x - bar.x, y - 0.91 - bar.y)).toBeLessThan(bar.width + 6);
    }
    // Paper shows all of it, with letters at its edge alone.
    expect(textsOf(sectionPicture(given)).filter(({ id }) => id.startsWith('letter-'))).toEqual([]);
  },
);

/** Middle of a bar and its two side lengths on paper. */
/** How wide a stretch is, and its middle. */
function spanOf(part: readonly number[]) {
  const [across, up] = [0, 1].map((way) => part.filter((_, index) => index % 2 === way));
  const middle = (values: readonly number[]) => (Math.min(...values) + Math.max(...values)) / 2;
  return { width: Math.max(...across!) - Math.min(...across!), x: middle(across!), y: middle(up!) };
}

function barOnPaper(picture: Picture, name: string) {
  const [points] = pathOf(picture, `bar-${name}`).parts;
  const [x1, y1, x2, y2, x3, y3, x4, y4] = points as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return {
    x: (x1 + x2 + x3 + x4) / 4,
    y: (y1 + y2 + y3 + y4) / 4,
    width: Math.hypot(x2 - x1, y2 - y1),
    height: Math.hypot(x3 - x2, y3 - y2),
  };
}

test('bars are as wide, as high, and as far from the axis as the text says', () => {
  const picture = sectionPicture(input(ferryWinding(), ferry, { extent: 'circle', scale: 4 }));
  const [one, opposite] = [barOnPaper(picture, '3d'), barOnPaper(picture, '27d')];
  const axis = { x: (one.x + opposite.x) / 2, y: (one.y + opposite.y) / 2 };
  expect(one.width).toBeCloseTo(4 * 3.6, 9);
  expect(one.height).toBeCloseTo(4 * 3, 9);
  // By hand, in mm: bore 81, opening 0.8, depth 15.2 to the closed end, less liner 0.25, coating 0.09, half a bar.
  const outermost = 81 + 0.8 + 15.2 - 0.25 - 0.09 - 1.5;
  expect(Math.hypot(one.x - axis.x, one.y - axis.y)).toBeCloseTo(4 * outermost, 9);
  for (const [layer, steps] of [
    ['c', 1],
    ['b', 2],
    ['a', 3],
  ] as const) {
    const bar = barOnPaper(picture, `3${layer}`);
    expect(Math.hypot(bar.x - axis.x, bar.y - axis.y)).toBeCloseTo(4 * (outermost - 3.18 * steps), 9);
  }
  const next = barOnPaper(picture, '4d');
  const angle = (bar: { x: number; y: number }) => Math.atan2(bar.y - axis.y, bar.x - axis.x);
  // Clockwise on paper, by 360/48 degrees.
  expect(((angle(next) - angle(one)) * 180) / Math.PI).toBeCloseTo(7.5, 9);
  expect(textOf(picture, 'facts').text).toContain('scale 4:1');
});

test('a coating that can be told from the copper has a line of its own, as far from it as the text says', () => {
  const barrage = `machine { bore 2400 mm }
slot { width 18 mm \n depth 70 mm \n opening 18 mm \n wedge 5 mm \n liner 0.5 mm \n separator a b 4 mm }
bar { width 10 mm \n height 22 mm \n coating 2.5 mm }`;
  const winding = generated({ slots: 180, poles: 20, layers: 2, span: 8 });
  const picture = draw(input(winding, barrage), 18);
  const scale = picture.scale!;
  const found = flat(picture.items).find(({ id }) => id === 'coatings');
  const outlines = found?.kind === 'path' ? found.parts : [];
  expect(outlines).toHaveLength(36);
  const [x1, y1, x2, y2, x3, y3] = outlines[0]! as [number, number, number, number, number, number];
  // 10 and 22 mm of copper, and 2.5 mm on either side.
  expect(Math.hypot(x2 - x1, y2 - y1) / scale).toBeCloseTo(15, 2);
  expect(Math.hypot(x3 - x2, y3 - y2) / scale).toBeCloseTo(27, 2);
  expect(
    textsOf(picture)
      .map(({ text }) => text)
      .join(' '),
  ).toContain('The thin line round a bar is its coating.');
  // Thin enamel would only thicken the edge, and a file in full size says that it has none.
  for (const plain of [
    draw(input(ferryWinding(), ferry), 12),
    draw(input(winding, barrage, { fullSize: true }), 18),
  ])
    expect(flat(plain.items).some(({ id }) => id === 'coatings')).toBe(false);
});

test('in two-gap machines the rows lie one outside the other, each in its own slot', () => {
  const winding = generated({ slots: 48, poles: 8, layers: 4, span: 6, lean: [7.5, 7.5, -7.5, -7.5] });
  const picture = sectionPicture(input(winding, drum, { extent: 'circle', scale: 3 }));
  const radius = (layer: string) => {
    const [one, opposite] = [barOnPaper(picture, `5${layer}`), barOnPaper(picture, `29${layer}`)];
    return Math.hypot(one.x - opposite.x, one.y - opposite.y) / 2 / 3;
  };
  // By hand: 125 + (155 - 125 - 19)/2 = 130.5 is the inner end; bars of 4 mm centered in 9 and in 10 mm.
  expect(['a', 'b', 'c', 'd'].map((layer) => radius(layer).toFixed(6))).toEqual(
    [130.5 + 4.5 - 2, 130.5 + 4.5 + 2, 139.5 + 5 - 2, 139.5 + 5 + 2].map((each) => each.toFixed(6)),
  );
  const words = textsOf(picture).map(({ text }) => text);
  expect(words).toContain('inner gap');
  expect(words).toContain('outer gap');
  expect(words.join(' ')).toContain('midway between the gaps');
  expect(words.join(' ')).toContain('mid-stack');
});

test('every bar has its letter, its sense and its path', () => {
  const winding = generated({ slots: 12, poles: 10, layers: 2, span: 1, parallelPaths: 2 });
  const barPath = ({ slot, layer }: { slot: number; layer: number }) => ((slot + layer) % 2) + 1;
  const picture = draw(input(winding, '', { barPath }), 12);
  let [plus, minus] = [0, 0];
  for (let layer = 0; layer < 2; layer++)
    for (let slot = 1; slot <= 12; slot++) {
      const cell = winding.table.cells[layer * 12 + slot - 1]!;
      const name = `${slot}${'ab'[layer]}`;
      expect(textOf(picture, `phase-${name}`).text).toBe('UVW'[Math.abs(cell) - 1]);
      expect(textOf(picture, `path-${name}`).text).toBe(String(barPath({ slot, layer })));
      if (cell > 0) plus++;
      else minus++;
    }
  const count = (start: string) => pathsOf(picture, start).reduce((sum, { parts }) => sum + parts.length, 0);
  // A circle each, two strokes more for + bars, a point more for - bars.
  expect(count('senses-')).toBe(plus + minus + 2 * plus);
  expect(count('points-')).toBe(minus);
  expect(plus + minus).toBe(24);
});

test('+ bars, away from the reader, have the cross, \u2212 bars the point', () => {
  const cells = new Int8Array(12);
  cells.set([1, 2, 3, 1, 2, -3, -1]);
  const winding = fromTable({ slots: 12, layers: 1, cells }, 4, { kind: 'rows' });
  const picture = draw(input(winding, '', { extent: 'circle' }), 12);
  const parts = (start: string) => pathsOf(picture, start).reduce((sum, path) => sum + path.parts.length, 0);
  expect(parts('senses-')).toBe(7 + 2 * 5);
  expect(parts('points-')).toBe(2);
  // Each point is a small one in the middle of a circle.
  const spans = (start: string) =>
    pathsOf(picture, start).flatMap((path) =>
      path.parts.filter((part) => part.length > 4).map((part) => spanOf(part)),
    );
  const circles = spans('senses-');
  for (const { width, x, y } of spans('points-')) {
    const round = circles.find((circle) => Math.hypot(circle.x - x, circle.y - y) < 0.05);
    expect(width).toBeGreaterThan(0.2 * round!.width);
    expect(width).toBeLessThan(0.6 * round!.width);
  }
  expect(textOf(picture, 'legend-away').text).toContain('+ bar: current to the far side');
});

test('one path needs no numbers, and emphasis makes one phase strong', () => {
  const picture = draw(input(ferryWinding(), ferry, { emphasis: { phase: 1 } }), 12);
  expect(textsOf(picture).some(({ id }) => id.startsWith('path-'))).toBe(false);
  const bars = pathsOf(picture, 'bar-').filter(({ role }) => role === 'bar-section');
  for (const { phase, emphasis } of bars) expect(emphasis).toBe(phase === 1 ? 'strong' : 'faded');
});

test('two gaps without an outside diameter: drawn where bore and slots put it, and said so', () => {
  // 250 + 2 x (9 + 10 + 2 x 1) mm.
  const withHeights = drum.replaceAll('opening 3 mm', 'opening 3 mm \n opening-height 1 mm');
  const left = withHeights.replace('outside 310 mm', '');
  const winding = generated({ slots: 48, poles: 8, layers: 4, span: 6, lean: [7.5, 7.5, -7.5, -7.5] });
  const derived = draw(input(winding, left), 12);
  const written = draw(input(winding, withHeights.replace('310 mm', '292 mm')), 12);
  const geometry = (picture: Picture) =>
    flat(picture.items).filter(({ role }) => ['core', 'core-edge', 'bar-section'].includes(role));
  expect(geometry(derived)).toEqual(geometry(written));
  const words = (picture: Picture) =>
    textsOf(picture)
      .map(({ text }) => text)
      .join(' ');
  expect(words(derived)).toContain('Outside diameter 292 mm (from bore, slot depth and opening-height).');
  expect(words(written)).not.toContain('from bore');
});

test.each([
  ['', 'To scale it needs', 'machine bore'],
  [ferry.replace('bore 162 mm', ''), 'To scale it needs', 'machine bore'],
  [ferry.replace('width 4.6 mm', ''), 'To scale it needs', 'slot width'],
  [
    ferry.replace('width 4.6 mm', 'width 20 mm'),
    'To scale it needs',
    'a slot width less than the slot pitch',
  ],
  [
    ferry.replace('gap inner', 'gap outer').replace('15.2', '200'),
    'To scale it needs',
    'depth less than the radius',
  ],
])('without sizes it is straight, and says why: %#', (text, words, need) => {
  const picture = draw(input(ferryWinding(), text), 12);
  const notes = textsOf(picture)
    .filter(({ role }) => role === 'note')
    .map(({ text: each }) => each)
    .join(' ');
  expect(notes).toContain(words);
  expect(notes).toContain(need);
  expect(textOf(picture, 'facts').text).toContain('not to scale');
  // All slots of the row stand side by side.
  expect(
    new Set(
      pathsOf(picture, 'bar-')
        .filter(({ id }) => id.endsWith('a'))
        .map(({ parts }) => parts[0]![1]),
    ).size,
  ).toBe(1);
});

test('bars that do not fit are drawn smaller, and it says so', () => {
  const picture = draw(input(ferryWinding(), ferry.replace('height 3 mm', 'height 4 mm')), 12);
  expect(
    textsOf(picture)
      .map(({ text }) => text)
      .join(' '),
  ).toContain('do not fit the slot');
});

test('a scale that is none is a misuse', () => {
  for (const scale of [0, -1, Number.NaN, Infinity])
    expect(() => sectionPicture(input(ferryWinding(), ferry, { scale }))).toThrow(RangeError);
});

test('at a small asked scale words that do not fit are left out, bars are not', () => {
  const picture = draw(input(ferryWinding(), ferry, { scale: 0.5 }), 12);
  expect(textOf(picture, 'facts').text).toContain('scale 1:2');
  expect(flat(picture.items).filter(({ role }) => role === 'bar-section')).toHaveLength(48);
});

test('titles of any length and script stay inside', () => {
  for (const title of ['', 'x'.repeat(5000), '\u6e21\u3057\u8239'.repeat(90), 'a\u0000\u202e\n"<b>&'])
    draw({ ...input(ferryWinding(), ferry), title }, 12);
});

const length = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true }).map((value) => value.toFixed(3));

test('any table in any slot is drawn well', () => {
  fc.assert(
    fc.property(
      fc.record({
        slots: fc.integer({ min: 2, max: 60 }),
        layers: fc.integer({ min: 1, max: 9 }),
        polePairs: fc.integer({ min: 1, max: 20 }),
        phases: fc.constantFrom(3, 5, 6, 15),
        gap: fc.constantFrom('inner', 'outer', 'both'),
        sizes: fc.tuple(
          length(1, 900),
          length(1, 1000),
          length(0.5, 40),
          length(1, 90),
          length(0.1, 20),
          length(0.5, 20),
          length(0.2, 20),
        ),
        cells: fc.array(fc.integer({ min: -15, max: 15 }), { minLength: 540, maxLength: 540 }),
        circle: fc.boolean(),
      }),
      ({ slots, layers, polePairs, phases, gap, sizes, cells, circle }) => {
        const table = {
          slots,
          layers,
          cells: Int8Array.from({ length: slots * layers }, (_, i) => cells[i]! % (phases + 1)),
        };
        const winding = {
          ...fromTable(table, 2 * polePairs, { kind: 'rows' }, [], phases),
          parallelPaths: 12,
        };
        const [bore, outside, width, depth, opening, barWidth, barHeight] = sizes;
        const text = `machine { gap ${gap} \n bore ${bore} mm \n outside ${outside} mm }
slot { width ${width} mm \n depth ${depth} mm \n opening ${opening} mm \n liner 0.3 mm \n wedge 0.5 mm }
bar { width ${barWidth} mm \n height ${barHeight} mm }`;
        const picture = expectGood(
          sectionPicture(
            input(winding, text, {
              extent: circle ? 'circle' : 'repetition',
              barPath: ({ slot }) => (slot % 12) + 1,
            }),
          ),
        );
        expect(picture.width).toBeLessThan(1e6);
      },
    ),
    { seed: 31, numRuns: tries(14) },
  );
});
