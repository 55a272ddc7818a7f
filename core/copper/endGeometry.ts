/** How the bars of one layer bend beyond the stack. Meters and radians. */
export interface EndBends {
  /** Slot pitch at the layer's mean radius. */
  readonly pitch: number;
  /** Coated width plus clearance over the pitch: sine of the angle from the circumferential direction. */
  readonly sine: number;
  /** Length of bar for each meter of circumference. */
  readonly stretch: number;
  /** Height for each meter of circumference. */
  readonly rise: number;
  /** Length saved by rounding both corners of one bar end. */
  readonly saved: number;
  /** Length of slope that the two rounded corners take up; 0 for sharp ones. */
  readonly corners: number;
}

/** What a layer's bends are made from, in meters. */
export interface BendInputs {
  readonly radius: number;
  readonly slots: number;
  readonly coatedWidth: number;
  readonly clearance: number;
  /** Inner radius of the bends; null for sharp corners. */
  readonly bendRadius: number | null;
}

/**
 * The bends of neighboring bars lie parallel and just pass each other: sin(beta) = (coated width +
 * clearance)/pitch. With a sine of 1 or more they cannot pass; then null.
 */
export function endBends(inputs: BendInputs): EndBends | null {
  const pitch = (2 * Math.PI * inputs.radius) / inputs.slots;
  const sine = (inputs.coatedWidth + inputs.clearance) / pitch;
  if (!(sine < 1)) return null;
  const cosine = Math.sqrt(1 - sine * sine);
  return { pitch, sine, stretch: 1 / cosine, rise: sine / cosine, ...roundedCorners(inputs, sine) };
}

/** Two corners, each turning the bar from the axial direction to its slope, run as arcs. */
function roundedCorners(inputs: BendInputs, sine: number): Pick<EndBends, 'saved' | 'corners'> {
  if (inputs.bendRadius === null) return { saved: 0, corners: 0 };
  const turn = Math.PI / 2 - Math.asin(sine);
  const centerline = inputs.bendRadius + inputs.coatedWidth / 2;
  const tangent = centerline * Math.tan(turn / 2);
  return { saved: 2 * (2 * tangent - centerline * turn), corners: 2 * tangent };
}

/** Bar length beyond the stack at a joint of true span `span` slots, m. */
export function bentEndLength(bends: EndBends, span: number, straights: number): number {
  return straights + slopeLength(bends, span) - bends.saved;
}

/** Length of the sloping part between its sharp corners, m. */
export function slopeLength(bends: EndBends, span: number): number {
  return (Math.abs(span) / 2) * bends.pitch * bends.stretch;
}

/** Height of the sloping part above the first straight, m. */
export function slopeHeight(bends: EndBends, span: number): number {
  return (Math.abs(span) / 2) * bends.pitch * bends.rise;
}

/** Length of an active part that leans by `lean` radians over a stack of `stack` m at a radius in m. */
export function activeLength(stack: number, lean: number, radius: number): number {
  return Math.hypot(stack, lean * radius);
}
