/** A rectangular section with rounded edges, as it runs along a center line. Meters. */
export interface Section {
  /** Copper, across and along the slot depth. */
  readonly width: number;
  /** Along the slot depth. */
  readonly height: number;
  /** Radius of the edges. */
  readonly corner: number;
  /** Coating on each face. */
  readonly coating: number;
}

/** Width with the coating on both faces, m. */
export function coatedWidth({ width, coating }: Section): number {
  return width + 2 * coating;
}

/** Height with the coating on both faces, m. */
export function coatedHeight({ height, coating }: Section): number {
  return height + 2 * coating;
}

/** The same of other copper, whose edges are no rounder than that allows. */
export function resized(section: Section, width: number, height: number): Section {
  return { ...section, width, height, corner: Math.min(section.corner, width / 2, height / 2) };
}
