import {
  clearanceWork as clearances,
  cycleHeatWork as cycleHeat,
  inductanceWork as inductances,
  nearEndsWork as nearEnds,
} from '../../../core/facts/ends.ts';
import type { Work } from '../../../core/figures/work.ts';
import { remembered } from './remembered.ts';

export * from '../../../core/facts/ends.ts';

const kept = new Map<string, unknown>();

/** The same work, done once. */
function once<T>(work: Work<T>): Work<T> {
  return { ...work, steps: () => remembered(kept, `${work.kind} ${work.key()}`, work.steps) };
}

export function clearanceWork(...given: Parameters<typeof clearances>): ReturnType<typeof clearances> {
  return once(clearances(...given));
}

export function nearEndsWork(...given: Parameters<typeof nearEnds>): ReturnType<typeof nearEnds> {
  return once(nearEnds(...given));
}

export function inductanceWork(...given: Parameters<typeof inductances>): ReturnType<typeof inductances> {
  return once(inductances(...given));
}

export function cycleHeatWork(...given: Parameters<typeof cycleHeat>): ReturnType<typeof cycleHeat> {
  return once(cycleHeat(...given));
}
