/** Two paths of a phase, one from the first slots of each belt, one from the last: unequal voltages. */
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
connect {
  star
  path U 1 from U1 1a +9b +9a +9b +10a +9b +9a +9b | +8b -9a -9b -9a to N
  path U 2 from U1 3a +9b +9a +9b | +8b -9a -9b -9a -8b -9a -9b -9a to N
  repeat U as V shift 6
  repeat U as W shift 12
}
require { circulating-current <= 1 % }
`;
