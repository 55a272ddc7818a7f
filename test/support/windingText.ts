/** A winding text from the contents of its blocks; connect and others only where they are given. */
export function windingText(parts: {
  readonly machine?: string;
  readonly layout?: string;
  readonly rest?: string;
}): string {
  const machine = parts.machine ?? 'slots 12 poles 2 phases 3';
  const layout = parts.layout ?? 'layers 2 span 5';
  return `winding "Sluice gate drive"\nmachine { ${machine} }\nlayout { ${layout} }\n${parts.rest ?? ''}\n`;
}

/** A winding in canonical form that nothing is found in. */
export const cleanWinding = `# Full pitch, two layers: the plain case.

winding "Sluice gate drive"

machine {
  slots  12
  poles  2
  phases 3
}

layout {
  layers 2
  span   6
}

require {
  winding-factor harmonic 1 >= 0.96  # q = 2
  winding-factor harmonic 5 <= 0.26
}
`;
