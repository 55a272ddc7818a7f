import { amount, layersOf, oneOf, quantities } from '../../specification/reading.ts';
import { between, positive, whole } from '../../specification/rules.ts';
import type { BarField, PerLayers, SeparatorSpecification } from '../../specification/statements.ts';
import type { Statement } from '../../text/document.ts';
import { plain, type VocabularyEntry } from '../entry.ts';
import { statementsOf } from '../word.ts';

const thickness = { length: between(0, 1, 'a length from 0 mm to 1 m') };
const barSize = { length: between(1e-5, 1, 'a length from 0.01 mm to 1 m') };
const voltageLimit = { voltage: positive(1e6, 'a voltage above 0 V, up to 1000 kV') };

/** Statements of the slot blocks, in canonical order. */
export const slotStatements = statementsOf('slot', {
  /** Across the slot, m. */
  width: {
    pattern: 'length',
    read: amount,
    rules: barSize,
    meaning: 'Slot width.',
    example: 'width 4.6 mm',
  },
  /** Along the radius, from the opening to the closed end, m. */
  depth: {
    pattern: 'length',
    read: amount,
    rules: barSize,
    meaning: 'Slot depth from the opening to its closed end (or to the other opening).',
    example: 'depth 15.2 mm',
  },
  /** Across the opening, m. */
  opening: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning: 'Width of the slot opening at the gap.',
    example: 'opening 1.2 mm',
  },
  /** Along the radius, m. */
  openingHeight: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning: 'Radial height of the slot opening.',
    example: 'opening-height 0.8 mm',
  },
  /** Along the radius, m. */
  wedge: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning: 'Radial height kept by the slot wedge.',
    example: 'wedge 1 mm',
    default: '0 mm',
  },
  /** Thickness on each wall, m. */
  liner: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning: 'Thickness of the slot liner.',
    example: 'liner 0.25 mm',
    default: '0 mm',
  },
  /** Insulation between two layers, each with its thickness. */
  separators: {
    word: 'separator',
    pattern: 'layer layer length',
    read: readSeparator,
    rules: thickness,
    meaning: 'Insulation between two neighboring layers of a slot: its thickness.',
    example: 'separator b c 0.3 mm',
    repeatable: true,
  },
  /** W/(m K). */
  sideConductance: {
    pattern: 'conductance',
    read: amount,
    rules: { conductance: positive(1e6, 'a conductance above 0 W/(m K)') },
    meaning: 'Heat conductance from a bar to the core, per meter of bar; without it no heat goes there.',
    example: 'side-conductance 3.5 W/(m K)',
  },
  /** Peaks of the field of the rotor at the bars, T. */
  barField: {
    pattern: "'radial' flux-density ('tangential' flux-density)?",
    read: readBarField,
    rules: { 'flux-density': between(0, 5, 'a flux density from 0 T to 5 T') },
    meaning:
      'Peak of the rotor\u2019s alternating field at the bars, mean over a bar, from a field computation; it matters for wide openings and stators without teeth.',
    example: 'bar-field radial 60 mT tangential 25 mT',
  },
});

/** Words of the slot blocks. */
export const slotWords: readonly VocabularyEntry[] = [
  ...Object.values(slotStatements),
  ...plain('slot', 'keyword', {
    radial: ['Along the radius.', 'bar-field radial 60 mT'],
    tangential: ['Across the slot.', 'bar-field radial 60 mT tangential 25 mT'],
  }),
];

/** Statements of the bar block, in canonical order. */
export const barStatements = statementsOf('bar', {
  /** Across the slot, without coating, m. */
  width: {
    pattern: 'layer* length',
    read: amountOfLayers,
    rules: barSize,
    meaning: 'Bar width, across the slot; for all layers or for the layers named.',
    example: 'width 3.6 mm',
    repeatable: true,
  },
  /** Along the radius, without coating, m. */
  height: {
    pattern: 'layer* length',
    read: amountOfLayers,
    rules: barSize,
    meaning: 'Bar height, along the slot depth; for all layers or for the layers named.',
    example: 'height a b 3.4 mm',
    repeatable: true,
  },
  /** Parallel strands one above another in a bar. */
  strands: {
    pattern: 'layer* count',
    read: amountOfLayers,
    rules: { count: whole(1, 1000) },
    meaning: 'Radial strands of a bar, perfectly transposed; for all layers or for the layers named.',
    example: 'strands 2',
    default: '1',
    repeatable: true,
  },
  /** Radius of the corners, m. */
  corner: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning: 'Radius of the bar edges.',
    example: 'corner 0.5 mm',
    default: '0 mm',
  },
  /** Thickness on each face, m. */
  coating: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning: 'Thickness of the coating on each face.',
    example: 'coating 0.09 mm',
    default: '0 mm',
  },
  metal: {
    ...oneOf('copper', 'aluminium'),
    meaning: 'Metal of the bars.',
    example: 'metal copper',
    default: 'copper',
  },
  form: {
    ...oneOf('hairpin', 'straight'),
    meaning: 'Hairpin: crowns are formed on the far side. Straight: bars are joined on both sides.',
    example: 'form hairpin',
    default: 'hairpin',
  },
  /** Of the end winding, W/(m K). */
  endConductance: {
    pattern: 'conductance',
    read: amount,
    rules: { conductance: positive(1e6, 'a conductance above 0 W/(m K)') },
    meaning:
      'Heat conductance from a bar\u2019s end winding to its surroundings at the end temperature, per meter of bar; without it bars are held at the end temperature where they leave the stack.',
    example: 'end-conductance 0.8 W/(m K)',
  },
  /** Axial part beyond the stack, m. */
  endStraight: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning: 'Straight part from the stack to the first sharp corner.',
    example: 'end-straight 6 mm',
  },
  /** Least distance between the coatings of neighboring bar ends, m. */
  endClearance: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning: 'Clearance between neighboring bar ends.',
    example: 'end-clearance 0.6 mm',
  },
  /** Axial part at the tip, m. */
  jointStraight: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning: 'Straight part at a joint, from its sharp corner.',
    example: 'joint-straight 8 mm',
  },
  /** Largest gap between the straight parts of two joined bars, copper to copper, m. */
  jointGap: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning:
      'Largest gap, copper to copper, between the straight parts of two joined bars; bars that stand further apart are set towards each other. Without it they stand as their layers do.',
    example: 'joint-gap 0.2 mm',
  },
  jointPlane: {
    ...oneOf('free', 'level'),
    meaning:
      'Free: each joint ends as high as its bends make it. Level: all joints of a side end in one plane, the highest.',
    example: 'joint-plane level',
    default: 'free',
  },
  /** Inner radius of edgewise bends, and of those out of the layer where it is written. */
  bendRadius: {
    pattern: "length ('flat' length)?",
    read: amount,
    place: (statement) => quantities(statement)[0]!.range,
    rules: thickness,
    meaning:
      'Inner radius of the end bends: edgewise, and flatwise (out of the layer) where it is another; without it one bar width, or as much as the ends hold.',
    example: 'bend-radius 4 mm flat 3 mm',
  },
  /** Of a lead beyond the joints, m. */
  leadLength: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning: 'Straight part of leads and star ends beyond the height of a joint; without it they stop there.',
    example: 'lead-length 30 mm',
  },
  /** Of each joint, ohm. */
  jointResistance: {
    pattern: 'resistance',
    read: amount,
    rules: { resistance: between(0, 1, 'a resistance from 0 ohm to 1 ohm') },
    meaning: 'Resistance of each joint of two bars, or of a bar and a connecting piece.',
    example: 'joint-resistance 5 uohm',
    default: '0 uohm',
  },
  /** Length at the tip without coating, m. */
  bareEnd: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning: 'Length of bar end without coating.',
    example: 'bare-end 9 mm',
  },
  /** Along the radius, m. */
  pieceWidth: {
    pattern: 'length',
    read: amount,
    rules: barSize,
    meaning: 'Width of separate connecting pieces, along the radius; without it that of their bars.',
    example: 'piece-width 4 mm',
  },
  /** Along the axis, m. */
  pieceHeight: {
    pattern: 'length',
    read: amount,
    rules: barSize,
    meaning:
      'Height of separate connecting pieces, along the axis where they lie level; without it that of their bars.',
    example: 'piece-height 3 mm',
  },
  /** Of pieces and rings above the joints, and from one level to the next, m. */
  pieceClearance: {
    pattern: 'length',
    read: amount,
    rules: thickness,
    meaning:
      'Clearance of connecting pieces and rings above the joints and from one level to the next; without it the end-clearance.',
    example: 'piece-clearance 2 mm',
  },
  /** Along the radius, m. */
  ringWidth: {
    pattern: 'length',
    read: amount,
    rules: barSize,
    meaning: 'Width of star and terminal rings, along the radius.',
    example: 'ring-width 8 mm',
  },
  /** Along the axis, m. */
  ringHeight: {
    pattern: 'length',
    read: amount,
    rules: barSize,
    meaning: 'Height of star and terminal rings, along the axis.',
    example: 'ring-height 5 mm',
  },
});

/** Words of the bar block. */
export const barWords: readonly VocabularyEntry[] = [
  ...Object.values(barStatements),
  ...plain('bar', 'keyword', {
    flat: ['Inner radius of bends out of the layer.', 'bend-radius 4 mm flat 3 mm'],
  }),
  ...plain('bar', 'choice', {
    free: ['Each joint ends as high as its bends make it.', 'joint-plane free'],
    level: ['All joints of a side end in one plane.', 'joint-plane level'],
    copper: ['Annealed copper, IEC 60028.', 'metal copper'],
    aluminium: ['Aluminium, 61 % of the conductivity of copper.', 'metal aluminium'],
    hairpin: ['Two legs and a crown from one bar; joined on the connection side.', 'form hairpin'],
    straight: ['Single bars, joined on both sides.', 'form straight'],
  }),
];

/** Statements of the insulation block, in canonical order. */
export const insulationStatements = statementsOf('insulation', {
  /** What the insulation between bars of one phase holds, V. */
  turnVoltage: {
    pattern: 'voltage',
    read: amount,
    rules: voltageLimit,
    meaning: 'Voltage the insulation between bars of one phase holds.',
    example: 'turn-voltage 400 V',
  },
  /** What the insulation between phases holds, V. */
  phaseVoltage: {
    pattern: 'voltage',
    read: amount,
    rules: voltageLimit,
    meaning: 'Voltage the insulation between phases holds.',
    example: 'phase-voltage 900 V',
  },
  /** By which surges raise the voltages. */
  surgeFactor: {
    pattern: 'number',
    read: amount,
    rules: { number: between(1, 20, 'a number from 1 to 20') },
    meaning: 'Factor by which surges raise the voltages.',
    example: 'surge-factor 1.5',
    default: '1',
  },
});

function readSeparator(statement: Statement): SeparatorSpecification {
  const [lower, upper] = [...layersOf(statement)].sort((a, b) => a - b);
  return { layers: [lower!, upper!], thickness: amount(statement) };
}

function readBarField(statement: Statement): BarField {
  const [radial, tangential] = quantities(statement);
  return { radial: radial!.value, tangential: tangential?.value ?? 0 };
}

function amountOfLayers(statement: Statement): PerLayers<number> {
  const layers = layersOf(statement);
  return { layers: layers.length > 0 ? layers : null, value: amount(statement) };
}
