import { CodeAction, CodeActionKind, type Range as EditorRange, type TextDocument } from 'vscode';
import { wholeLine } from '../../../core/drawnPaths/writeDrawn.ts';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import type { Range } from '../../../core/language/finding.ts';
import { format } from '../../../core/language/format/formatter.ts';
import { layerLetter } from '../../../core/language/layerLetters.ts';
import type { Block, Statement } from '../../../core/language/text/document.ts';
import { defaultBelt, generateTable } from '../../../core/winding/generate.ts';
import { modulo } from '../../../core/winding/integers.ts';
import {
  cellAt,
  placeName,
  type SlotTable,
  slotNumbers,
  typedSigns,
  type Winding,
} from '../../../core/winding/model.ts';
import { writtenStatements } from '../../../core/winding/paths/writeOut.ts';
import { editOf, type TextChange } from '../../edits.ts';
import { l10n } from '../../wording.ts';
import { connectionOf } from '../barUse.ts';

/** An edit of several stretches, with what it does in words. */
export interface Rewrite {
  readonly title: string;
  readonly edits: readonly TextChange[];
}

/** Other ways to write what stands at a stretch of the text, with the same meaning but where the title says more. */
export function rewriteActions(study: CheckedText, document: TextDocument, at: EditorRange): CodeAction[] {
  const stretch = { start: document.offsetAt(at.start), end: document.offsetAt(at.end) };
  return rewritesAt(study, stretch).map(({ title, edits }) => {
    const action = new CodeAction(title, CodeActionKind.RefactorRewrite);
    action.edit = editOf(document, edits);
    return action;
  });
}

/** The same without an editor. */
function rewritesAt(study: CheckedText, at: Range): readonly Rewrite[] {
  const { winding, document } = study;
  const block = document.blocks.find(({ range }) => range.start <= at.end && at.start <= range.end);
  if (!winding || !block || study.broken) return [];
  if (block.name === 'layout') return layoutRewrites(study, winding, block);
  if (block.name === 'connect') return connectRewrites(study, winding, block, at);
  return [];
}

function layoutRewrites(study: CheckedText, winding: Winding, block: Block): readonly Rewrite[] {
  const generating = block.statements.filter(({ entry }) => /^(span|stagger|belt)$/.test(entry.word));
  if (winding.origin.kind === 'generated') {
    const rows = Array.from({ length: winding.layers }, (_, layer) => rowStatement(winding, layer));
    return [
      { title: l10n.t('Write the layout as rows'), edits: replaced(study.text, generating, rows, 'layout') },
    ];
  }
  const rows = block.statements.filter(({ entry }) => entry.word === 'layer');
  const span = winding.origin.kind === 'rows' ? spanOf(winding) : null;
  if (span === null || rows.length === 0) return [];
  return [
    {
      title: l10n.t('Write the rows as a coil span'),
      edits: replaced(study.text, rows, [`span ${span}`], 'layout'),
    },
  ];
}

/** One layer as a statement: derived from the first one where it is that moved, else its places, as short as can be. */
function rowStatement(winding: Winding, layer: number): string {
  const { table, slots } = winding;
  const cells = (of: number) => slotNumbers(winding).map((slot) => cellAt(table, slot, of));
  const own = cells(layer);
  const letter = layerLetter(layer);
  const first = cells(0);
  for (let moved = 0; layer > 0 && moved < slots; moved++)
    for (const sign of [1, -1])
      if (own.every((cell, i) => cell === sign * first[modulo(i - moved, slots)]!))
        return `layer ${letter} = layer a${moved === 0 ? '' : ` moved ${moved}`}${sign < 0 ? ' negated' : ''}`;
  for (let length = 1; length < slots; length++) {
    if (slots % length !== 0) continue;
    for (const sign of [1, -1]) {
      const repeats = own.every(
        (cell, i) => cell === own[i % length]! * (Math.floor(i / length) % 2 ? sign : 1),
      );
      if (!repeats) continue;
      const places = own.slice(0, length).map((cell) => placeName(cell, winding.phases, typedSigns));
      return `layer ${letter} ${places.join(' ')} repeat ${slots / length}${sign < 0 ? ' alternating' : ''}`;
    }
  }
  return `layer ${letter} ${own.map((cell) => placeName(cell, winding.phases, typedSigns)).join(' ')}`;
}

/** The coil span that generates the same places; null where none does. */
function spanOf({ slots, poles, phases, layers, table }: Winding): number | null {
  if (layers > 1 && layers % 2 !== 0) return null;
  const belt = defaultBelt(phases);
  for (let span = 1; span <= Math.min(slots - 1, Math.ceil((2 * slots) / poles)); span++) {
    const made = generateTable({ slots, poles, phases, layers, span, stagger: 0, belt });
    if (made.ok && equalTables(made.table, table)) return span;
  }
  return null;
}

function equalTables(a: SlotTable, b: SlotTable): boolean {
  return a.cells.length === b.cells.length && a.cells.every((cell, index) => cell === b.cells[index]);
}

function connectRewrites(study: CheckedText, winding: Winding, block: Block, at: Range): readonly Rewrite[] {
  const connection = connectionOf(study);
  if (!connection?.written) return [];
  const { phases, slots, parallelPaths } = winding;
  const isOfPaths = ({ entry }: Statement) => entry.word === 'path' || entry.word === 'repeat';
  const statements = block.statements.filter(isOfPaths);
  const copy = statements.find(
    ({ entry, range }) => entry.word === 'repeat' && range.start <= at.end && at.start <= range.end,
  );
  const source = study.specification.connect?.copies.find(({ statement }) => statement === copy?.range);
  const target = source ? phases.names.indexOf(source.value.as.value) : -1;
  const own = connection.paths.filter(({ phase }) => phase === target);
  const compact = writtenStatements(connection.paths, phases, slots);
  const length = (lines: readonly string[]) => lines.join(' ').replace(/\s+/g, ' ').length;
  const present = statements.map(({ range }) => study.text.slice(range.start, range.end));
  return [
    ...(copy && own.length > 0
      ? [
          {
            title: l10n.t('Write out the copied paths of phase {0}', phases.names[target]!),
            edits: replaced(study.text, [copy], writtenStatements(own, phases, slots), 'connect'),
          },
        ]
      : []),
    ...(length(compact) < length(present)
      ? [
          {
            title: l10n.t('Write the paths compactly'),
            edits: replaced(study.text, statements, compact, 'connect'),
          },
        ]
      : []),
    {
      title: l10n.t('Let the paths be found anew: {0}', `route paths ${parallelPaths}`),
      edits: replaced(study.text, statements, [`route paths ${parallelPaths}`], 'connect'),
    },
  ];
}

/** The edits that put new statements where the first of the old ones stands, and take the others away. */
function replaced(
  text: string,
  old: readonly Statement[],
  written: readonly string[],
  block: 'layout' | 'connect',
): Rewrite['edits'] {
  const [first, ...others] = old;
  if (!first) return [];
  const lineBreak = text.includes('\r\n') ? '\r\n' : '\n';
  const lines = format(`${block} {\n${written.join('\n')}\n}\n`)
    .trimEnd()
    .split('\n')
    .slice(1, -1);
  const before = /(^|[\r\n])([ \t]*)$/.exec(text.slice(0, first.range.start));
  const indent = before ? before[2]! : '  ';
  const inner = lines.map((line) => line.slice(2)).join(`${lineBreak}${indent}`);
  // Statements may stand behind each other on one line: what is written over several lines gets its own.
  return [
    {
      range: first.range,
      text: before || !inner.includes(lineBreak) ? inner : `${lineBreak}  ${inner}${lineBreak}`,
    },
    ...others.map(({ range }) => ({ range: wholeLine(text, range), text: '' })),
  ];
}
