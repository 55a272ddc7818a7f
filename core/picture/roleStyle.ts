import type { Role } from './picture.ts';

/** Where a color comes from: the phase, black, one of the grays of the surroundings, or a comparison. */
export type Ink = 'phase' | 'ink' | 'quiet' | 'faint' | 'kept' | 'removed' | 'added';

/** How renderers draw a role. Line widths in millimeters, from the series of ISO 128. */
export interface RoleStyle {
  readonly stroke: Ink;
  /** 0 draws no line. */
  readonly width: number;
  /** A dash pattern of its own instead of the phase's; empty: solid. */
  readonly dashes?: readonly number[];
  /** Weight of the text, for text roles. */
  readonly bold?: boolean;
  /** How much of the ground a filled shape hides, for roles that are tints; 1 where left out. */
  readonly fillOpacity?: number;
}

/** Colors on white paper of everything that is no phase. */
export const inkColors = {
  ink: '#000000',
  quiet: '#5c5c5c',
  faint: '#b4b4b4',
  kept: '#9a9a9a',
  removed: '#d55e00',
  added: '#00437a',
} as const;

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
  'pole-block': { stroke: 'quiet', width: 0.18, fillOpacity: 0.55 },
  'pole-number': { stroke: 'quiet', width: 0 },
  title: { stroke: 'ink', width: 0 },
  subtitle: { stroke: 'quiet', width: 0 },
  'side-name': { stroke: 'ink', width: 0 },
  'row-name': { stroke: 'quiet', width: 0 },
  'legend-line': { stroke: 'phase', width: 0.5 },
  'legend-name': { stroke: 'ink', width: 0 },
  note: { stroke: 'quiet', width: 0 },
  frame: { stroke: 'quiet', width: 0.25 },
  'kept-line': { stroke: 'kept', width: 0.25, dashes: [] },
  'removed-line': { stroke: 'removed', width: 0.35, dashes: [1.4, 1] },
  'added-line': { stroke: 'added', width: 0.7, dashes: [] },
  'kept-mark': { stroke: 'kept', width: 0 },
  'removed-mark': { stroke: 'removed', width: 0 },
  'added-mark': { stroke: 'added', width: 0 },
  'kept-section': { stroke: 'kept', width: 0.18, dashes: [], fillOpacity: 0.15 },
  'removed-section': { stroke: 'removed', width: 0.5, dashes: [1.4, 1], fillOpacity: 0.4 },
  'added-section': { stroke: 'added', width: 0.5, dashes: [], fillOpacity: 0.4 },
  'removed-name': { stroke: 'removed', width: 0 },
  'added-name': { stroke: 'added', width: 0, bold: true },
  'bar-section': { stroke: 'phase', width: 0.25, fillOpacity: 0.25 },
  'sense-mark': { stroke: 'ink', width: 0.18 },
  'sense-dot': { stroke: 'ink', width: 0 },
  core: { stroke: 'quiet', width: 0, fillOpacity: 0.12 },
  'core-edge': { stroke: 'quiet', width: 0.25 },
  liner: { stroke: 'quiet', width: 0, fillOpacity: 0.45 },
  wedge: { stroke: 'quiet', width: 0.18, fillOpacity: 0.2 },
  'space-ring': { stroke: 'ink', width: 0.25, fillOpacity: 0.35 },
  'space-shade': { stroke: 'ink', width: 0, fillOpacity: 0.16 },
  'fault-mark': { stroke: 'ink', width: 0.5 },
  'doubt-mark': { stroke: 'ink', width: 0.25 },
  'fault-name': { stroke: 'ink', width: 0, bold: true },
  axis: { stroke: 'quiet', width: 0.25 },
  grid: { stroke: 'faint', width: 0.13 },
  'axis-number': { stroke: 'quiet', width: 0 },
  'axis-name': { stroke: 'ink', width: 0 },
  'chart-title': { stroke: 'ink', width: 0, bold: true },
  curve: { stroke: 'ink', width: 0.35 },
  'second-curve': { stroke: 'ink', width: 0.35, dashes: [2.6, 0.8] },
  'quiet-curve': { stroke: 'quiet', width: 0.25 },
  'curve-area': { stroke: 'quiet', width: 0, fillOpacity: 0.2 },
  column: { stroke: 'quiet', width: 0.18, fillOpacity: 0.55 },
  'open-column': { stroke: 'quiet', width: 0.18 },
  marker: { stroke: 'ink', width: 0 },
  value: { stroke: 'ink', width: 0 },
  phasor: { stroke: 'phase', width: 0.35 },
  'phasor-sum': { stroke: 'phase', width: 0.7, dashes: [] },
  'phasor-dot': { stroke: 'phase', width: 0 },
  'slot-phasor': { stroke: 'quiet', width: 0.25 },
  sector: { stroke: 'phase', width: 0.25, fillOpacity: 0.25 },
  'sector-name': { stroke: 'ink', width: 0 },
  'reference-circle': { stroke: 'quiet', width: 0.25, dashes: [2.6, 0.8] },
  'sheet-frame': { stroke: 'ink', width: 0.7 },
  'sheet-zone': { stroke: 'ink', width: 0.35 },
  'zone-name': { stroke: 'ink', width: 0 },
  'block-line': { stroke: 'ink', width: 0.35 },
  'field-name': { stroke: 'quiet', width: 0 },
  'field-value': { stroke: 'ink', width: 0 },
  heading: { stroke: 'ink', width: 0 },
  'sheet-text': { stroke: 'ink', width: 0 },
  'table-line': { stroke: 'ink', width: 0.25 },
  'table-rule': { stroke: 'faint', width: 0.13 },
  'table-head': { stroke: 'quiet', width: 0 },
  'table-text': { stroke: 'ink', width: 0 },
  'sketch-bar': { stroke: 'ink', width: 0.7 },
  'sketch-line': { stroke: 'quiet', width: 0.25 },
  'bared-end': { stroke: 'ink', width: 1.4 },
  'dimension-line': { stroke: 'ink', width: 0.18 },
  'dimension-arrow': { stroke: 'ink', width: 0 },
  'dimension-text': { stroke: 'ink', width: 0 },
  'band-line': { stroke: 'ink', width: 0.7 },
  'band-hatch': { stroke: 'ink', width: 0 },
  'band-text': { stroke: 'ink', width: 0, bold: true },
};

/** A faded primitive is drawn this transparent, a strong one this much wider. */
export const fadedOpacity = 0.3;
export const strongWidening = 1.8;
