/** What work between keystrokes needs from its surroundings: a clock in milliseconds, and a way to go on later. */
export interface Surroundings {
  readonly now: () => number;
  readonly later: (work: () => void) => void;
}
