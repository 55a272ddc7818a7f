import { between, positive, whole } from '../../specification/rules.ts';
import { plain, statement, type VocabularyEntry } from '../entry.ts';

const thickness = { length: between(0, 1, 'a length from 0 mm to 1 m') };
const barSize = { length: between(1e-5, 1, 'a length from 0.01 mm to 1 m') };
const voltageLimit = { voltage: positive(1e6, 'a voltage above 0 V, up to 1000 kV') };

/** Words of the slot blocks. */
export const slotWords: readonly VocabularyEntry[] = [
  statement('slot', 'width', 'length', 'Slot width.', 'width 4.6 mm', { rules: barSize }),
  statement(
    'slot',
    'depth',
    'length',
    'Slot depth from the opening to its closed end (or to the other opening).',
    'depth 15.2 mm',
    { rules: barSize },
  ),
  statement('slot', 'opening', 'length', 'Width of the slot opening at the gap.', 'opening 1.2 mm', {
    rules: thickness,
  }),
  statement(
    'slot',
    'opening-height',
    'length',
    'Radial height of the slot opening.',
    'opening-height 0.8 mm',
    { rules: thickness },
  ),
  statement('slot', 'wedge', 'length', 'Radial height kept by the slot wedge.', 'wedge 1 mm', {
    rules: thickness,
    default: '0 mm',
  }),
  statement('slot', 'liner', 'length', 'Thickness of the slot liner.', 'liner 0.25 mm', {
    rules: thickness,
    default: '0 mm',
  }),
  statement(
    'slot',
    'separator',
    'layer layer length',
    'Insulation between two neighboring layers of a slot: its thickness.',
    'separator b c 0.3 mm',
    { rules: thickness, repeatable: true },
  ),
  statement(
    'slot',
    'side-conductance',
    'conductance',
    'Heat conductance from a bar to the core, per meter of bar.',
    'side-conductance 3.5 W/(m K)',
    { rules: { conductance: positive(1e6, 'a conductance above 0 W/(m K)') } },
  ),
  statement(
    'slot',
    'bar-field',
    "'radial' flux-density ('tangential' flux-density)?",
    'Peak of the rotor\u2019s alternating field at the bars, mean over a bar, from a field computation; it matters for wide openings and stators without teeth.',
    'bar-field radial 60 mT tangential 25 mT',
    { rules: { 'flux-density': between(0, 5, 'a flux density from 0 T to 5 T') } },
  ),
  plain('slot', 'keyword', 'radial', 'Along the radius.', 'bar-field radial 60 mT'),
  plain('slot', 'keyword', 'tangential', 'Across the slot.', 'bar-field radial 60 mT tangential 25 mT'),
];

/** Words of the bar block. */
export const barWords: readonly VocabularyEntry[] = [
  statement(
    'bar',
    'width',
    'layer* length',
    'Bar width, across the slot; for all layers or for the layers named.',
    'width 3.6 mm',
    { rules: barSize, repeatable: true },
  ),
  statement(
    'bar',
    'height',
    'layer* length',
    'Bar height, along the slot depth; for all layers or for the layers named.',
    'height a b 3.4 mm',
    { rules: barSize, repeatable: true },
  ),
  statement(
    'bar',
    'strands',
    'layer* count',
    'Radial strands of a bar, perfectly transposed; for all layers or for the layers named.',
    'strands 2',
    { rules: { count: whole(1, 1000) }, default: '1', repeatable: true },
  ),
  statement('bar', 'corner', 'length', 'Radius of the bar edges.', 'corner 0.5 mm', {
    rules: thickness,
    default: '0 mm',
  }),
  statement('bar', 'coating', 'length', 'Thickness of the coating on each face.', 'coating 0.09 mm', {
    rules: thickness,
    default: '0 mm',
  }),
  statement('bar', 'metal', "'copper' | 'aluminium'", 'Metal of the bars.', 'metal copper', {
    default: 'copper',
  }),
  statement(
    'bar',
    'form',
    "'hairpin' | 'straight'",
    'Hairpin: crowns are formed on the far side. Straight: bars are joined on both sides.',
    'form hairpin',
    { default: 'hairpin' },
  ),
  statement(
    'bar',
    'end-conductance',
    'conductance',
    'Heat conductance from a bar\u2019s end winding to its surroundings at the end temperature, per meter of bar; without it bars are held at the end temperature where they leave the stack.',
    'end-conductance 0.8 W/(m K)',
    { rules: { conductance: positive(1e6, 'a conductance above 0 W/(m K)') } },
  ),
  statement(
    'bar',
    'end-straight',
    'length',
    'Straight part of a bar beyond the stack before it bends.',
    'end-straight 6 mm',
    { rules: thickness },
  ),
  statement(
    'bar',
    'end-clearance',
    'length',
    'Clearance between neighboring bar ends.',
    'end-clearance 0.6 mm',
    { rules: thickness },
  ),
  statement('bar', 'joint-straight', 'length', 'Straight part at a joint.', 'joint-straight 8 mm', {
    rules: thickness,
  }),
  statement(
    'bar',
    'joint-gap',
    'length',
    'Largest gap, copper to copper, between the straight parts of two joined bars; bars that stand further apart are set towards each other.',
    'joint-gap 0.2 mm',
    { rules: thickness },
  ),
  statement(
    'bar',
    'joint-plane',
    "'free' | 'level'",
    'Free: each joint ends as high as its bends make it. Level: all joints of a side end in one plane, the highest.',
    'joint-plane level',
    { default: 'free' },
  ),
  statement(
    'bar',
    'bend-radius',
    "length ('flat' length)?",
    'Inner radius of the end bends: edgewise, and flatwise (out of the layer) where it is another.',
    'bend-radius 4 mm flat 3 mm',
    { rules: thickness },
  ),
  statement(
    'bar',
    'lead-length',
    'length',
    'Straight part of leads and star ends beyond the height of a joint.',
    'lead-length 30 mm',
    { rules: thickness },
  ),
  statement(
    'bar',
    'joint-resistance',
    'resistance',
    'Resistance of each joint of two bars, or of a bar and a connecting piece.',
    'joint-resistance 5 uohm',
    { rules: { resistance: between(0, 1, 'a resistance from 0 ohm to 1 ohm') }, default: '0 uohm' },
  ),
  statement('bar', 'bare-end', 'length', 'Length of bar end without coating.', 'bare-end 9 mm', {
    rules: thickness,
  }),
  statement(
    'bar',
    'piece-width',
    'length',
    'Width of separate connecting pieces, along the radius; without it that of their bars.',
    'piece-width 4 mm',
    { rules: barSize },
  ),
  statement(
    'bar',
    'piece-height',
    'length',
    'Height of separate connecting pieces, along the axis where they lie level; without it that of their bars.',
    'piece-height 3 mm',
    { rules: barSize },
  ),
  statement(
    'bar',
    'piece-clearance',
    'length',
    'Clearance of connecting pieces and rings above the joints and from one level to the next; without it the end-clearance.',
    'piece-clearance 2 mm',
    { rules: thickness },
  ),
  statement(
    'bar',
    'ring-width',
    'length',
    'Width of star and terminal rings, along the radius.',
    'ring-width 8 mm',
    {
      rules: barSize,
    },
  ),
  statement(
    'bar',
    'ring-height',
    'length',
    'Height of star and terminal rings, along the axis.',
    'ring-height 5 mm',
    {
      rules: barSize,
    },
  ),
  plain('bar', 'keyword', 'flat', 'Inner radius of bends out of the layer.', 'bend-radius 4 mm flat 3 mm'),
  plain('bar', 'choice', 'free', 'Each joint ends as high as its bends make it.', 'joint-plane free'),
  plain('bar', 'choice', 'level', 'All joints of a side end in one plane.', 'joint-plane level'),
  plain('bar', 'choice', 'copper', 'Annealed copper, IEC 60028.', 'metal copper'),
  plain('bar', 'choice', 'aluminium', 'Aluminium, 61 % of the conductivity of copper.', 'metal aluminium'),
  plain(
    'bar',
    'choice',
    'hairpin',
    'Two legs and a crown from one bar; joined on the connection side.',
    'form hairpin',
  ),
  plain('bar', 'choice', 'straight', 'Single bars, joined on both sides.', 'form straight'),
];

/** Words of the insulation block. */
export const insulationWords: readonly VocabularyEntry[] = [
  statement(
    'insulation',
    'turn-voltage',
    'voltage',
    'Voltage the insulation between bars of one phase holds.',
    'turn-voltage 400 V',
    { rules: voltageLimit },
  ),
  statement(
    'insulation',
    'phase-voltage',
    'voltage',
    'Voltage the insulation between phases holds.',
    'phase-voltage 900 V',
    { rules: voltageLimit },
  ),
  statement(
    'insulation',
    'surge-factor',
    'number',
    'Factor by which surges raise the voltages.',
    'surge-factor 1.5',
    { rules: { number: between(1, 20, 'a number from 1 to 20') } },
  ),
];
