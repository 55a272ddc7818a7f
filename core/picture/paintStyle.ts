import { phaseStyle } from './phaseStyle.ts';
import type { Primitive } from './picture.ts';
import { fadedOpacity, inkColors, roleStyles, strongWidening } from './roleStyle.ts';

/** How a primitive is painted on white paper. */
export interface PaintStyle {
  /** `#rrggbb`, of lines, areas and text alike. */
  readonly color: string;
  /** Line width in millimeters; 0: areas and text without an outline. */
  readonly width: number;
  /** Dash pattern of its lines in millimeters; empty: solid. */
  readonly dashes: readonly number[];
  /** Of all of it, 0..1. */
  readonly opacity: number;
  /** Of its area alone, 0..1: below 1 for tints. */
  readonly fillOpacity: number;
  readonly bold: boolean;
}

/** The paint of a primitive by its role, phase and emphasis: the same in every file format. */
export function paintStyle(primitive: Primitive): PaintStyle {
  const { role, phase, emphasis } = primitive;
  const style = roleStyles[role];
  const ofPhase = phase === undefined ? null : phaseStyle(phase);
  return {
    color: style.stroke === 'phase' ? (ofPhase?.color ?? inkColors.ink) : inkColors[style.stroke],
    width: style.width * (emphasis === 'strong' ? strongWidening : 1),
    dashes: style.dashes ?? ofPhase?.dashes ?? [],
    opacity: emphasis === 'faded' ? fadedOpacity : 1,
    fillOpacity: style.fillOpacity ?? 1,
    bold: style.bold ?? false,
  };
}
