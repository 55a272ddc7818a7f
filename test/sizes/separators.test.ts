import { describe, expect, it } from 'vitest';
import { specify } from '../../core/language/specification/specify.ts';
import { parse } from '../../core/language/text/parser.ts';
import { roomForBars, rowFit } from '../../core/sizes/fit.ts';
import { layerRadii, slotRows } from '../../core/sizes/slotRows.ts';
import { examine, ferryDrive, withLine } from '../copper/machines.ts';
import { expectFindings } from '../support/marked.ts';
import { study } from '../support/study.ts';

const separated = ferryDrive
  .replace('liner 0.25 mm', 'liner 0.25 mm\n  separator b c 0.4 mm')
  .replace('wedge 1 mm', 'wedge 0.5 mm');

describe('separators', () => {
  it('move the layers beyond them, counted from the closed end', () => {
    const plain = examine(ferryDrive).copper.radii!;
    const { radii } = examine(separated).copper;
    // Closed outside: c and d stay, a and b move in by the separator.
    expect(radii!.map((radius, layer) => (radius - plain[layer]!) * 1e3)).toEqual(
      [-0.4, -0.4, 0, 0].map((moved) => expect.closeTo(moved, 9)),
    );
  });

  it('two mouths: half to either side', () => {
    const both = (text: string) =>
      text.replace('gap inner', 'gap both').replace('bore 162 mm', 'bore 162 mm\n  outside 195.6 mm');
    const plain = examine(both(ferryDrive)).copper.radii!;
    const radii = examine(both(separated)).copper.radii!;
    expect(radii.map((radius, layer) => (radius - plain[layer]!) * 1e3)).toEqual(
      [-0.2, -0.2, 0.2, 0.2].map((moved) => expect.closeTo(moved, 9)),
    );
  });

  it('count in what the slot must hold and in what it leaves to the bars', () => {
    const { input } = examine(separated);
    const { specification, winding } = input;
    const rows = slotRows(specification, winding);
    const row = rows.known ? rows.value[0]! : null;
    const fit = rowFit(specification, winding, row!);
    // Four bars of 3.18 mm and the separator; depth 15.2 less wedge 0.5 and liner 0.25.
    expect(fit.known && fit.value.height.needed * 1e3).toBeCloseTo(4 * 3.18 + 0.4, 9);
    const room = roomForBars(specification, winding, row!);
    expect(room.known && room.value * 1e3).toBeCloseTo((14.45 - 0.4) / 4 - 0.18, 9);
  });

  it('count only where both their layers have a bar', () => {
    const half = withLine(separated, 'span 6', null)
      .replace(
        'layers 4',
        'layers 3\n  layer a +U +U -W -W +V +V repeat 8 alternating\n  layer b . repeat 48\n  layer c = layer a moved 6 negated',
      )
      .replace('route paths 2', '');
    const { specification, winding } = examine(half).input;
    const rows = slotRows(specification, winding);
    const fit = rowFit(specification, winding, rows.known ? rows.value[0]! : ({} as never));
    expect(fit.known && fit.value.height.needed * 1e3).toBeCloseTo(2 * 3.18, 9);
    expect(layerRadii(specification, winding).known).toBe(true);
  });

  it('are the same whichever of their layers is named first', () => {
    const turned = separated.replace(/separator (\w) (\w)/, 'separator $2 $1');
    expect(turned).not.toBe(separated);
    const rows = [separated, turned].map((text) => specify(parse(text)).slots[0]!.separators[0]!.value);
    expect(rows[1]).toEqual(rows[0]);
    expect(study(turned).report().copper).toEqual(study(separated).report().copper);
  });

  it('stand between neighbors of their own slot, once', () => {
    const findingsOf = (text: string) =>
      study(text).findings.filter(({ code }) => code === 'separator-misplaced' || code === 'layer-outside');
    const text = ferryDrive.replace(
      'liner 0.25 mm',
      'liner 0.25 mm\n  «separator a c 0.2 mm»\n  separator b c 0.2 mm\n  «separator c b 0.2 mm»\n  «separator d e 0.2 mm»',
    );
    expectFindings(text, ['separator-misplaced', 'separator-misplaced', 'layer-outside'], findingsOf);
  });
});
