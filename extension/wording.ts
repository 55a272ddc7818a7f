import { commands, type Disposable, l10n as editorWords, env, window, workspace } from 'vscode';
import type { Speech } from '../core/figures/speech.ts';
import type { Finding } from '../core/language/finding.ts';

/** A language that the extension speaks beside English. */
export interface Language {
  /** Sentences by their English wording; `{0}` stands for what is put in. */
  readonly words: Readonly<Record<string, string>>;
  /** What a finding says, from its kind and data. */
  readonly finding: (finding: Finding) => string;
  /** What findings of a code mean; undefined for one that there is none of. */
  readonly explanation: (code: string) => string | undefined;
  /** What a word of the language means, from its English meaning; undefined where there is none of it. */
  readonly meaning: (english: string) => string | undefined;
  /** What a value has to be, from its English words. */
  readonly expected: (english: string) => string;
  /** What a further place of a finding says, from its English words. */
  readonly related: (message: string) => string;
  /** The title of a correction, from its English one. */
  readonly fix: (title: string) => string;
  /** What pictures, key figures and tables are labeled in. */
  readonly speech: Speech;
}

/** A language of its own file, by its two letters. */
export type LanguageName = 'de';

// One for the whole extension, as the editor's own words are: what it is follows from editor and settings at the start.
const spoken: { name: LanguageName | 'en'; language: Language | null } = { name: 'en', language: null };

/** Lets the extension speak a language from now on; null: English. */
export function speak(name: LanguageName | 'en', language: Language | null): void {
  spoken.name = name;
  spoken.language = language;
}

/** The language spoken, and its name, for parts with words of their own. */
export function spokenNow(): readonly [LanguageName | 'en', Language | null] {
  return [spoken.name, spoken.language];
}

/** The language of the extension's words for a page's `lang`. */
export function pageLanguage(): string {
  return spoken.name;
}

/** Sentences in the reader's language, put together as by the editor's `l10n`, which has no words of ours. */
export const l10n = {
  /** The sentence with its arguments in place of `{0}`, `{1}` ... */
  t(message: string, ...args: (string | number | boolean)[]): string {
    const words = spoken.language?.words[message] ?? message;
    return words.replace(/\{(\d+)\}/g, (mark, index) => String(args[Number(index)] ?? mark));
  },
};

/** What a finding says, in the reader's language. */
export const findingWords = (finding: Finding): string =>
  spoken.language?.finding(finding) ?? finding.message;

/** What findings of a code mean, from its English words. */
export const explanationWords = (code: string, english: string): string =>
  spoken.language?.explanation(code) ?? english;

/** What a word of the language means, from its English meaning. */
export const meaningWords = (english: string): string => spoken.language?.meaning(english) ?? english;

/** What a value has to be, from its English words. */
export const expectedWords = (english: string): string => spoken.language?.expected(english) ?? english;

/** What a further place of a finding says. */
export const relatedWords = (message: string): string => spoken.language?.related(message) ?? message;

/** The title of a finding's correction. */
export const fixWords = (title: string): string => spoken.language?.fix(title) ?? title;

const setting = 'slotwright.language';

/** The language wanted: that of the settings, by default the editor's. */
function wantedLanguage(): LanguageName | 'en' {
  const [section, key] = setting.split('.') as [string, string];
  const given = workspace.getConfiguration(section).get<unknown>(key);
  const wanted = given === 'en' || given === 'de' ? given : env.language;
  return wanted.toLowerCase().split('-')[0] === 'de' ? 'de' : 'en';
}

/** Speaks the language wanted, English where its words cannot be read. */
export async function speakWanted(read: () => Promise<Language>): Promise<void> {
  const name = wantedLanguage();
  if (name === 'en') return speak('en', null);
  try {
    speak(name, await read());
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    window.showWarningMessage(
      editorWords.t(
        'The words of the language {0} could not be read, so English is spoken: {1}',
        name,
        reason,
      ),
    );
  }
}

/**
 * Begins anew when another language is wanted than is spoken: settings of a workspace may come after the start. Where
 * `again` cannot, because something is open that would be lost, the reader is offered to load the window anew.
 */
export function startLanguageChoice(again: () => boolean): Disposable {
  return workspace.onDidChangeConfiguration(async (event) => {
    if (!event.affectsConfiguration(setting) || wantedLanguage() === spoken.name) return;
    if (again()) return;
    const reload = l10n.t('Reload Window');
    const chosen = await window.showInformationMessage(
      l10n.t('The extension speaks the language chosen once the window is loaded anew.'),
      reload,
    );
    if (chosen === reload) await commands.executeCommand('workbench.action.reloadWindow');
  });
}
