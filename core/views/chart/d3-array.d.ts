// What is used of d3-array, which comes without types.
declare module 'd3-array' {
  /** Round numbers from `start` to `stop`, about so many. */
  export function ticks(start: number, stop: number, count: number): number[];
  /** The range widened to round numbers, as `ticks` would choose them. */
  export function nice(start: number, stop: number, count: number): [number, number];
}
