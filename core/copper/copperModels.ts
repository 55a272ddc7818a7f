import type { ModelLine } from '../figures/figure.ts';

const iec60028 = 'IEC 60028 (annealed copper: 58 m/(ohm mm2) at 20 degC, 0.00393 1/K, 8.89 g/cm3)';
const field = 'Field/Emde one-dimensional slot theory; Vogt, Muller, Ponick; Pyrhonen ch. 5 (from memory)';
const permeance = 'field energy of uniform currents; Pyrhonen ch. 4, Richter (from memory)';
const fin = 'fin theory; copper 394, aluminium 230 W/(m K) (from memory)';
const beam =
  'theory of beams and shallow arches; E of copper 117 GPa, of aluminium 69 GPa, Poisson 0.34 (from memory)';

function model(quantity: string, unit: string, line: string, source: string): ModelLine {
  return { quantity: `copper.${quantity}`, unit, line, source };
}

/** How each copper figure is computed, one line each; the unit is the SI unit of its value. */
export const copperModels: readonly ModelLine[] = [
  model(
    'section.barArea',
    'm2',
    'width x height - (4 - pi) corner^2, one a layer',
    'rectangle with rounded edges',
  ),
  model('section.slotFill', '1', 'copper area over slot width x slot depth, fullest slot', 'definition'),
  model(
    'section.spareRoom',
    'm',
    'slot width less two liners, depth less wedges and liner, less the coated bars',
    'geometry',
  ),
  model(
    'length.bars',
    'm',
    'mean bar: active length, and at each end end-straight, half the true span bent at sin(beta) = (coated width + clearance)/slot pitch, and joint-straight except at a crown',
    'geometry of parallel bends',
  ),
  model('length.total', 'm', 'all bars and connecting pieces', 'geometry of parallel bends'),
  model(
    'length.overhangConnection',
    'm',
    'straights and half the true span times tan(beta), tallest bend or connecting piece',
    'geometry of parallel bends',
  ),
  model(
    'length.overhangFar',
    'm',
    'straights (a crown has no joint-straight) and half the true span times tan(beta), tallest bend or connecting piece',
    'geometry of parallel bends',
  ),
  model('resistance.path20', 'ohm', 'rho x sum of length/area at 20 degC, mean path', iec60028),
  model('resistance.phase20', 'ohm', 'paths in parallel at 20 degC, mean phase', iec60028),
  model('resistance.phase', 'ohm', 'paths in parallel at the winding temperature, mean phase', iec60028),
  model('resistance.line', 'ohm', 'between adjacent line terminals at the winding temperature', iec60028),
  model('mass', 'kg', 'density x metal of bars and connecting pieces', iec60028),
  model('currentDensity', 'A/m2', 'path current over the smallest bar area, rms', 'definition'),
  model('loss.dc', 'W', 'sum over the phases of I^2 R at the winding temperature', 'Joule'),
  model('loss.ac', 'W', 'sum over the bars of the slot part of (k - 1) I^2 R', field),
  model('loss.total', 'W', 'DC loss and what eddies add', field),
  model(
    'acRatio.layers',
    '1',
    'k = phi(xi) + psi(xi) (|Iu|^2 + Re(Iu conj I))/|I|^2 from the actual phasors, mean over the slots',
    field,
  ),
  model('acRatio.slot', '1', 'mean over all bars, slot part', field),
  model('acRatio.bar', '1', 'whole bar, ends without eddies', field),
  model('acRatio.worst', '1', 'bar with the largest ratio, slot part', field),
  model('acRatio.bestHeights', 'm', 'bar height with the least k/h for the layers', field),
  model('leakage.slotPermeance', '1', 'lambda with L = 4 m mu0 l N^2 lambda/Q', permeance),
  model('leakage.slotInductance', 'H', 'slot leakage of one phase, no eddies', permeance),
  model(
    'leakage.pathImpedances',
    'ohm and H',
    'resistance and slot leakage of each path from the places of its bars; no end winding, no gap field',
    permeance,
  ),
  model(
    'heat.rise',
    'K',
    "L the bar's length in the stack: p' L^2/(8 k A), or (p'/G)(1 - 1/cosh(sqrt(G/(k A)) L/2)) with side cooling",
    fin,
  ),
  model('heat.hotSpot', 'degC', 'end temperature and mid-bar rise, iterated with the resistance', fin),
  model('heat.endShare', '1', 'tanh(u)/u, u = sqrt(G/(k A)) L/2; 1 without side cooling', fin),
  model(
    'cage.stiffness',
    'Nm/rad',
    'sum of E A (r^2 sin(lean))^2/Lc^3/(1 + (4/45) A d^2/I) along the bars, Lc their chord, d their bow between radial supports, and of 12 E I r^2/l^3 + G J/l of each',
    beam,
  ),
  model('cage.straight', 'Nm/rad', 'sum of 12 E I r^2/l^3 + G J/l, straight clamped bars', beam),
  model('cage.stress', 'Pa', 'axial force of a bar at T/K over its area, largest layer', beam),
  model(
    'cage.bending',
    'Pa',
    'at T/K, bar clamped in the rings: 6 E I r/l^2 along the circumference, 2/3 of axial force times bow along the radius, largest layer',
    beam,
  ),
];
