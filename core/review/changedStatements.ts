import { type Alignment, knownPaths, layerTurns, pathKey, pathsOf } from './places.ts';
import { type Reviewed, wound } from './reviewed.ts';
import type { ChangedStatement } from './schema.ts';
import { type StatementWords, statementsOf } from './statements.ts';

export interface StatementChanges {
  readonly statements: readonly ChangedStatement[];
  /** Blocks of which some statement is written differently while what it describes is the same. */
  readonly rewritten: readonly string[];
}

/**
 * Statements that say something else. Spelling, order, groups and units do not count, nor do the words
 * of the layout and the paths where the bars, or the paths, they describe are the same.
 */
export function changedStatements(
  old: Reviewed | null,
  now: Reviewed | null,
  alignment: Alignment,
): StatementChanges {
  const sameOutcome = outcomes(old, now, alignment);
  const statements: ChangedStatement[] = [];
  const rewritten = new Set<string>();
  for (const [before, after] of pairs(old ? statementsOf(old) : [], now ? statementsOf(now) : [])) {
    if (before && after ? before.meaning === after.meaning : isDefault((before ?? after)!)) continue;
    if (sameOutcome(before, after)) rewritten.add((before ?? after)!.block);
    else {
      const { what } = (before ?? after)!;
      statements.push({ what, old: before?.words ?? null, new: after?.words ?? null });
    }
  }
  return { statements, rewritten: [...rewritten] };
}

type Pair = readonly [StatementWords | undefined, StatementWords | undefined];

/** Statements of one key matched in their order: the new ones in theirs, then those that are gone. */
function pairs(old: readonly StatementWords[], now: readonly StatementWords[]): readonly Pair[] {
  const before = new Map<string, { readonly all: StatementWords[]; taken: number }>();
  for (const words of old) {
    const same = before.get(words.key);
    if (same) same.all.push(words);
    else before.set(words.key, { all: [words], taken: 0 });
  }
  const matched = now.map((words): Pair => {
    const same = before.get(words.key);
    return [same?.all[same.taken++], words];
  });
  const gone = [...before.values()]
    .flatMap(({ all, taken }) => all.slice(taken))
    .map((words): Pair => [words, undefined]);
  const order = new Map([...now, ...old].map((words) => [words, rank(words)]));
  const rankOf = (pair: Pair) => order.get((pair[1] ?? pair[0])!)!;
  return [...matched, ...gone].sort((a, b) => rankOf(a) - rankOf(b));
}

const blockOrder = [
  'winding',
  'machine',
  'slot',
  'bar',
  'insulation',
  'layout',
  'connect',
  'duty',
  'require',
  'vary',
  'sheet',
];

function rank({ block }: StatementWords): number {
  const place = blockOrder.indexOf(block.split(' ')[0]!);
  return place < 0 ? blockOrder.length : place;
}

/** Whether a statement only says what holds without it. */
function isDefault({ entry, words }: StatementWords): boolean {
  const standard = entry?.default;
  if (standard === undefined) return false;
  const isZero = (text: string) => /^[+-]?0(\.0+)?($| )/.test(text);
  return words === standard || (isZero(words) && isZero(standard));
}

type SameOutcome = (before: StatementWords | undefined, after: StatementWords | undefined) => boolean;

const generatedWords = ['layers', 'span', 'stagger', 'belt', 'layer'];

/** Whether two statements about bars or paths differ in their letters alone. */
function outcomes(old: Reviewed | null, now: Reviewed | null, alignment: Alignment): SameOutcome {
  const [one, other] = [wound(old), wound(now)];
  if (!one || !other || one.winding.slots !== other.winding.slots) return () => false;
  const { rotation, sameBars } = alignment;
  const [origin, newOrigin] = [one.winding.origin, other.winding.origin];
  const bothGenerated = origin.kind === 'generated' && newOrigin.kind === 'generated';
  const sameGenerated = bothGenerated && JSON.stringify(origin) === JSON.stringify(newOrigin);
  const sameLeans = one.winding.lean.join() === other.winding.lean.join();
  const keys = (study: Reviewed, turn: number) => {
    const { names } = study === old ? one.winding.phases : other.winding.phases;
    return pathsOf(study).map((path) => ({
      phase: names[path.phase]!,
      number: path.number,
      key: pathKey(path, turn, one.winding.slots),
    }));
  };
  const known = knownPaths(one).kind === 'connected' && knownPaths(other).kind === 'connected';
  const [oldPaths, newPaths] = known ? [keys(one, rotation), keys(other, 0)] : [[], []];
  const phases = new Map<string, boolean>();
  const samePhase = (phase: string) => {
    const told = phases.get(phase);
    if (told !== undefined) return told;
    const same = comparePhase(phase);
    phases.set(phase, same);
    return same;
  };
  const comparePhase = (phase: string) => {
    const of = (paths: typeof oldPaths) => paths.filter((path) => path.phase === phase);
    const text = (paths: typeof oldPaths) =>
      of(paths)
        .map(({ key }) => key)
        .sort()
        .join('\n');
    return of(newPaths).length > 0 && text(oldPaths) === text(newPaths);
  };
  return (before, after) => {
    const { entry, statement, what } = (after ?? before)!;
    if (!entry || !statement) return false;
    if (entry.block === 'layout') {
      if (entry.word === 'skew') return sameLeans;
      if (!generatedWords.includes(entry.word) || (bothGenerated && !sameGenerated)) return false;
      if (sameBars) return true;
      const layer = statement.values[0]?.kind === 'layer' ? statement.values[0].layer : null;
      const inBoth = layer !== null && layer < Math.min(one.winding.layers, other.winding.layers);
      return !!before && !!after && inBoth && layerTurns(one.winding, other.winding, layer, rotation);
    }
    if (entry.block !== 'connect' || !known) return false;
    if (entry.word === 'route') return alignment.samePaths && (!before || !after);
    if (entry.word !== 'path' && entry.word !== 'repeat') return false;
    const phase = what.split(' ')[entry.word === 'path' ? 2 : 4]!;
    return samePhase(phase);
  };
}
