import {
  CodeAction,
  CodeActionKind,
  type Diagnostic,
  type Range as EditorRange,
  SnippetString,
  SnippetTextEdit,
  type TextDocument,
  WorkspaceEdit,
} from 'vscode';
import { wholeLine } from '../../../core/drawnPaths/writeDrawn.ts';
import { joinedFacts } from '../../../core/facts/connection.ts';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { quantityValue } from '../../../core/findings/quantities.ts';
import type { Finding, Range } from '../../../core/language/finding.ts';
import { layerLetter } from '../../../core/language/layerLetters.ts';
import { statementEntry } from '../../../core/language/vocabulary/vocabulary.ts';
import { possibleParallelPaths } from '../../../core/routing/route.ts';
import type { LayoutRefusal } from '../../../core/winding/generate.ts';
import { lineTerminal, pathEnd } from '../../../core/winding/terminals.ts';
import { editorRange } from '../../edits.ts';
import { codeOf } from '../../findingCode.ts';
import { l10n } from '../../wording.ts';
import { allStatements, holds, statementAt } from './leaves.ts';

/** Edits that mend a finding; `${...}` in a text are stops where the reader puts the own value. */
export interface Remedy {
  readonly title: string;
  readonly edits: readonly { readonly range: Range; readonly snippet: string }[];
}

/** The obvious remedies of the findings at a stretch of the text that carry none of their own. */
export function remedyActions(
  study: CheckedText,
  document: TextDocument,
  at: EditorRange,
  diagnostics: readonly Diagnostic[],
): CodeAction[] {
  const stretch = { start: document.offsetAt(at.start), end: document.offsetAt(at.end) };
  const here = study.findings.filter(
    ({ fix, range }) => fix === undefined && range.start <= stretch.end && stretch.start <= range.end,
  );
  const titles = new Set<string>();
  return here.flatMap((finding) =>
    remediesFor(study, finding).flatMap(({ title, edits }) => {
      if (titles.has(title)) return [];
      titles.add(title);
      const action = new CodeAction(title, CodeActionKind.QuickFix);
      action.edit = new WorkspaceEdit();
      action.edit.set(
        document.uri,
        edits.map(({ range, snippet }) =>
          SnippetTextEdit.replace(editorRange(document, range), new SnippetString(snippet)),
        ),
      );
      action.diagnostics = diagnostics.filter((each) => codeOf(each) === finding.code);
      return [action];
    }),
  );
}

/** What would mend a finding, the likeliest first; empty where it takes thought. */
function remediesFor(study: CheckedText, finding: Finding): readonly Remedy[] {
  const { text, specification } = study;
  const { machine, layout, connect } = specification;
  const at = finding.range;
  switch (finding.code) {
    case 'title-missing':
      return [one(l10n.t('Name the winding'), { start: 0, end: 0 }, `winding "\${1:New winding}"\n\n`)];
    case 'block-missing':
      return [machine ? addition(study, layoutWords(study)) : addition(study, machineWords(study))];
    case 'statement-missing':
      return [addition(study, at.start === layout?.range.start ? layoutWords(study) : machineWords(study))];
    case 'layout-undetermined':
      return [addition(study, layoutWords(study))];
    case 'layout-refused':
      return refusedRemedies(study, finding.data as LayoutRefusal);
    case 'layer-missing':
      return [addition(study, missingLayers(study))];
    case 'connection-missing':
      return ['star', 'delta', 'open'].map((word) => addition(study, [{ block: 'connect', snippet: word }]));
    case 'phases-need-angle':
      return [
        one(l10n.t("Add '{0}'", 'apart 30 edeg'), { start: at.end, end: at.end }, ` apart \${1:30} edeg`),
      ];
    case 'phases-apart-unexpected':
      return machine?.phases
        ? [
            one(
              l10n.t("Write '{0}'", `phases ${machine.phases.value.count}`),
              at,
              `${machine.phases.value.count}`,
            ),
          ]
        : [];
    case 'statements-exclude-each-other':
    case 'statement-repeated':
    case 'connection-repeated':
    case 'layout-twofold':
    case 'layer-repeated':
    case 'speed-disagrees':
    case 'diameters-disagree':
    case 'accept-of-error':
      return removal(study, at);
    case 'brace-unexpected':
    case 'parenthesis-unexpected':
      return [one(l10n.t("Remove '{0}'", text.slice(at.start, at.end)), at, '')];
    case 'block-not-opened':
      return [one(l10n.t("Add '{0}'", '{'), { start: at.end, end: at.end }, ' {')];
    case 'block-not-closed':
      return [one(l10n.t("Add '{0}'", '}'), ending(text), `${/[\r\n]$/.test(text) ? '' : '\n'}\\}\n`)];
    case 'string-not-closed': {
      const end = at.start + text.slice(at.start, at.end).trimEnd().length;
      return [one(l10n.t("Add '{0}'", '"'), { start: end, end }, '"')];
    }
    case 'path-number-repeated':
      return freeNumber(study, at);
    case 'terminal-wrong':
      return rightTerminal(study, at);
    case 'path-end-side':
      return otherSide(study, at);
    case 'lean-collision':
      return /^[+-]?\d+[a-z]$/.test(text.slice(at.start, at.end))
        ? [one(l10n.t('Join it by a connecting piece'), { start: at.start, end: at.start }, '| ')]
        : [];
    case 'limit-not-computable':
      return needed(study, at);
    case 'ring-size-missing':
      return [
        addition(
          study,
          (['ring-width', 'ring-height'] as const)
            .filter((word) => !specification.bar?.[word === 'ring-width' ? 'ringWidth' : 'ringHeight'])
            .map((word) => exampleOf('bar', word)),
        ),
      ];
    case 'insulation-not-checked':
      return machine?.voltage ? [] : [addition(study, [exampleOf('machine', 'voltage')])];
    case 'routing-refused':
      return connect ? otherPaths(study) : [];
    case 'special-crowns-taken': {
      const joined = study.facts && joinedFacts(study.facts);
      const word = joined?.explanation?.specials;
      return word ? [addition(study, [{ block: 'connect', snippet: `specials ${word}` }])] : [];
    }
    default:
      return [];
  }
}

function one(title: string, range: Range, snippet: string): Remedy {
  return { title, edits: [{ range, snippet }] };
}

function ending(text: string): Range {
  return { start: text.length, end: text.length };
}

/** A statement to be added to its block, with stops. */
interface Added {
  readonly block: string;
  readonly snippet: string;
}

/** The statement's example, its first number a stop. */
function exampleOf(block: Parameters<typeof statementEntry>[0], word: string): Added {
  const example = statementEntry(block, word)?.example ?? word;
  return { block, snippet: example.replace(/\d+(\.\d+)?/, (number) => `\${1:${number}}`) };
}

/** Adds statements to their blocks, which are made where there are none; their stops are counted through. */
function addition({ document, text }: CheckedText, added: readonly Added[]): Remedy {
  const plain = added.map(({ snippet }) => snippet.replace(/\$\{\d+:([^}]*)\}/g, '$1'));
  let stop = 0;
  const counted = added.map(({ block, snippet }) => ({
    block,
    snippet: snippet.replace(/\$\{\d+:/g, () => `\${${++stop}:`),
  }));
  const edits = [...new Set(added.map(({ block }) => block))].map((name) => {
    const statements = counted.filter(({ block }) => block === name).map(({ snippet }) => snippet);
    const block = document.blocks.find((each) => each.name === name);
    if (!block) {
      const parted = text === '' || /(\r?\n){2}$/.test(text) ? '' : /\n$/.test(text) ? '\n' : '\n\n';
      return { range: ending(text), snippet: `${parted}${name} {\n  ${statements.join('\n  ')}\n\\}\n` };
    }
    const brace = block.range.end - 1;
    const line = /[\r\n]([ \t]*)$/.exec(text.slice(block.range.start, brace));
    // Where the brace has a line of its own, the statements get theirs above it.
    if (line) {
      const start = brace - line[1]!.length;
      return { range: { start, end: start }, snippet: statements.map((each) => `  ${each}\n`).join('') };
    }
    const blank = /\s$/.test(text.slice(0, brace)) ? '' : ' ';
    return { range: { start: brace, end: brace }, snippet: `${blank}${statements.join('  ')} ` };
  });
  return { title: l10n.t("Add '{0}'", plain.join("', '")), edits };
}

function machineWords({ specification }: CheckedText): readonly Added[] {
  const { machine } = specification;
  const given = { slots: machine?.slots, poles: machine?.poles, phases: machine?.phases };
  return (['slots', 'poles', 'phases'] as const)
    .filter((word) => given[word] === undefined)
    .map((word) => exampleOf('machine', word));
}

/** Layers and a span near the pole pitch, as far as they are not given. */
function layoutWords({ specification }: CheckedText): readonly Added[] {
  const { machine, layout } = specification;
  const pitch = machine?.slots && machine.poles ? machine.slots.value / machine.poles.value : 6;
  const span = Math.max(1, Math.floor(pitch));
  return [
    ...(layout?.layers ? [] : [{ block: 'layout', snippet: `layers \${1:2}` }]),
    ...(layout?.span || (layout?.rows.length ?? 0) > 0
      ? []
      : [{ block: 'layout', snippet: `span \${1:${span}}` }]),
  ];
}

function missingLayers({ specification }: CheckedText): readonly Added[] {
  const { layout } = specification;
  const given = new Set(layout?.rows.map(({ value }) => value.layer));
  const from = layout?.rows[0]?.value.layer ?? 0;
  return Array.from({ length: layout?.layers?.value ?? 0 }, (_, layer) => layer)
    .filter((layer) => !given.has(layer))
    .map((layer) => ({
      block: 'layout',
      snippet: `layer ${layerLetter(layer)} = layer ${layerLetter(from)} moved \${1:0} negated`,
    }));
}

/** Takes the statement at a place away, with its line; one that stands again is in no list, but is told whole. */
function removal({ document, text }: CheckedText, at: Range): readonly Remedy[] {
  const ranges = allStatements(document).map(({ range }) => range);
  const own = ranges.filter(({ start, end }) => start <= at.start && at.end <= end).at(-1) ?? at;
  const line = text
    .slice(own.start, own.end)
    .split(/[\r\n]/)[0]!
    .trim();
  const shown = line.length > 40 ? `${line.slice(0, 40)}…` : line;
  return [one(l10n.t("Remove '{0}'", shown), wholeLine(text, own), '')];
}

/** Numbers that a refused layout would take. */
function refusedRemedies({ specification, text }: CheckedText, refusal: LayoutRefusal): readonly Remedy[] {
  const { machine, layout } = specification;
  if (!machine?.slots || !machine.poles || !layout) return [];
  const written = (
    given: { readonly range: Range } | undefined,
    word: string,
    values: readonly (number | string)[],
  ) =>
    given
      ? values.map((value) => one(l10n.t("Write '{0}'", `${word} ${value}`), given.range, String(value)))
      : [];
  const without = (given: { readonly statement: Range } | undefined, word: string) =>
    given ? [one(l10n.t("Remove '{0}'", word), wholeLine(text, given.statement), '')] : [];
  const pitch = Math.max(1, Math.floor(machine.slots.value / machine.poles.value));
  switch (refusal.kind) {
    case 'unbalanced':
    case 'slots-odd':
      return written(machine.slots, 'slots', refusal.nearestSlots);
    case 'odd-layers':
      return written(layout.layers, 'layers', [refusal.layers - 1, refusal.layers + 1]);
    case 'span-out-of-range':
    case 'span-links-no-fundamental':
      return written(layout.span, 'span', [pitch]);
    case 'span-does-not-close':
      return written(layout.span, 'span', refusal.spansThatDo.slice(0, 3));
    case 'belt-refused':
      return without(layout.belt, 'belt');
    case 'stagger-cancels-fundamental':
      return without(layout.stagger, 'stagger');
    case 'two-sets-need-30':
      return machine.phases ? written(machine.phases, 'phases', ['6 apart 30 edeg']) : [];
  }
}

/** The least number that no path of the phase has. */
function freeNumber({ specification }: CheckedText, at: Range): readonly Remedy[] {
  const paths = specification.connect?.paths ?? [];
  const own = paths.find(({ value }) => value.number.range.start === at.start);
  if (!own) return [];
  const phase = own.value.phase.value;
  const taken = new Set(
    paths.flatMap(({ value }) => (value.phase.value === phase ? [value.number.value] : [])),
  );
  let number = 1;
  while (taken.has(number)) number++;
  return [one(l10n.t("Write '{0}'", `path ${phase} ${number}`), at, String(number))];
}

function rightTerminal({ specification, winding }: CheckedText, at: Range): readonly Remedy[] {
  const own = specification.connect?.paths.find(({ statement }) => holds(statement, at.start))?.value;
  const connection = specification.connect?.connections[0]?.value;
  const phase = own && winding ? winding.phases.names.indexOf(own.phase.value) : -1;
  if (!own || !winding || phase < 0) return [];
  const isFrom = own.from.range.start === at.start;
  if (!isFrom && !connection) return [];
  const right = isFrom ? lineTerminal(own.phase.value) : pathEnd(winding.phases, phase, connection!);
  return [one(l10n.t("Write '{0}'", right), at, right)];
}

/** Says, or no longer says, that a path ends on the far side. */
function otherSide({ specification, document }: CheckedText, at: Range): readonly Remedy[] {
  const own = specification.connect?.paths.find(({ statement }) => holds(statement, at.start))?.value;
  if (!own) return [];
  if (!own.toFar) return [one(l10n.t("Add '{0}'", 'far'), { start: at.end, end: at.end }, ' far')];
  const far = document.tokens.find(({ start, text }) => start >= at.end && text === 'far');
  return far ? [one(l10n.t("Remove '{0}'", 'far'), { start: at.end, end: far.end }, '')] : [];
}

/** The statements that a limit needs to be computed, as their examples. */
function needed(study: CheckedText, at: Range): readonly Remedy[] {
  const limit = study.limits.find(({ range }) => range.start === at.start);
  const figure = limit && study.facts ? quantityValue(limit.source, study.facts) : null;
  if (!figure || figure.known) return [];
  const added = figure.needs.flatMap((need) => {
    // Of choices the first: `machine speed or frequency`.
    const [block = '', word = ''] = need.split(/, | or /)[0]!.split(' ');
    const known = ['machine', 'slot', 'bar', 'insulation', 'layout', 'connect', 'duty'] as const;
    const name = known.find((each) => each === block);
    return name && statementEntry(name, word) ? [exampleOf(name, word)] : [];
  });
  const unique = added.filter(
    ({ snippet }, index) => added.findIndex((other) => other.snippet === snippet) === index,
  );
  return unique.length > 0 ? [addition(study, unique)] : [];
}

/** Numbers of paths that are possible, the nearest to what was asked for first. */
function otherPaths(study: CheckedText): readonly Remedy[] {
  const { facts, specification } = study;
  const route = specification.connect?.route;
  if (!facts) return [];
  const asked = route?.value.paths ?? 1;
  const possible = [...possibleParallelPaths(facts.winding)]
    .filter((count) => count !== asked)
    .sort((a, b) => Math.abs(a - asked) - Math.abs(b - asked))
    .slice(0, 2);
  return possible.map((count) => {
    const words = `route paths ${count}`;
    if (!route) return addition(study, [{ block: 'connect', snippet: words }]);
    const { statement } = statementAt(study.document, route.statement.start);
    const number = statement?.values.find((value) => value.kind === 'quantity');
    return one(
      l10n.t("Write '{0}'", words),
      number?.range ?? route.statement,
      number ? String(count) : words,
    );
  });
}
