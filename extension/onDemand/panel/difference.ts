import { type Disposable, type TextDocument, workspace } from 'vscode';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { liveDifference } from '../../../core/review/live.ts';
import type { Studies } from '../../engine/studies.ts';
import type { Baseline, ShownDifference } from '../../protocol/shownParts.ts';
import { fileName } from '../../windingDocument.ts';
import { l10n } from '../../wording.ts';
import { committedSide } from '../comparison/committedSide.ts';
import { findGit } from '../comparison/gitApi.ts';
import { engineSpeech } from '../engineSpeech.ts';

/** What a panel shows of the changes while its text is typed. */
export interface LiveChanges extends Disposable {
  /** Compares with another baseline from now on; `kept` keeps the text as it is now. */
  readonly against: (baseline: Baseline) => Promise<void>;
  /** The text has been checked again: what changed is told after that, in a turn of its own. */
  readonly follow: (study: CheckedText | null) => void;
  readonly shown: () => ShownDifference | null;
}

/** What is compared with, or why there is nothing. */
type Base =
  | { readonly kind: 'none'; readonly why: string }
  | { readonly kind: 'study'; readonly name: string; readonly of: () => CheckedText };

const mostRows = 24;
/** Bars and joints that are marked; where more have changed, all of the winding has. */
const mostMarked = 400;

/** Nothing is compared yet; `changed` is called when there is something else to show. */
export function createLiveChanges(
  document: () => TextDocument | undefined,
  studies: Studies,
  changed: () => void,
): LiveChanges {
  let baseline: Baseline = 'off';
  let base: Base = { kind: 'none', why: '' };
  let present: CheckedText | null = null;
  /** The text that the baseline is of. */
  let source = '';
  let view: ShownDifference | null = null;
  let asked = false;

  const tell = () => {
    asked = false;
    const next = baseline === 'off' ? null : viewOf(baseline, base, present);
    if (JSON.stringify(next) === JSON.stringify(view)) return;
    view = next;
    changed();
  };
  const soon = () => {
    if (asked) return;
    asked = true;
    setTimeout(tell, 0);
  };
  const choose = async (next: Baseline) => {
    const own = document();
    baseline = own === undefined ? 'off' : next;
    source = own?.uri.toString() ?? '';
    if (own === undefined || next === 'off') base = { kind: 'none', why: '' };
    else if (next === 'commit') {
      base = { kind: 'none', why: l10n.t('The last commit is being read …') };
      tell();
      const found = await committed(own, studies);
      // Another baseline may have been chosen meanwhile.
      if (baseline !== 'commit' || source !== own.uri.toString()) return;
      base = found;
    } else {
      const kept = studies.of(own);
      base = { kind: 'study', name: l10n.t('the state that was kept'), of: () => kept };
    }
    tell();
  };
  const ended = studies.onFound(() => {
    if (baseline !== 'off') soon();
  });
  return {
    against: choose,
    follow: (study) => {
      present = study;
      if (baseline === 'off') return;
      const now = document()?.uri.toString() ?? '';
      // A state that was kept is one of the text that was shown then; each text has a last commit of its own.
      if (now !== source) void choose(baseline === 'commit' ? 'commit' : 'off');
      else soon();
    },
    shown: () => view,
    dispose: ended,
  };
}

/** The text as its last commit has it. */
async function committed(own: TextDocument, studies: Studies): Promise<Base> {
  const { uri } = own;
  const none = (why: string): Base => ({ kind: 'none', why });
  const git = await findGit();
  if (git === null)
    return none(l10n.t('Git is not to be had in this editor: keep a state to compare with instead.'));
  const repository = git.getRepository(uri);
  if (repository === null)
    return none(
      l10n.t('{0} does not lie in a git repository: keep a state to compare with instead.', fileName(own)),
    );
  try {
    const side = await committedSide(git, repository, uri, 'HEAD');
    if (typeof side === 'string') return none(side);
    const document = await workspace.openTextDocument(side.uri);
    return { kind: 'study', name: side.name, of: () => studies.of(document) };
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return none(l10n.t('The last commit could not be read: {0}', reason));
  }
}

function viewOf(against: Baseline, base: Base, present: CheckedText | null): ShownDifference {
  const nothing = { against, rows: [], bars: [], joints: [] };
  if (base.kind === 'none') return { ...nothing, words: base.why };
  const old = base.of();
  if (present === null) return { ...nothing, words: '' };
  if (present.broken)
    return { ...nothing, words: l10n.t('The text has errors: what changed is told when they are mended.') };
  if (old.broken || old.winding === null)
    return { ...nothing, words: l10n.t('There are errors in {0}: it cannot be compared with.', base.name) };
  if (old.pending || present.pending)
    return { ...nothing, words: l10n.t('Paths are being found; what changed is told when they are there.') };
  const difference = liveDifference(old, present, engineSpeech());
  if (difference === null) return { ...nothing, words: '' };
  const { bars, joints, figures } = difference;
  const rows = figures.slice(0, mostRows).map(({ label, old: had, now }) => [label, had ?? '–', now ?? '–']);
  const all = bars.length + joints.added.length > mostMarked;
  const counts = [
    ...(bars.length > 0 ? [count(bars.length, l10n.t('1 bar'), (n) => l10n.t('{0} bars', n))] : []),
    ...(joints.added.length > 0
      ? [
          count(joints.added.length, l10n.t('1 joint or lead new'), (n) =>
            l10n.t('{0} joints or leads new', n),
          ),
        ]
      : []),
    ...(joints.removed.length > 0
      ? [count(joints.removed.length, l10n.t('1 gone'), (n) => l10n.t('{0} gone', n))]
      : []),
    ...(figures.length > 0
      ? [count(figures.length, l10n.t('1 key figure'), (n) => l10n.t('{0} key figures', n))]
      : []),
  ];
  const words =
    counts.length === 0
      ? l10n.t('Nothing in bars, joints and key figures is other than in {0}.', base.name)
      : l10n.t('Changed against {0}: {1}.', base.name, counts.join(', '));
  return {
    against,
    words: all ? `${words} ${l10n.t('So many are not marked one by one.')}` : words,
    rows,
    bars: all ? [] : bars.map(({ bar }) => bar),
    joints: all ? [] : joints.added.map(({ number }) => number),
  };
}

function count(number: number, one: string, many: (number: number) => string): string {
  return number === 1 ? one : many(number);
}
