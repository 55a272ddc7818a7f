// Takes its time: measures bars in space.

import { describe, expect, test } from 'vitest';
import { shopModel } from '../../core/facts/shop.ts';
import { roundedArea } from '../../core/sizes/section.ts';
import type { CadWish } from '../../core/space/cad/cadModel.ts';
import { stepReal, stepString } from '../../core/space/cad/stepText.ts';
import { type CadModel, type CadProduct, writeStep } from '../../core/space/cad/writeStep.ts';
import { stlSize, trianglesOf, writeStl } from '../../core/space/cad/writeStl.ts';
import { study as studyAnew } from '../../core/study.ts';
import { unequalConnection } from '../copper/unequalPaths.ts';
import { unmeasured as study } from '../support/withoutEnds.ts';
import { machineText, ringsOfMixedRadius } from './machines.ts';
import { numbersOf, readShell, readStep, undefinedReferences } from './stepReader.ts';

const ringed = { bar: 'bend-radius 3 mm flat 2 mm lead-length 15 mm ring-width 6 mm ring-height 4 mm' };
const common = { slots: 12, poles: 4, paths: 2, filled: 0.45, slender: 0.8, lean: [0, 0] as const };
const hairpins = machineText({
  ...common,
  ...ringed,
  layers: 2,
  form: 'hairpin',
  gap: 'inner',
  connect: 'rings all',
});
const crossed = machineText({
  ...common,
  poles: 2,
  layers: 4,
  form: 'straight',
  gap: 'both',
  lean: [1, -1],
  bar: 'bend-radius 3 mm joint-gap 0.05 mm',
});
/** Connecting pieces on several levels. */
const pieces = `winding "Sluice lift"
machine { slots 36 poles 4 phases 3 gap inner bore 180 mm stack 120 mm }
slot { width 7 mm depth 12 mm opening 2 mm opening-height 1 mm liner 0.3 mm }
bar { width 6 mm height 4.5 mm corner 0 mm coating 0.1 mm bend-radius 6 mm
  end-straight 12 mm end-clearance 1 mm joint-straight 12 mm }
layout { layers 2 span 9 }
${unequalConnection}`;

/** Flat bars whose connecting pieces step beside the leads of their one layer, wider than they are high. */
const stepped = machineText({
  ...ringsOfMixedRadius,
  slots: 24,
  poles: 4,
  layers: 1,
  span: 6,
  paths: 1,
  form: 'straight',
});
/** Leads that turn to rings behind the winding, one after a step round the axis. */
const turned = machineText({ ...ringsOfMixedRadius, slots: 24, poles: 4 });

const whole: CadWish = { shape: null, state: 'finished' };

function modelOf(text: string, wish: CadWish = whole, studied = study): CadModel {
  const { facts, title } = studied(text);
  const model = shopModel(facts!, title, wish);
  if (!model.known) throw new RangeError(model.needs.join());
  return model.value;
}

const volumeOf = ({ line }: CadProduct) =>
  1e9 * roundedArea(line.section.width, line.section.height, line.section.corner) * line.length;

describe.each([
  ['hairpins with rings', hairpins],
  ['crossed straight bars', crossed],
  ['bars with connecting pieces', pieces],
  ['pieces whose risers step aside', stepped],
  ['leads that are bent to rings', turned],
])('a STEP file of %s', (_, text) => {
  const model = modelOf(text);
  const step = writeStep(model);
  const read = readStep(step);

  test('is well-formed', () => {
    expect(read.header).toHaveLength(3);
    expect(read.header[0]).toMatch(/^FILE_DESCRIPTION\(\('[^']*'\),'2;1'\);$/);
    expect(read.header[1]).toMatch(
      /^FILE_NAME\('[^']*','\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d',\(''\),\(''\),'[^']*','[^']*','[^']*'\);$/,
    );
    expect(read.header[2]).toBe("FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));");
    expect(undefinedReferences(read)).toEqual([]);
  });

  test('holds closed solids whose volumes are area x length', () => {
    const shells = numbersOf(read, 'CLOSED_SHELL');
    expect(shells).toHaveLength(model.products.length);
    // The first, the last, one between, and the first piece; of leads that are bent all.
    const piece = model.products.findIndex(({ name }) => name.startsWith('Connecting piece'));
    const some = [0, shells.length >> 1, shells.length - 1, Math.max(0, piece)];
    const chosen = text === turned ? shells.keys() : new Set(some);
    for (const index of chosen) {
      const shell = shells[index]!;
      const { faces, edges, vertices, edgesUsedOnceEachWay, volume, gap } = readShell(read, shell);
      expect(vertices - edges + faces).toBe(2);
      expect(edgesUsedOnceEachWay).toBe(true);
      expect(gap).toBeLessThan(1e-5);
      expect(volume / volumeOf(model.products[index]!)).toBeCloseTo(1, 3);
    }
  });

  test('has every bar, piece and ring where it stands', () => {
    const { facts } = study(text);
    const figure = facts!.space().space;
    if (!figure.known) throw new RangeError();
    const bars = figure.value.bars.filter((bar) => bar !== null).length;
    const names = model.products.flatMap(({ places }) => places.map(({ name }) => name));
    expect(names.flatMap((name) => (/^\d/.test(name) ? name.split('-') : []))).toHaveLength(bars);
    const others = names.filter((name) => !/^\d/.test(name));
    expect(others).toHaveLength(figure.value.links.length + figure.value.rings.length);
    expect(numbersOf(read, 'NEXT_ASSEMBLY_USAGE_OCCURRENCE')).toHaveLength(names.length);
    expect(numbersOf(read, 'CONTEXT_DEPENDENT_SHAPE_REPRESENTATION')).toHaveLength(names.length);
    expect(numbersOf(read, 'PRODUCT')).toHaveLength(model.products.length + 1);
    if (text === pieces) expect(figure.value.links.length).toBeGreaterThan(0);
    if (text === hairpins) expect(figure.value.rings.length).toBeGreaterThan(0);
  });

  test('agrees with the triangles of the STL file, which are closed too', () => {
    for (const product of model.products.slice(0, 3)) {
      const triangles = trianglesOf(product.line, 2e-5);
      const names = new Map<string, number>();
      /** The number of a corner, the same for all at one place. */
      const corner = (at: readonly number[]) => {
        const place = at.map((value) => Math.round(value * 1e9)).join();
        const found = names.get(place) ?? names.size;
        names.set(place, found);
        return found;
      };
      const edges = new Map<number, number>();
      let volume = 0;
      for (const [a, b, c] of triangles) {
        volume +=
          (a[0] * (b[1] * c[2] - b[2] * c[1]) +
            a[1] * (b[2] * c[0] - b[0] * c[2]) +
            a[2] * (b[0] * c[1] - b[1] * c[0])) /
          6;
        const [one, two, three] = [corner(a), corner(b), corner(c)];
        for (const [from, to] of [
          [one, two],
          [two, three],
          [three, one],
        ] as const) {
          const [forward, back] = [from * 1e6 + to, to * 1e6 + from];
          if (edges.get(back) === 1) edges.delete(back);
          else edges.set(forward, (edges.get(forward) ?? 0) + 1);
        }
      }
      expect(edges.size).toBe(0);
      expect((volume * 1e9) / volumeOf(product)).toBeCloseTo(1, 3);
    }
  });
});

test('a text that is studied again, whose paths are found, gives the same STEP file', () => {
  expect(writeStep(modelOf(stepped, whole, studyAnew))).toBe(writeStep(modelOf(stepped)));
});

test('one shape stands in slot 1; before it is put in, its ends are straight and it is as long', () => {
  const finished = modelOf(hairpins, { shape: '1', state: 'finished' });
  const before = modelOf(hairpins, { shape: '1', state: 'before' });
  expect(finished.products.length).toBeGreaterThan(0);
  expect(modelOf(hairpins, { shape: '99', state: 'before' }).products).toEqual([]);
  finished.products.forEach(({ line, name, places }, index) => {
    expect(name).toMatch(/^Bar shape 1(-[A-Z])?$/);
    expect(places).toEqual([{ name, turn: 0 }]);
    const other = before.products[index]!;
    expect(other.line.length).toBeCloseTo(line.length, 9);
  });
  // One of several kinds of a shape by itself, so that they do not stand in each other.
  const [first, ...others] = finished.products;
  expect(others.length).toBeGreaterThan(0);
  const kind = first!.name.slice('Bar shape '.length);
  expect(modelOf(hairpins, { shape: kind, state: 'finished' }).products).toEqual([first]);
  const count = (model: CadModel) => writeStl(model).length;
  expect(count(before)).toBeLessThan(count(finished));
});

test('without a bend radius there is no model, and that is said', () => {
  const { facts, title } = study(hairpins.replace('bend-radius 3 mm flat 2 mm', ''));
  const model = shopModel(facts!, title, whole);
  expect(model.known ? [] : model.needs).toEqual(['bar bend-radius']);
});

test('a binary STL file has as many triangles as it says, fewer where chords may leave curves farther', () => {
  const model = modelOf(hairpins);
  const bytes = writeStl(model);
  const count = new DataView(bytes.buffer).getUint32(80, true);
  expect(bytes.length).toBe(84 + 50 * count);
  expect(bytes.length).toBe(stlSize(model));
  const shape = modelOf(hairpins, { shape: '1', state: 'finished' });
  for (const chordError of [2e-5, 1e-4, 4e-4])
    expect(writeStl(shape, chordError).length).toBe(stlSize(shape, chordError));
  expect(stlSize(model, 2e-5)).toBeGreaterThan(2.5 * stlSize(model));
  expect(new TextDecoder().decode(bytes.slice(0, 5))).not.toBe('solid');
});

test.each([
  ["Lena's \\ lift", "'Lena''s \\\\ lift'"],
  ['Sp\u00fclwinde', "'Sp\\X2\\00FC\\X0\\lwinde'"],
  ['\u03a9\u{1f6a2}', "'\\X2\\03A9D83DDEA2\\X0\\'"],
])('writes the text %s as %s', (text, written) => {
  expect(stepString(text)).toBe(written);
});

test.each([
  [0, '0.'],
  [-1e-9, '0.'],
  [-12.5, '-12.5'],
  [3, '3.'],
  [1 / 3, '0.333333'],
])('writes the number %s as %s', (value, written) => {
  expect(stepReal(value)).toBe(written);
});

test.each([2e-5, 1e-4, 4e-4])(
  'an STL file of %s m keeps its chords so near to center lines, and the volume',
  (chordError) => {
    const { line } = modelOf(hairpins).products[0]!;
    const triangles = trianglesOf(line, chordError);
    const volume = triangles.reduce(
      (sum, [a, b, c]) =>
        sum +
        (a[0] * (b[1] * c[2] - b[2] * c[1]) +
          a[1] * (b[2] * c[0] - b[0] * c[2]) +
          a[2] * (b[0] * c[1] - b[1] * c[0])) /
          6,
      0,
    );
    const { width, height, corner } = line.section;
    const exact = line.length * (width * height - (4 - Math.PI) * corner ** 2);
    // Chords cut bends short, with the square of their angle.
    expect(Math.abs(volume / exact - 1)).toBeLessThan(5e-4 * (chordError / 2e-5));
    expect(Math.abs(volume / exact - 1)).toBeLessThan(5e-3);
  },
);

test('a STEP file tells number and revision of the drawing, each product its revision', () => {
  const issued = (sheet: string) => readStep(writeStep(modelOf(`${crossed}\n${sheet}`)));
  const formations = (sheet: string) =>
    [...writeStep(modelOf(`${crossed}\n${sheet}`)).matchAll(/PRODUCT_DEFINITION_FORMATION\('([^']*)',/g)].map(
      ([, revision]) => revision,
    );
  expect(issued('').header[0]).toBe("FILE_DESCRIPTION(('Bars of a winding'),'2;1');");
  expect(new Set(formations(''))).toEqual(new Set(['']));
  const sheet = 'sheet { number "EW-104" revision "B" }';
  expect(issued(sheet).header[0]).toBe("FILE_DESCRIPTION(('Bars of a winding; EW-104, revision B'),'2;1');");
  expect(formations(sheet).length).toBeGreaterThan(2);
  expect(new Set(formations(sheet))).toEqual(new Set(['B']));
});
