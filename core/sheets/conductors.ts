import type { Facts } from '../facts/facts.ts';
import { orNull } from '../figures/figure.ts';
import { figureText, inShownUnit } from '../language/figureText.ts';
import { layerLetter, layerLetters } from '../language/layerLetters.ts';
import { significant } from '../language/numbers.ts';
import { stated, valueOrDefault } from '../language/specification/defaults.ts';
import type { SlotSpecification, Specification } from '../language/specification/specification.ts';
import { barStatements, slotStatements } from '../language/vocabulary/blocks/copper.ts';
import { barCoating, barCorner, barHeight, barStrands, barWidth } from '../sizes/barInputs.ts';
import { plainMillimeters } from './numbers.ts';
import type { SheetTable } from './page/table.ts';

const unknown = '\u2013';

/** Section of the bars of a layer without its coating, `3.6 × 3`; a dash where the text does not give it. */
export function sectionWords(specification: Specification, layer: number): string {
  const [width, height] = [barWidth(specification, layer), barHeight(specification, layer)];
  if (!width.known || !height.known) return unknown;
  return `${plainMillimeters(width.value)} \u00d7 ${plainMillimeters(height.value)}`;
}

const sizeColumns = ['width', 'height', 'corner', 'coating', 'coated', 'strands', 'mm\u00b2'];
/** Where bars are of one piece the column of strands is left out. */
const strandsCell = sizeColumns.indexOf('strands');

/** The bars' sections, metal and insulation, one row for all layers that are alike. */
export function conductorTable(facts: Facts, section: string): SheetTable {
  const { specification, winding } = facts;
  const rows = new Map<string, { readonly layers: number[]; readonly cells: readonly string[] }>();
  for (let layer = 0; layer < winding.layers; layer++) {
    const cells = barCells(facts, layer);
    const key = cells.join('|');
    const known = rows.get(key);
    if (known) known.layers.push(layer);
    else rows.set(key, { layers: [layer], cells });
  }
  const stranded = [...rows.values()].some(({ cells }) => cells[strandsCell] !== '1');
  const shown = <T>(cells: readonly T[]): readonly T[] =>
    stranded ? cells : cells.filter((_, index) => index !== strandsCell);
  const absent = (['width', 'height'] as const)
    .filter((word) => !specification.bar?.[word].length)
    .map((word) => `bar ${word}`);
  return {
    id: 'conductors',
    section,
    heading: 'Bars and their insulation',
    remarks: [
      'mm: width across the slot, height along its depth; coating on each face.',
      ...(absent.length > 0 ? [`Not given: ${absent.join(', ')}.`] : []),
    ],
    columns: [
      { name: 'layers', most: 42 },
      ...shown(sizeColumns).map((name) => ({ name, align: 'end' as const })),
      { name: 'metal' },
    ],
    rows: [...rows.values()].map(({ layers, cells }) => [
      layers.length === winding.layers && layers.length > 4 ? 'all' : layerLetters(layers),
      ...shown(cells),
    ]),
  };
}

function barCells({ specification, copper }: Facts, layer: number): readonly string[] {
  const size = (figure: { known: true; value: number } | { known: false }): string =>
    figure.known ? plainMillimeters(figure.value) : unknown;
  const [width, height] = [barWidth(specification, layer), barHeight(specification, layer)];
  const [corner, coating] = [barCorner(specification), barCoating(specification)];
  const coat = coating.known ? 2 * coating.value : 0;
  const coated =
    width.known && height.known
      ? `${plainMillimeters(width.value + coat)} \u00d7 ${plainMillimeters(height.value + coat)}`
      : unknown;
  const strands = barStrands(specification, layer);
  const area = orNull(copper().section.barArea)?.[layer];
  return [
    size(width),
    size(height),
    size(corner),
    size(coating),
    coated,
    strands.known ? String(strands.value) : unknown,
    area === undefined ? unknown : significant(inShownUnit('copper.section.barArea', area), 4),
    valueOrDefault(barStatements, specification.bar, 'metal'),
  ];
}

const slotWords = ['width', 'depth', 'opening', 'openingHeight', 'liner', 'wedge'] as const;

/** The slots with their liners and wedges, one row for each kind. */
export function slotSizesTable(facts: Facts, section: string): SheetTable {
  const { specification, copper } = facts;
  const fill = orNull(copper().section.slotFill);
  const cell = (slot: SlotSpecification, word: (typeof slotWords)[number]): string => {
    const size = stated(slotStatements, slot, word);
    if (!size.known) return unknown;
    const absent = size.value === 0 && (word === 'liner' || word === 'wedge');
    return absent ? 'none' : plainMillimeters(size.value);
  };
  const none = specification.slots.length === 0;
  return {
    id: 'slot-sizes',
    section,
    heading: 'Slots',
    remarks: [
      `mm; liner on each wall, separators between two layers.${fill === null ? '' : ` Metal of the bars fills ${figureText('copper.section.slotFill', fill)} of the slot.`}`,
      ...(none ? ['Not given: slot width, slot depth.'] : []),
    ],
    columns: [
      { name: 'layers', most: 42 },
      ...['width', 'depth', 'opening', 'its height', 'liner', 'wedge'].map((name) => ({
        name,
        align: 'end' as const,
      })),
      { name: 'separators', most: 60 },
    ],
    rows: none
      ? [['all', ...slotWords.map(() => unknown), unknown]]
      : specification.slots.map((slot) => [
          slot.layers.length === 0 ? 'all' : slot.layers.map(({ layer }) => layerLetter(layer)).join(' '),
          ...slotWords.map((word) => cell(slot, word)),
          separatorWords(slot),
        ]),
  };
}

/** Thicknesses and where they lie, `0.3 a|b c|d, 0.5 b|c`. */
function separatorWords({ separators }: SlotSpecification): string {
  const places = new Map<number, string[]>();
  for (const { value } of separators) {
    const between = value.layers.map(layerLetter).join('|');
    places.set(value.thickness, [...(places.get(value.thickness) ?? []), between]);
  }
  if (places.size === 0) return 'none';
  return [...places]
    .map(([thickness, between]) => `${plainMillimeters(thickness)} ${between.join(' ')}`)
    .join(', ');
}
