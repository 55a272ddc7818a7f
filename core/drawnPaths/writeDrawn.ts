import { canonicalLines, statementsOfConnect } from '../findings/writeOutPaths.ts';
import type { Range } from '../language/finding.ts';
import type { PhaseConnection } from '../language/specification/statements.ts';
import type { Document } from '../language/text/document.ts';
import { cellAt, type Path, sameBar, type Winding } from '../winding/model.ts';
import { commonShift, pathStatement, writtenStatements } from '../winding/paths/writeOut.ts';
import { movedBars, type SourcedPath } from '../winding/paths/writtenPaths.ts';
import { lineTerminal, pathEnd } from '../winding/terminals.ts';

/** A stretch of the text with what takes its place. */
export interface TextChange {
  readonly range: Range;
  readonly text: string;
}

/** A phase whose paths are those of another one, moved round the bore by so many slots. */
export interface Follower {
  readonly phase: number;
  readonly shift: number;
}

/**
 * The phases that change with one phase: those whose paths are its paths moved round the bore. Those that have no
 * paths yet follow where the layout has their bars so, by the fewest slots.
 */
export function followersOf(winding: Winding, paths: readonly Path[], phase: number): readonly Follower[] {
  const ofPhase = (index: number) => paths.filter((path) => path.phase === index);
  const own = ofPhase(phase);
  return winding.phases.names.flatMap((_, other): Follower[] => {
    if (other === phase) return [];
    const its = ofPhase(other);
    const shift = its.length > 0 ? commonShift(own, its, winding.slots) : layoutShift(winding, phase, other);
    return shift === null ? [] : [{ phase: other, shift }];
  });
}

/** The fewest slots by which the layout's bars of one phase lie on from those of another; null where none fits. */
function layoutShift({ table, slots, layers }: Winding, from: number, to: number): number | null {
  const fits = (shift: number) => {
    for (let layer = 0; layer < layers; layer++)
      for (let slot = 1; slot <= slots; slot++) {
        const there = cellAt(table, ((slot - 1 + shift) % slots) + 1, layer);
        const own = cellAt(table, slot, layer);
        if (
          (Math.abs(own) === from + 1 ? Math.sign(own) : 0) !==
          (Math.abs(there) === to + 1 ? Math.sign(there) : 0)
        )
          return false;
      }
    return true;
  };
  for (let shift = 1; shift < slots; shift++) if (fits(shift)) return shift;
  return null;
}

/** All paths of a winding with those of one phase replaced, and the phases that follow it with them. */
export function withDrawn(
  winding: Winding,
  connection: PhaseConnection,
  paths: readonly Path[],
  phase: number,
  drawn: readonly Path[],
): readonly Path[] {
  const followers = new Map(followersOf(winding, paths, phase).map((each) => [each.phase, each.shift]));
  const { names } = winding.phases;
  return names.flatMap((name, index) => {
    const shift = followers.get(index);
    if (index === phase) return drawn;
    if (shift === undefined) return paths.filter((path) => path.phase === index);
    return drawn.map((path) => ({
      ...path,
      phase: index,
      bars: movedBars(path.bars, shift, winding.slots),
      from: lineTerminal(name),
      to: pathEnd(winding.phases, index, connection),
    }));
  });
}

/**
 * The changes of a text that write these paths, in its order: statements of paths that stay as they are keep every
 * letter, and copied phases stay copies. Where no paths are written, all of them take the place of `route`, or come at
 * the end of the block. Empty where nothing changes, or where there is no connect block.
 */
export function pathChanges(
  document: Document,
  winding: Winding,
  written: readonly SourcedPath[],
  next: readonly Path[],
): readonly TextChange[] {
  const block = document.blocks.find(({ name }) => name === 'connect');
  if (!block) return [];
  const { phases, slots } = winding;
  const statements = block.statements.filter(({ entry }) => entry.word === 'path' || entry.word === 'repeat');
  const last = statements.at(-1);
  if (last === undefined)
    return [statementsOfConnect(document, block, canonicalLines(writtenStatements(next, phases, slots)))];
  const { text } = document;
  const lineBreak = text.includes('\r\n') ? '\r\n' : '\n';
  const indent = /(?:^|[\r\n])([ \t]*)[^\r\n]*$/.exec(text.slice(0, last.range.start))?.[1] || '  ';
  const linesOf = (path: Path) =>
    canonicalLines([pathStatement(path, phases.names[path.phase]!)]).join(`${lineBreak}${indent}`);
  const changes: TextChange[] = [];
  phases.names.forEach((_, phase) => {
    const own = written.filter(({ path }) => path.phase === phase);
    if (own.some(({ source }) => source !== null)) return;
    const wanted = next.filter((path) => path.phase === phase);
    for (const { path, statement } of own) {
      const now = wanted.find(({ number }) => number === path.number);
      if (now === undefined) changes.push({ range: wholeLine(text, statement), text: '' });
      else if (!samePath(path, now)) changes.push({ range: statement, text: linesOf(now) });
    }
    const added = wanted.filter(({ number }) => own.every(({ path }) => path.number !== number));
    if (added.length === 0) return;
    const end = (own.at(-1)?.statement ?? last.range).end;
    changes.push({
      range: { start: end, end },
      text: added.map((path) => `${lineBreak}${indent}${linesOf(path)}`).join(''),
    });
  });
  return changes.sort((a, b) => a.range.start - b.range.start);
}

function samePath(a: Path, b: Path): boolean {
  const same = <Item>(one: readonly Item[], other: readonly Item[], equal: (x: Item, y: Item) => boolean) =>
    one.length === other.length && one.every((item, index) => equal(item, other[index]!));
  return (
    a.startsFar === b.startsFar &&
    same(a.bars, b.bars, sameBar) &&
    same(a.spans, b.spans, Object.is) &&
    same(a.pieces, b.pieces, Object.is)
  );
}

/** A statement with its line, where nothing else stands on it. */
export function wholeLine(text: string, { start, end }: Range): Range {
  const before = /(^|\r\n|\n|\r)[ \t]*$/.exec(text.slice(0, start));
  const after = /^[ \t]*(?=\r\n|\n|\r|$)/.exec(text.slice(end));
  if (!before || !after) return { start, end };
  return { start: start - before[0].length, end: end + after[0].length };
}
