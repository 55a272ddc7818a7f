import type { Specification } from './specification.ts';

/** The drawing's number and revision, by which a single file is known again: `EW-104, revision B`; null: neither. */
export function issueWords({ sheet }: Specification): string | null {
  const { number, revision } = sheet ?? {};
  const words = [...(number ? [number.value] : []), ...(revision ? [`revision ${revision.value}`] : [])];
  return words.length > 0 ? words.join(', ') : null;
}
