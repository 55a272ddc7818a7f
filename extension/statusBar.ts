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
  const refresh = () => {
    const document = window.activeTextEditor?.document;
    const study = document && isWinding(document) ? engine.now()?.studies.of(document) : null;
    const found = study?.facts?.connection;
    const next = found?.kind === 'connected' && found.facts.written === null;
    if (next !== pathsFound) void commands.executeCommand('setContext', pathsFoundKey, next);
    pathsFound = next;
    if (!document || !study) return item.hide();
    const { text, tooltip, fails } = verdictWords(study);
    item.text = text;
    item.tooltip = `${fileName(document)}: ${tooltip}`;
    item.backgroundColor = fails ? new ThemeColor('statusBarItem.errorBackground') : undefined;
    item.show();
  };
  soon(refresh);
  return [
    item,
    window.onDidChangeActiveTextEditor(refresh),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (document === window.activeTextEditor?.document) refresh();
    }),
    engine.onBegun(refresh),
    engine.onFound((document) => {
      if (document === window.activeTextEditor?.document) refresh();
    }),
  ];
}

/** The verdict in a few words, and in a sentence. */
function verdictWords({ findings, limits, pending, measuring, facts }: CheckedText): {
  readonly text: string;
  readonly tooltip: string;
  readonly fails: boolean;
} {
  const count = (wanted: string) => findings.filter(({ severity }) => severity === wanted).length;
  const [errors, warnings] = [count('error'), count('warning')];
  const met = limits.filter((limit) => limit.met === true).length;
  const held =
    limits.length === 0 ? l10n.t('no limits are set') : l10n.t('{0} of {1} limits hold', met, limits.length);
  const counted = l10n.t('errors: {0}, warnings: {1}', errors, warnings);
  const busy = pending || measuring ? [l10n.t('more is being computed')] : [];
  const tooltip = [counted, held, ...busy].join('; ');
  const words = (icon: string, told: string) => ({
    text: `$(${icon}) ${told}`,
    tooltip,
    fails: errors > 0,
  });
  if (errors === 1) return words('error', l10n.t('Winding: 1 error'));
  if (errors > 1) return words('error', l10n.t('Winding: {0} errors', errors));
  if (pending) return words('ellipsis', l10n.t('Winding: finding paths'));
  if (!facts) return words('circle-slash', l10n.t('No winding yet'));
  if (warnings === 1) return words('warning', l10n.t('Winding: 1 warning'));
  if (warnings > 1) return words('warning', l10n.t('Winding: {0} warnings', warnings));
  return words(
    'check',
    limits.length === 0 ? l10n.t('Winding: no errors') : l10n.t('Winding: all limits hold'),
  );
}
