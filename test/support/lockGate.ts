/** A lock gate's winch of 12 slots and two layers; `connect` says how its bars are joined. */
export const lockGate = (connect: string) => `winding "Lock gate"
machine { slots 12  poles 4  phases 3 }
layout { layers 2  span 3 }
connect {
  star # at the far pier
${connect}
}
`;

/** The same with written paths: two of phase U, which the other phases copy. */
export const writtenGate = lockGate(`  path U 1 from U1 1a +3b +3a +3b to N
  path U 2 from U1 7b -3a -3b -3a to N # by hand
  repeat U as V shift 2
  repeat U as W shift 4`);
