import type { RequiredLimit } from '../language/specification/specification.ts';
import { measureName } from './question.ts';

/** A limit as it is written. */
export function limitMeasureName(limit: RequiredLimit): string {
  return `${measureName(limit)} ${limit.relation} ${limit.written}`;
}
