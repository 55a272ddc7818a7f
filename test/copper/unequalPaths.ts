import type { HandSizes } from './pathsByHand.ts';

/**
 * Two paths of a phase of 36 slots, 4 poles and two layers, one from the first slots of each belt, one from the last:
 * unequal voltages.
 */
export const unequalConnection = `connect {
  star
  path U 1 from U1 1a +9b +9a +9b +10a +9b +9a +9b | +8b -9a -9b -9a to N
  path U 2 from U1 3a +9b +9a +9b | +8b -9a -9b -9a -8b -9a -9b -9a to N
  repeat U as V shift 6
  repeat U as W shift 12
}
`;

/** A drive that is joined so. */
export const unequalPaths = `winding "Sluice lift, unequal paths"
machine { slots 36  poles 4  phases 3  gap inner  bore 180 mm  stack 120 mm
  air-gap 1 mm
  magnet-height 5 mm
  speed 15000 rpm
  flux 0.9 mWb
  current 160 A  winding-temperature 100 degC }
slot { width 7 mm  depth 12 mm  opening 2 mm  opening-height 1 mm  liner 0.3 mm }
bar { form straight  width 6 mm  height 4.5 mm  corner 0.8 mm  coating 0.1 mm
  end-straight 8 mm  end-clearance 1 mm  joint-straight 10 mm }
layout { layers 2  span 9 }
${unequalConnection}require { circulating-current <= 1 % }
`;

/** Its sizes, at a flux in Wb and a speed. */
export const unequalSizes = (flux: number, rpm: number): HandSizes => ({
  slots: 36,
  layers: 2,
  bore: 0.18,
  stack: 0.12,
  gap: 1e-3,
  magnet: 5e-3,
  slot: { width: 7e-3, depth: 12e-3, liner: 0.3e-3 },
  opening: { width: 2e-3, height: 1e-3 },
  bar: { width: 6e-3, height: 4.5e-3, corner: 0.8e-3, coating: 0.1e-3 },
  // Two pole pairs.
  frequency: rpm / 30,
  current: 160,
  flux,
});
