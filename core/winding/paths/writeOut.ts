import { layerLetter } from '../../language/layerLetters.ts';
import { modulo } from '../integers.ts';
import { barName, type Path, type PhaseSystem } from '../model.ts';

/**
 * Paths as statements of the connect block, one string each: the first phase's paths written out, the
 * other phases as copies where their paths are the first one's moved round the bore, else written out
 * too. Reading them back gives the same paths. `slots` is the number of slots.
 */
export function writtenStatements(
  paths: readonly Path[],
  phases: PhaseSystem,
  slots: number,
): readonly string[] {
  const ofPhase = phases.names.map((_, phase) => paths.filter((path) => path.phase === phase));
  const first = ofPhase[0]!;
  const statements: string[] = [];
  const copies: string[] = [];
  ofPhase.forEach((own, phase) => {
    const shift = phase === 0 ? null : commonShift(first, own, slots);
    if (shift === null) statements.push(...own.map((path) => pathStatement(path, phases.names[phase]!)));
    else copies.push(`repeat ${phases.names[0]} as ${phases.names[phase]} shift ${shift}`);
  });
  return [...statements, ...copies];
}

/** The slots, 0 to `slots` - 1, by which every path of `own` lies on from the path of the same number of `first`; null for none. */
export function commonShift(first: readonly Path[], own: readonly Path[], slots: number): number | null {
  if (first.length === 0 || first.length !== own.length) return null;
  const shift = modulo(own[0]!.bars[0]!.slot - first[0]!.bars[0]!.slot, slots);
  const alike = first.every((path, i) => {
    const other = own[i]!;
    return (
      path.number === other.number &&
      path.startsFar === other.startsFar &&
      path.bars.length === other.bars.length &&
      path.bars.every(({ slot, layer }, k) => {
        const bar = other.bars[k]!;
        return bar.layer === layer && (slot + shift - bar.slot) % slots === 0;
      }) &&
      path.spans.every((span, k) => span === other.spans[k]) &&
      path.pieces.every((piece, k) => piece === other.pieces[k])
    );
  });
  return alike ? shift : null;
}

/** A path as its statement, as short as can be. */
export function pathStatement(path: Path, phase: string): string {
  const steps = path.spans.map((span, i) => {
    const hop = `${span < 0 ? '' : '+'}${span}${layerLetter(path.bars[i + 1]!.layer)}`;
    return path.pieces[i] ? `| ${hop}` : hop;
  });
  const parts = [barName(path.bars[0]!), ...folded(steps)];
  const from = `from ${path.from}${path.startsFar ? ' far' : ''}`;
  const to = `to ${path.to}${path.endsFar ? ' far' : ''}`;
  return `path ${phase} ${path.number} ${from} ${parts.join(' ')} ${to}`;
}

/** Longest pattern of steps that is looked for as a repeated group. */
const longestGroup = 8;

/** Steps with runs of a repeated pattern written as a group: `(+6b +6a)*3`. */
function folded(steps: readonly string[]): readonly string[] {
  const out: string[] = [];
  for (let i = 0; i < steps.length; ) {
    let best = { length: 1, times: 1 };
    for (let length = 1; length <= Math.min(longestGroup, (steps.length - i) / 2); length++) {
      let times = 1;
      while (matches(steps, i, i + times * length, length)) times++;
      if (times > 1 && times * length > best.times * best.length) best = { length, times };
    }
    const pattern = steps.slice(i, i + best.length).join(' ');
    // A group of two short steps saves nothing and reads worse than the steps themselves.
    if (best.times * best.length >= 3 && best.times > 1) out.push(`(${pattern})*${best.times}`);
    else out.push(...steps.slice(i, i + best.times * best.length));
    i += best.times * best.length;
  }
  return out;
}

function matches(steps: readonly string[], a: number, b: number, length: number): boolean {
  if (b + length > steps.length) return false;
  for (let k = 0; k < length; k++) if (steps[a + k] !== steps[b + k]) return false;
  return true;
}
