/** What a primitive stands for; renderers choose line widths, layers and colors by it (`roleStyle.ts`). */
export type Role =
  // The winding itself.
  | 'bar'
  | 'bar-arrow'
  | 'path-stroke'
  | 'coil-end'
  | 'joint'
  | 'special-joint'
  | 'connecting-piece'
  | 'lead'
  | 'star-point'
  | 'junction'
  // Words at it.
  | 'bar-label'
  | 'slot-number'
  | 'layer-letter'
  | 'terminal-name'
  | 'cut-number'
  // Its surroundings.
  | 'core-end'
  | 'slot-border'
  | 'cut-edge'
  | 'cut-leader'
  | 'pole-border'
  | 'pole-block'
  | 'pole-number'
  // Words round it.
  | 'title'
  | 'subtitle'
  | 'side-name'
  | 'row-name'
  | 'legend-line'
  | 'legend-name'
  | 'note'
  | 'frame'
  // Sections of slots.
  | 'bar-section'
  | 'sense-mark'
  | 'sense-dot'
  | 'core'
  | 'core-edge'
  | 'liner'
  | 'wedge'
  // Bars in space.
  | 'space-ring'
  | 'space-shade'
  | 'fault-mark'
  | 'doubt-mark'
  | 'fault-name'
  // Two windings laid over each other: lines, filled marks, words.
  | 'kept-line'
  | 'removed-line'
  | 'added-line'
  | 'kept-mark'
  | 'removed-mark'
  | 'added-mark'
  | 'kept-section'
  | 'removed-section'
  | 'added-section'
  | 'removed-name'
  | 'added-name'
  // Diagrams.
  | 'axis'
  | 'grid'
  | 'axis-number'
  | 'axis-name'
  | 'chart-title'
  | 'curve'
  | 'second-curve'
  | 'quiet-curve'
  | 'curve-area'
  | 'column'
  | 'open-column'
  | 'marker'
  | 'value'
  | 'phasor'
  | 'phasor-sum'
  | 'phasor-dot'
  | 'slot-phasor'
  | 'sector'
  | 'sector-name'
  | 'reference-circle'
  // Sheets: frame and title block, tables, sketches with dimensions, the band of what is not released.
  | 'sheet-frame'
  | 'sheet-zone'
  | 'zone-name'
  | 'block-line'
  | 'field-name'
  | 'field-value'
  | 'heading'
  | 'sheet-text'
  | 'table-line'
  | 'table-rule'
  | 'table-head'
  | 'table-text'
  | 'sketch-bar'
  | 'sketch-line'
  | 'bared-end'
  | 'dimension-line'
  | 'dimension-arrow'
  | 'dimension-text'
  | 'band-line'
  | 'band-hatch'
  | 'band-text';

/** The one thing of the winding a primitive stands for. A label stands for the bar it names. */
export type Subject =
  | { readonly bar: string }
  | { readonly joint: number }
  | { readonly terminal: string; readonly joint?: number }
  | { readonly star: string; readonly joint?: number }
  | { readonly coil: string }
  | { readonly label: string }
  | { readonly slot: number }
  | { readonly pole: number };

/** Whether a primitive stands out from, or steps back behind, the others. */
export type Emphasis = 'strong' | 'faded';

interface Common {
  /** Unique in its picture and made from what it stands for, so that it survives edits elsewhere. */
  readonly id: string;
  readonly role: Role;
  readonly subject?: Subject | undefined;
  /** Index of the phase, from 0. */
  readonly phase?: number | undefined;
  /** Number of the parallel path within the phase, from 1. */
  readonly path?: number | undefined;
  /**
   * The statement of the winding text it stands for, by a name made from content: `path U 1`. The subject says
   * which part of it. Never an offset: what stands above in the text must not change a primitive.
   */
  readonly source?: string | undefined;
  readonly emphasis?: Emphasis | undefined;
  /**
   * The smallest scale at which it is shown, in pixels per millimeter; left out for what always shows. It is
   * detail for the live page alone, which hides it below that scale without asking for another picture: what is
   * printed or written to a file shows all. A view sets it where it makes the primitive (`Extras.shownFrom`).
   */
  readonly shownFrom?: number | undefined;
}

/** A straight line. */
export interface Line extends Common {
  readonly kind: 'line';
  /** Its two ends, mm. */
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

/** An open run of straight lines through x, y, x, y ..., mm. */
export interface Polyline extends Common {
  readonly kind: 'polyline';
  readonly points: readonly number[];
}

/** One stretch of a path through x, y, x, y ..., mm. */
export type PathPart = readonly number[];

/** Several stretches that are one thing: open lines, or filled outlines. */
export interface PathShape extends Common {
  readonly kind: 'path';
  readonly parts: readonly PathPart[];
  readonly filled: boolean;
}

/** An arc of a circle; angles in degrees from the x axis towards the y axis (clockwise on paper). 0..360 is a circle. */
export interface Arc extends Common {
  readonly kind: 'arc';
  /** Its center, mm. */
  readonly x: number;
  readonly y: number;
  /** In mm. */
  readonly radius: number;
  /** Degrees from the x axis towards y, where it begins. */
  readonly from: number;
  /** Where it ends. */
  readonly to: number;
}

/** A filled outline through x, y, x, y ..., mm. */
export interface Polygon extends Common {
  readonly kind: 'polygon';
  readonly points: readonly number[];
}

/** One line of text. `y` is its base line, `size` the font size, `width` its exact width; `angle` turns it clockwise. */
export interface Text extends Common {
  readonly kind: 'text';
  /** Where its base line starts, ends or has its middle, by its anchor, mm. */
  readonly x: number;
  readonly y: number;
  readonly text: string;
  /** Font size, mm. */
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Of the whole line, mm. */
  readonly width: number;
  /** Degrees by which it is turned, from the x axis towards y. */
  readonly angle?: number | undefined;
}

/** Primitives that belong together, drawn in their order. */
export interface Group extends Common {
  readonly kind: 'group';
  readonly items: readonly Primitive[];
}

/** What pictures are made of; every length in millimeters. */
export type Primitive = Line | Polyline | PathShape | Arc | Polygon | Text | Group;

/** A flat drawing in millimeters: x to the right, y downwards, origin at the top left. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly description: string;
  readonly items: readonly Primitive[];
  /** What a reader must know to read it, in sentences, where these do not stand in the picture itself. */
  readonly notes?: readonly string[] | undefined;
  /** Millimeters of paper for a millimeter of what is drawn, where it is drawn to scale. */
  readonly scale?: number | undefined;
}
