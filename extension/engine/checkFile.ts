import type { Steps } from '../../core/figures/steps.ts';
import { type CheckedText, checkSteps } from '../../core/findings/checkedText.ts';
import { createBackgroundConnector } from './backgroundConnector.ts';
import { createBackgroundMeasurer } from './backgroundMeasurer.ts';
import type { Surroundings } from './surroundings.ts';

/**
 * Makes what checks one text that nobody waits for, in steps; `found` is called when its paths have been found or its
 * bar ends measured, so that it is to be checked again.
 */
export type CreateCheckFile = (
  surroundings: Surroundings,
  found: () => void,
) => (text: string) => Steps<CheckedText>;

export const createCheckFile: CreateCheckFile = (surroundings, found) => {
  const { connect } = createBackgroundConnector(surroundings, found);
  const measurer = createBackgroundMeasurer(surroundings, found);
  return (text) => checkSteps(text, connect, measurer);
};
