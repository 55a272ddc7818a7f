/** How a phase's lines look: color on white paper and dash pattern in millimeters (empty: solid). */
export interface PhaseStyle {
  readonly color: string;
  /** Dash and gap by turns. */
  readonly dashes: readonly number[];
  /** The pattern in words, for legends that are read aloud. */
  readonly words: string;
}

/**
 * Colors of the set by Okabe and Ito (Color Universal Design, jfly.uni-koeln.de/color, 2008), which
 * readers with any common color blindness tell apart; its yellow is left out: too light on paper.
 */
const colors = ['#0072b2', '#d55e00', '#009e73', '#cc79a7', '#000000', '#e69f00', '#56b4e9'] as const;

/** Drawn with flat ends; a period is short enough to show on one leg of a crown. */
const patterns: readonly { readonly dashes: readonly number[]; readonly words: string }[] = [
  { dashes: [], words: 'solid' },
  { dashes: [2.6, 0.8], words: 'dashed' },
  { dashes: [0.7, 0.6], words: 'dotted' },
  { dashes: [2.4, 0.6, 0.5, 0.6], words: 'dash-dot' },
  { dashes: [1.3, 0.7], words: 'short-dashed' },
  { dashes: [2.2, 0.5, 0.5, 0.5, 0.5, 0.5], words: 'dash-dot-dot' },
  { dashes: [4.6, 0.8], words: 'long-dashed' },
  { dashes: [1.5, 0.5, 1.5, 0.5, 0.5, 0.5], words: 'two dashes and a dot' },
];

/** Number of phases that get styles of their own: no two share both color and pattern. */
export const distinctPhaseStyles = colors.length * patterns.length;

const styles: readonly PhaseStyle[] = Array.from({ length: distinctPhaseStyles }, (_, phase) => ({
  color: colors[phase % colors.length]!,
  ...patterns[phase % patterns.length]!,
}));

/** The style of a phase by its index from 0. Throws RangeError for an index that is none. */
export function phaseStyle(phase: number): PhaseStyle {
  const style = styles[phase % distinctPhaseStyles];
  if (style === undefined) throw new RangeError(`Phase index ${phase} is not a whole number from 0`);
  return style;
}
