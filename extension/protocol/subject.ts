/** One thing of a picture that a reader can point at. */
export type Subject =
  | { readonly bar: string }
  | { readonly joint: number }
  | { readonly terminal: string; readonly joint: number | null }
  | { readonly star: string; readonly joint: number | null }
  | { readonly coil: string }
  | { readonly slot: number };

/** The subject if the value is one, else null; further parts are left out. */
export function readSubject(value: unknown): Subject | null {
  if (typeof value !== 'object' || value === null) return null;
  const { bar, joint, terminal, star, coil, slot } = value as Readonly<Record<string, unknown>>;
  const number = Number.isInteger(joint) ? Number(joint) : null;
  if (typeof bar === 'string') return { bar };
  if (typeof terminal === 'string') return { terminal, joint: number };
  if (typeof star === 'string') return { star, joint: number };
  if (typeof coil === 'string') return { coil };
  if (Number.isInteger(slot)) return { slot: Number(slot) };
  return number === null ? null : { joint: number };
}

/**
 * What a reader does when drawing by hand: begins a path at a bar, all paths of its phase, or to change a joint; frees
 * the bars of the other paths; takes a bar, marks another one, goes a step back; ends a path or writes; leaves.
 */
export const drawActs = ['path', 'phase', 'joint', 'all', 'take', 'mark', 'back', 'end', 'leave'] as const;
export type DrawAct = (typeof drawActs)[number];
