import type { Facts } from '../findings/facts.ts';
import type { LimitResult } from '../findings/limits.ts';
import type { Document } from '../language/document.ts';
import type { Finding } from '../language/finding.ts';
import type { Specification } from '../language/specification.ts';
import type { Report } from '../report/schema.ts';
import type { Winding } from '../winding/model.ts';

/** What a comparison reads of a study; `Study` has all of it. */
export interface Reviewed {
  readonly text: string;
  readonly document: Document;
  readonly specification: Specification;
  readonly title: string;
  readonly winding: Winding | null;
  readonly facts: Facts | null;
  readonly broken: boolean;
  readonly findings: readonly Finding[];
  readonly limits: readonly LimitResult[];
  report(orders?: number): Report;
}

/** One side with a winding. */
export interface Wound extends Reviewed {
  readonly winding: Winding;
  readonly facts: Facts;
}

/** The study where its text yields a winding. */
export function wound(study: Reviewed | null): Wound | null {
  return study?.winding && study.facts ? (study as Wound) : null;
}
