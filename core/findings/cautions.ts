/** The usual cautions; they stand on every report and sheet. */
export const cautions: readonly string[] = [
  'Preliminary design aid. Licensed people verify the design after the applicable standards and local codes before anything is built or energized.',
  'Insulation: verify the voltages between bars, layers, phases and to ground, surges included, by test.',
  'Rotation: verify overspeed strength and the mechanical strength of bars, joints and rotor.',
  'Magnets: rotors with magnets attract iron and each other with crushing force, and disturb pacemakers and implants; use guides and non-magnetic tools.',
  'Stored energy: terminals of a machine with magnets are live whenever the shaft turns; lock the shaft and discharge before touching.',
  'Heat: temperatures are estimates; protect the winding by measurement.',
];
