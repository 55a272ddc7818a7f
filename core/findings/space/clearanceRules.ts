import { askedClearance } from '../../facts/ends.ts';
import type { Facts } from '../../facts/facts.ts';
import { type Finding, type Fix, finding } from '../../language/finding.ts';
import type { BarSpecification } from '../../language/specification/specification.ts';
import { clearanceOf } from '../../space/clearance/clearance.ts';
import type { Freed, FreeingStep } from '../../space/clearance/freeing.ts';
import { toldAsProblem } from '../../space/clearance/toldAsProblem.ts';
import { endsClose, endsCollide } from './findingKinds.ts';
import { atLeast, atMost, replacing } from './freeingLengths.ts';
import { flatFix } from './rules.ts';

/** Bar ends, connecting pieces and rings that run into each other or come too near: of each kind on each side the worst. */
export function checkClearances(facts: Facts): readonly Finding[] {
  const { bar } = facts.specification;
  const { space, problems } = facts.space();
  if (!bar || !space.known) return [];
  // Bars that do not fit their slot are changed first, and what they leave each other beyond the stack with them.
  if (facts.copperProblems().some(({ kind }) => kind === 'bars-do-not-fit')) return [];
  const near = facts.nearEnds();
  const asked = askedClearance(facts.specification);
  if (!near || !asked.known) return [];
  const { bends } = space.value;
  const assumed = bends.assumed ? bends.edge : null;
  const severity = assumed === null ? {} : { severity: 'info' as const };
  // Special spans in the crowns are still to be tried, where there are crowns.
  const crowns = bar.form?.value !== 'straight' && facts.specification.connect?.specials?.value !== 'crowns';
  const isProblem = toldAsProblem(space.value, problems);
  return near.places.flatMap((place): Finding[] => {
    const { colliding, close, kind } = place;
    if (isProblem(place)) return [];
    const range =
      (kind === 'piece' ? bar.pieceClearance : undefined)?.statement ?? bar.endClearance?.statement;
    if (colliding > 0) {
      const freed = near.freed.get(place) ?? null;
      const fix = freed && freeingFix(bar, freed);
      const data = { ...place, count: colliding, freed, assumed, crowns };
      return [finding(endsCollide, range ?? bar.range, data, { ...severity, ...(fix ? { fix } : {}) })];
    }
    const data = { ...place, count: close, asked: clearanceOf(kind, asked.value) };
    return [finding(endsClose, range ?? bar.range, data, severity)];
  });
}

/** The edits that write what frees; null where a statement of it is still to be written. */
function freeingFix(bar: BarSpecification, freed: Freed): Fix | null {
  const fixes = freed.map((step) => stepFix(bar, step));
  const written = fixes.filter((fix) => fix !== null);
  if (written.length < fixes.length) return null;
  const [first, ...others] = written.map(({ title }) => title);
  return {
    title: [first, ...others.map((title) => title.replace(/^Write /, ''))].join(' and '),
    edits: written.flatMap(({ edits }) => edits),
  };
}

function stepFix(bar: BarSpecification, { word, value, bound }: FreeingStep): Fix | null {
  if (word === 'flat') return flatFix(bar, value).fix ?? null;
  const length = bound === 'least' ? atLeast(value) : atMost(value);
  const given = word === 'end-clearance' ? bar.endClearance : bar.pieceClearance;
  if (given) return replacing(given, length, word);
  if (!bar.endClearance) return null;
  const { end } = bar.endClearance.statement;
  const text = `${word} ${length}`;
  return { title: `Write '${text}'`, edits: [{ range: { start: end, end }, text: `\n  ${text}` }] };
}
