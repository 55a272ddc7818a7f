import type { Role } from './picture.ts';

/** Where a color comes from: the phase, black, or one of the greys of the surroundings. */
export type Ink = 'phase' | 'ink' | 'quiet' | 'faint';

/** How renderers draw a role. Line widths in millimetres, from the series of ISO 128. */
export interface RoleStyle {
  readonly stroke: Ink;
  readonly width: number;
  /** A dash pattern of its own instead of the phase's; empty: solid. */
  readonly dashes?: readonly number[];
  /** Weight of the text, for text roles. */
  readonly bold?: boolean;
}

/** Colors on white paper of everything that is no phase. */
export const inkColors = { ink: '#000000', quiet: '#5c5c5c', faint: '#b4b4b4' } as const;

export const paperColor = '#ffffff';

const cutDashes = [3, 1, 0.6, 1];

export const roleStyles: Readonly<Record<Role, RoleStyle>> = {
  bar: { stroke: 'phase', width: 0.5 },
  'bar-arrow': { stroke: 'phase', width: 0 },
  'path-stroke': { stroke: 'phase', width: 0 },
  'coil-end': { stroke: 'phase', width: 0.35 },
  joint: { stroke: 'phase', width: 0.35 },
  'special-joint': { stroke: 'phase', width: 0.6 },
  'connecting-piece': { stroke: 'phase', width: 0.6 },
  lead: { stroke: 'phase', width: 0.5 },
  'star-point': { stroke: 'ink', width: 0.5, dashes: [] },
  junction: { stroke: 'ink', width: 0 },
  'bar-label': { stroke: 'ink', width: 0 },
  'slot-number': { stroke: 'ink', width: 0 },
  'layer-letter': { stroke: 'quiet', width: 0 },
  'terminal-name': { stroke: 'ink', width: 0 },
  'cut-number': { stroke: 'quiet', width: 0 },
  'core-end': { stroke: 'quiet', width: 0.25 },
  'slot-border': { stroke: 'faint', width: 0.18 },
  'cut-edge': { stroke: 'quiet', width: 0.18, dashes: cutDashes },
  'cut-leader': { stroke: 'quiet', width: 0.13 },
  'pole-border': { stroke: 'faint', width: 0.18, dashes: cutDashes },
  'pole-block': { stroke: 'quiet', width: 0.18 },
  'pole-number': { stroke: 'quiet', width: 0 },
  title: { stroke: 'ink', width: 0 },
  subtitle: { stroke: 'quiet', width: 0 },
  'side-name': { stroke: 'ink', width: 0 },
  'row-name': { stroke: 'quiet', width: 0 },
  'legend-line': { stroke: 'phase', width: 0.5 },
  'legend-name': { stroke: 'ink', width: 0 },
  note: { stroke: 'quiet', width: 0 },
  frame: { stroke: 'quiet', width: 0.25 },
};

/** A faded primitive is drawn this transparent, a strong one this much wider. */
export const fadedOpacity = 0.3;
export const strongWidening = 1.8;
