import { commands, type Disposable, StatusBarAlignment, ThemeColor, window, workspace } from 'vscode';
import type { CheckedText } from '../core/findings/checkedText.ts';
import type { EngineAtHand } from './engineAtHand.ts';
import { fileName, isWinding } from './windingDocument.ts';
import { l10n } from './wording.ts';

/** Whether the active text has found paths that can be written out, for the commands that the editor offers. */
const pathsFoundKey = 'slotwright.pathsFound';

/** Shows the verdict on the active winding in the status bar; a click shows its layout. */
export function startStatusBar(engine: EngineAtHand, soon: (work: () => void) => void): Disposable[] {
  const item = window.createStatusBarItem('slotwright.verdict', StatusBarAlignment.Right, 90);
  item.name = l10n.t('Winding');
  item.command = 'slotwright.showLayoutPanel';
  let pathsFound = false;
  /** All that the words follow from, as one text; empty while nothing is shown. */
  let told = '';
  const refresh = (document = window.activeTextEditor?.document) => {
    const study = document && isWinding(document) ? engine.now()?.studies.of(document) : null;
    const found = study?.facts?.connection;
    const unwritten = found?.kind === 'connected' && found.facts.written === null;
    if (unwritten !== pathsFound) void commands.executeCommand('setContext', pathsFoundKey, unwritten);
    pathsFound = unwritten;
    if (!document || !study) {
      told = '';
      return item.hide();
    }
    const verdict = verdictOf(study);
    const file = fileName(document);
    const next = [...Object.values(verdict), file].join();
    // Most keys change nothing of it.
    if (next === told) return;
    told = next;
    const { text, tooltip, fails } = verdictWords(verdict);
    item.text = text;
    item.tooltip = `${file}: ${tooltip}`;
    item.backgroundColor = fails ? new ThemeColor('statusBarItem.errorBackground') : undefined;
    item.show();
  };
  soon(refresh);
  return [
    item,
    window.onDidChangeActiveTextEditor(() => refresh()),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (document === window.activeTextEditor?.document) refresh(document);
    }),
    engine.onBegun(() => refresh()),
    engine.onFound((document) => {
      if (document === window.activeTextEditor?.document) refresh(document);
    }),
  ];
}

/** What the verdict on a text follows from. */
interface Verdict {
  readonly errors: number;
  readonly warnings: number;
  readonly limits: number;
  /** Limits that hold. */
  readonly met: number;
  readonly pending: boolean;
  readonly busy: boolean;
  /** There is a winding. */
  readonly drawn: boolean;
}

function verdictOf({ findings, limits, pending, measuring, facts }: CheckedText): Verdict {
  const count = (wanted: string) => findings.filter(({ severity }) => severity === wanted).length;
  return {
    errors: count('error'),
    warnings: count('warning'),
    limits: limits.length,
    met: limits.filter((limit) => limit.met === true).length,
    pending,
    busy: pending || measuring,
    drawn: facts !== null,
  };
}

/** The verdict in a few words, and in a sentence. */
function verdictWords({ errors, warnings, limits, met, pending, busy, drawn }: Verdict): {
  readonly text: string;
  readonly tooltip: string;
  readonly fails: boolean;
} {
  const held =
    limits === 0 ? l10n.t('no limits are set') : l10n.t('limits that hold: {0} of {1}', met, limits);
  const counted = l10n.t('errors: {0}, warnings: {1}', errors, warnings);
  const tooltip = [counted, held, ...(busy ? [l10n.t('more is being computed')] : [])].join('; ');
  const words = (icon: string, told: string) => ({
    text: `$(${icon}) ${told}`,
    tooltip,
    fails: errors > 0,
  });
  if (errors === 1) return words('error', l10n.t('Winding: 1 error'));
  if (errors > 1) return words('error', l10n.t('Winding: {0} errors', errors));
  if (pending) return words('ellipsis', l10n.t('Winding: finding paths'));
  if (!drawn) return words('circle-slash', l10n.t('No winding yet'));
  if (warnings === 1) return words('warning', l10n.t('Winding: 1 warning'));
  if (warnings > 1) return words('warning', l10n.t('Winding: {0} warnings', warnings));
  return words('check', limits === 0 ? l10n.t('Winding: no errors') : l10n.t('Winding: all limits hold'));
}
