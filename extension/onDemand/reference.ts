import { commands, Uri, window, workspace } from 'vscode';
import { findingKinds, helpOf } from '../../core/findings/registry.ts';
import { languageReference } from '../../core/language/vocabulary/reference.ts';
import { referenceScheme } from '../findingCode.ts';
import { explanationWords, l10n } from '../wording.ts';
import { severityWords } from './tables.ts';

/** What a page of the reference is about: the whole language, one block of it, or a kind of finding. */
export type ReferenceSubject =
  | { readonly kind: 'language' }
  | { readonly kind: 'block'; readonly name: string }
  | { readonly kind: 'finding'; readonly code: string };

/** The address of a page; its path tells its subject and ends as Markdown does. */
function referenceUri(subject: ReferenceSubject): Uri {
  const name =
    subject.kind === 'language' ? 'language' : subject.kind === 'block' ? subject.name : subject.code;
  return Uri.parse(`${referenceScheme}:/${subject.kind}/${name}.md`);
}

/** The text of the page at an address; of the whole language where it is of nothing known. */
export function referencePage(path: string): string {
  const [, kind = '', name = ''] = /^\/(\w+)\/([\w-]+)\.md$/.exec(path) ?? [];
  if (kind === 'finding') return findingPage(name);
  const whole = languageReference();
  const section = whole.split(/\n(?=## )/).find((part) => part.startsWith(`## ${name}\n`));
  return kind === 'block' && section ? `${section.replace('## ', '# ')}\n` : whole;
}

/** What findings of a code mean, in the reader's language; empty for a code that there is none of. */
export const meaningOf = (code: string): string => explanationWords(code, helpOf(code));

function findingPage(code: string): string {
  const kind = findingKinds.find((one) => one.code === code);
  if (!kind) return `# ${code}\n`;
  const severities = [kind.severity, ...(kind.graded ?? [])];
  const accepting = severities.includes('warning')
    ? `\n${l10n.t('A warning that was looked at and does no harm is accepted in the text, with the reason:')}\n\n\`\`\`winding\nrequire {\n  accept ${code} "..."\n}\n\`\`\`\n`
    : '';
  return `# ${code}\n\n${severities.map(severityWords).join(', ')}\n\n${meaningOf(code)}\n${accepting}`;
}

/** Opens a page: formatted where the editor can, else as its text. */
export async function openReference(subject: unknown): Promise<void> {
  const uri = referenceUri(readSubject(subject));
  try {
    // Beside the text, where that would not part the window in three.
    const beside = window.tabGroups.all.length > 1 ? '' : 'ToSide';
    await commands.executeCommand(`markdown.showPreview${beside}`, uri);
  } catch {
    await window.showTextDocument(await workspace.openTextDocument(uri), { preview: true });
  }
}

/** The subject that a link or the palette gives; the whole language where it gives none. */
function readSubject(value: unknown): ReferenceSubject {
  const { block, code } = (typeof value === 'object' && value !== null ? value : {}) as Readonly<
    Record<string, unknown>
  >;
  if (typeof code === 'string' && /^[a-z-]+$/.test(code)) return { kind: 'finding', code };
  if (typeof block === 'string' && /^[a-z]+$/.test(block)) return { kind: 'block', name: block };
  return { kind: 'language' };
}
