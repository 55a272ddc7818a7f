import { type Range as EditorRange, InlayHint, type Position, type TextDocument, window } from 'vscode';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import {
  countedIn,
  isUnderWay,
  type LimitResult,
  limitValue,
  marginShare,
} from '../../../core/findings/limits.ts';
import type { Range } from '../../../core/language/finding.ts';
import { signedPercent } from '../../../core/language/numbers.ts';
import type { WalkStep } from '../../../core/language/text/document.ts';
import type { Sequence } from '../../../core/language/text/sequence.ts';
import { sequenceLength } from '../../../core/language/text/sequence.ts';
import { barName } from '../../../core/winding/model.ts';
import type { HintKind } from '../../settings.ts';
import { l10n } from '../../wording.ts';
import { connectionOf } from '../barUse.ts';
import { holds, isGroup } from './leaves.ts';

/** A hint behind a place of the text. */
interface Hint {
  readonly at: number;
  readonly words: string;
  readonly tip: string;
}

/** The hints of the wanted kinds within a stretch of the text. */
export function hintsOf(
  study: CheckedText,
  document: TextDocument,
  shown: EditorRange,
  kinds: readonly HintKind[],
): InlayHint[] {
  const stretch = { start: document.offsetAt(shown.start), end: document.offsetAt(shown.end) };
  const cursor = cursorIn(document);
  const hints = [
    ...(kinds.includes('slots-per-pole-and-phase') ? slotsHint(study) : []),
    ...(kinds.includes('limits') ? limitHints(study) : []),
    ...(kinds.includes('landings') && cursor !== null ? landingHints(study, document.offsetAt(cursor)) : []),
  ];
  return hints.filter(({ at }) => holds(stretch, at)).map((hint) => inlayHint(hint, document));
}

function inlayHint({ at, words, tip }: Hint, document: TextDocument): InlayHint {
  const hint = new InlayHint(document.positionAt(at), words);
  hint.paddingLeft = true;
  hint.tooltip = tip;
  return hint;
}

function cursorIn(document: TextDocument): Position | null {
  const editor = window.activeTextEditor;
  return editor?.document === document ? (editor.selection?.active ?? null) : null;
}

function slotsHint({ facts, specification }: CheckedText): readonly Hint[] {
  const slots = specification.machine?.slots;
  if (!facts || !slots) return [];
  const { slotsPerPolePerPhase } = facts.symmetry();
  return [
    {
      at: slots.statement.end,
      words: l10n.t('{0} a pole and phase', slotsPerPolePerPhase),
      tip: l10n.t('Slots per pole and phase'),
    },
  ];
}

function limitHints({ limits }: CheckedText): readonly Hint[] {
  return limits.map((limit) => ({ at: limit.range.end, words: limitWords(limit), tip: limitTip(limit) }));
}

function limitWords(limit: LimitResult): string {
  if (isUnderWay(limit)) return l10n.t('being computed …');
  if (limit.actual === null) return l10n.t('not computable');
  const value = `${limitValue(limit, limit.actual)}${countedIn(limit)}`;
  const share = marginShare(limit);
  const margin = share === null ? '' : ` · ${signedPercent(share)}`;
  return `${limit.met ? '✓' : '✗'} ${value}${margin}`;
}

function limitTip(limit: LimitResult): string {
  if (isUnderWay(limit)) return l10n.t('The paths are still being found, or the bars measured.');
  if (limit.actual === null) return l10n.t('It cannot be computed: {0}.', limit.reason ?? '');
  return l10n.t('The present value, and what is left to the limit as a share of it.');
}

/** The statement of the written path that the cursor stands in; null where there is none. */
export function pathAt({ specification }: CheckedText, offset: number): Range | null {
  return specification.connect?.paths.find(({ statement }) => holds(statement, offset))?.statement ?? null;
}

/** Where the path at the cursor has come to behind each group, and behind the last of some hops. */
function landingHints(study: CheckedText, cursor: number): readonly Hint[] {
  const statement = pathAt(study, cursor);
  const written = study.specification.connect?.paths.find((path) => path.statement === statement)?.value;
  const walked = connectionOf(study)?.written?.find(
    (path) => path.source === null && path.statement.start === statement?.start,
  );
  if (!written || !walked) return [];
  const hints: Hint[] = [];
  let passed = 0;
  for (const [index, item] of written.steps.entries()) {
    if (!isGroup(item) && item.kind === 'piece') continue;
    passed += barsOf([item]);
    if (!endsRun(written.steps, index)) continue;
    const bar = walked.path.bars[passed - 1];
    if (bar === undefined) continue;
    hints.push({
      at: item.range.end,
      words: `→ ${barName(bar)}`,
      tip: l10n.t('Bar {0} of {1} of this path', passed, walked.path.bars.length),
    });
  }
  return hints;
}

/** Whether a group ends here, or the last hop before a group, a position or the path's end. */
function endsRun(steps: Sequence<WalkStep>, index: number): boolean {
  const item = steps[index]!;
  if (isGroup(item)) return true;
  const next = steps.slice(index + 1).find((one) => isGroup(one) || one.kind !== 'piece');
  return item.kind === 'hop' && (next === undefined || isGroup(next) || next.kind !== 'hop');
}

/** Bars that a part of a path passes: all its steps but the marks of separate pieces. */
function barsOf(items: Sequence<WalkStep>): number {
  let pieces = 0;
  const count = (part: Sequence<WalkStep>, times: number) => {
    for (const item of part)
      if (isGroup(item)) count(item.items, times * item.times);
      else if (item.kind === 'piece') pieces += times;
  };
  count(items, 1);
  return sequenceLength(items) - pieces;
}
