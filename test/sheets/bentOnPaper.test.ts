// Takes its time: draws many sheets.

import { describe, expect, test } from 'vitest';
import type { SpaceBar } from '../../core/space/space.ts';
import { machineText } from '../space/machines.ts';
import { allTexts, exampleText, type SheetSet, sheetSet, tableRows } from './sheetSets.ts';

// A bar bent on paper by nothing but the numbers that the sheets print, in mm: straight stretches to sharp corners,
// each corner shorter by what its bend cuts off. Its length comes to the printed one, its ends to where they stand
// in space.

/** What a sketch prints, by the ends of its texts' ids; and its notes, in one line. */
function sketchOf(set: SheetSet, shape: number) {
  const id = `bar-shape-${shape}-`;
  const own = allTexts(set).filter((text) => text.id.startsWith(id));
  const numbers = new Map(own.map((text) => [text.id.slice(id.length), Number(text.text)]));
  const number = (name: string): number => {
    const value = numbers.get(name);
    if (value === undefined || Number.isNaN(value)) throw new RangeError(`${id}${name} is not printed`);
    return value;
  };
  const notes = own
    .filter((text) => text.id.includes('-note-'))
    .map(({ text }) => text)
    .join(' ');
  const noted = (pattern: RegExp): number => Number(pattern.exec(notes)?.[1] ?? Number.NaN);
  return { number, noted };
}

/** Section of a shape in the bar list. */
function sectionOf(set: SheetSet, shape: number): readonly [width: number, height: number] {
  const row = tableRows(set, 'bar-list').find(([number]) => Number.parseInt(number!, 10) === shape)!;
  const [width, height] = row[3]!.split(' × ').map(Number);
  return [width!, height!];
}

/** What a bend takes off its two straights. */
const cutOff = (radius: number, turn: number) => 2 * radius * Math.tan(turn / 2) - radius * turn;

/** From the stack's face to the end: along the lean, bent to the slope, and back to the axis. */
function joinedEnd(
  { straight, offset, rise, joint }: Readonly<Record<'straight' | 'offset' | 'rise' | 'joint', number>>,
  radius: number,
  lean = 0,
): number {
  const slope = Math.atan2(offset, rise);
  return (
    straight / Math.cos(lean) +
    Math.hypot(offset, rise) +
    joint -
    cutOff(radius, slope - lean) -
    cutOff(radius, slope)
  );
}

/** Both legs of a crown above the straights, by its height to the rounded apex, its span and its step. */
function crown(span: number, height: number, step: number, edge: number, flat: number): number {
  const half = span / 2;
  // The height of the sharp apex less what the rounding takes: found by halving.
  let [low, high] = [0, Math.PI / 2 - 0.01];
  for (let tried = 0; tried < 60; tried++) {
    const slope = (low + high) / 2;
    const found = half * Math.tan(slope) - edge * (1 / Math.cos(slope) - 1);
    if (found < height) low = slope;
    else high = slope;
  }
  const legs =
    2 * (half / Math.cos(low) - edge * (Math.tan(low) - low)) - 2 * cutOff(edge, Math.PI / 2 - low);
  const turn = Math.acos(1 - step / (2 * flat));
  return legs + 2 * (flat * turn - Math.sqrt(step * flat - step ** 2 / 4));
}

function barOf(set: SheetSet, slot: number, layer: number): SpaceBar {
  const figure = set.study.facts!.space().space;
  if (!figure.known) throw new RangeError();
  return figure.value.bars[layer * figure.value.slots + slot - 1]!;
}

/** Numbers are printed to 0.1 mm; a bar has about a dozen of them. */
const printed = 0.35;

describe('a bar bent on paper by what the sheets print', () => {
  test('a hairpin whose lead is bent to a ring: the pod drive with rings', () => {
    const text = exampleText('harbor-ferry-pod-drive')
      .replace('\nconnect {\n', '\nconnect {\n  rings all\n')
      .replace('\nbar {\n', '\nbar {\n  ring-width 8 mm\n  ring-height 4 mm\n');
    const set = sheetSet(text);
    const { number, noted } = sketchOf(set, 1);
    const [width, height] = sectionOf(set, 1);
    const inner = noted(/Inner bend radius ([\d.]+) mm/);
    const [edge, flat] = [inner + width / 2, inner + height / 2];
    const straight = number('crown-0');
    const first = {
      straight: number('left-3'),
      offset: number('offset-0'),
      rise: number('left-2'),
      joint: number('left-1') + number('left-0'),
    };
    const second = {
      straight: number('right-2'),
      offset: number('offset-1'),
      rise: number('right-1'),
      joint: number('right-0'),
    };
    const toRing = noted(/connection side, ([\d.]+) mm away from the axis to its ring/);
    const step = noted(/the crown ([\d.]+) mm from leg to leg/);
    const length =
      joinedEnd(first, edge) +
      toRing -
      cutOff(flat, Math.PI / 2) +
      2 * number('stack-0') +
      2 * straight +
      crown(number('crown-span'), number('crown-1'), step, edge, flat) +
      joinedEnd(second, edge);
    expect(Math.abs(length - noted(/Developed length ([\d.]+)/))).toBeLessThan(printed);
    // A star end: its place is in the list of ends, and in space.
    const row = tableRows(set, 'ends').find((cells) => cells[1] === 'N' && /a$/.test(cells[4]!))!;
    const bar = barOf(set, Number.parseInt(row[4]!, 10), 0);
    const radius = noted(/Mean radius: a ([\d.]+)/);
    expect(Math.abs(first.offset - Math.abs(bar.connection.tip.angle) * radius)).toBeLessThan(0.1);
    const top = first.straight + first.rise + first.joint;
    expect(Math.abs(top - 1e3 * bar.connection.top)).toBeLessThan(0.3);
    expect(Math.abs(top - Number(row[8]))).toBeLessThan(0.3);
    const ring = tableRows(set, 'rings').find(([name]) => name === 'N')!;
    const [ringWidth] = ring[3]!.split(' × ').map(Number);
    // To the coating of the ring's side.
    expect(Math.abs(radius + toRing - (Number(ring[4]) - ringWidth! / 2))).toBeLessThan(0.3);
  });

  test('a leaning straight bar joined at both ends: the cable-ferry drum', () => {
    const set = sheetSet(exampleText('cable-ferry-drum'));
    const list = tableRows(set, 'bar-list');
    const shape = Number.parseInt(
      list.find((row) => !/free|all/.test(row.join(' ')) && row[2] === 'a')![0]!,
      10,
    );
    const { number, noted } = sketchOf(set, shape);
    const [width] = sectionOf(set, shape);
    const edge = noted(/Inner bend radius ([\d.]+) mm/) + width / 2;
    const stack = number('stack-0');
    const lean = Math.atan2(noted(/Lean over the stack: a [^(]*\(([\d.]+) mm\)/), stack);
    const connection = {
      straight: number('right-2'),
      offset: number('offset-0'),
      rise: number('right-1'),
      joint: number('right-0'),
    };
    const far = {
      straight: number('far-2'),
      offset: number('far-offset'),
      rise: number('far-1'),
      joint: number('far-0'),
    };
    const length = joinedEnd(connection, edge, lean) + number('along-0') + joinedEnd(far, edge, lean);
    expect(Math.abs(length - noted(/Developed length ([\d.]+)/))).toBeLessThan(printed);
    const [slot] = list
      .find(([each]) => Number.parseInt(each!, 10) === shape)!
      .at(-1)!
      .split('a');
    const bar = barOf(set, Number(slot), 0);
    const radius = noted(/Mean radius: a ([\d.]+)/);
    for (const [side, own] of [
      ['connection', connection],
      ['far', far],
    ] as const) {
      const aside = (stack / 2 + own.straight) * Math.tan(lean) + own.offset;
      expect(Math.abs(aside - 1e3 * Math.abs(bar[side].tip.angle) * (radius / 1e3))).toBeLessThan(0.2);
      const top = own.straight + own.rise + own.joint;
      expect(Math.abs(top - 1e3 * bar[side].top)).toBeLessThan(0.2);
    }
  });

  test('a tooth coil: its crown spans one slot', () => {
    const set = sheetSet(
      machineText({
        slots: 12,
        poles: 10,
        layers: 2,
        span: 1,
        paths: 2,
        form: 'hairpin',
        gap: 'inner',
        lean: [0, 0],
        filled: 0.3,
        slender: 0.8,
        bar: 'bend-radius 3 mm',
      }),
    );
    const { number, noted } = sketchOf(set, 1);
    const [width, height] = sectionOf(set, 1);
    const inner = noted(/Inner bend radius ([\d.]+) mm/);
    const [edge, flat] = [inner + width / 2, inner + height / 2];
    const step = noted(/the crown ([\d.]+) mm from leg to leg/);
    const straight = number('crown-0');
    const arch = crown(number('crown-span'), number('crown-1'), step, edge, flat);
    const bar = barOf(set, 1, 0);
    const crowned = bar.far.pieces.reduce((sum, piece) => sum + piece.length, 0) * 1e3;
    const other = barOf(set, 2, 1);
    const both = crowned + other.far.pieces.reduce((sum, piece) => sum + piece.length, 0) * 1e3;
    expect(Math.abs(2 * straight + arch - both)).toBeLessThan(0.6);
    expect(Math.abs(straight + number('crown-1') - 1e3 * bar.far.top)).toBeLessThan(0.15);
  });
});
