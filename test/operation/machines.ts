/** A small drive with every statement that bears on its operation, one a line; quick to study. */
export const smallDrive = `winding "Slipway winch"
machine {
  slots 24
  poles 4
  phases 3
  gap inner
  bore 90 mm
  stack 80 mm
  air-gap 0.8 mm
  magnet-height 4 mm
  magnet-permeability 1.06
  carter on
  speed 4500 rpm
  flux 3.4 mWb
  current 120 A
  current-angle 0 edeg
  voltage 36 V
  winding-temperature 120 degC
  end-temperature 90 degC
}
slot {
  width 4.6 mm
  depth 8.2 mm
  opening 1.2 mm
  opening-height 0.8 mm
  wedge 1 mm
  liner 0.25 mm
  side-conductance 3.5 W/(m K)
}
bar {
  width 3.6 mm
  height 3 mm
  strands 1
  corner 0.5 mm
  coating 0.09 mm
  metal copper
  form hairpin
  end-straight 6 mm
  end-clearance 0.6 mm
  joint-straight 8 mm
  bend-radius 4 mm
}
layout {
  layers 2
  span 6
  skew all 0 deg
}
connect {
  star
  route paths 1
}
`;
