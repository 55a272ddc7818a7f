import { posix } from 'node:path';

// The values of the editor's interface that the extension makes or reads, for tests without an editor.

type Listener<Event> = (event: Event) => void;

/** Calls its listeners with each event. */
export class Emitter<Event> {
  private readonly listeners = new Set<Listener<Event>>();
  readonly event = (listener: Listener<Event>) => {
    this.listeners.add(listener);
    return { dispose: () => this.listeners.delete(listener) };
  };
  fire(event: Event): void {
    for (const listener of [...this.listeners]) listener(event);
  }
}

export class Position {
  constructor(
    readonly line: number,
    readonly character: number,
  ) {}
}

export class Range {
  constructor(
    readonly start: Position,
    readonly end: Position,
  ) {}
  isEqual(other: Range): boolean {
    return comparePositions(this.start, other.start) === 0 && comparePositions(this.end, other.end) === 0;
  }
  intersection(other: Range): Range | undefined {
    const start = comparePositions(this.start, other.start) > 0 ? this.start : other.start;
    const end = comparePositions(this.end, other.end) < 0 ? this.end : other.end;
    return comparePositions(start, end) > 0 ? undefined : new Range(start, end);
  }
}

function comparePositions(a: Position, b: Position): number {
  return a.line - b.line || a.character - b.character;
}

export class Location {
  constructor(
    readonly uri: Uri,
    readonly range: Range,
  ) {}
}

export class DiagnosticRelatedInformation {
  constructor(
    readonly location: Location,
    readonly message: string,
  ) {}
}

export class Diagnostic {
  source?: string;
  code?: string | { readonly value: string; readonly target: Uri };
  relatedInformation?: DiagnosticRelatedInformation[];
  constructor(
    readonly range: Range,
    readonly message: string,
    readonly severity: number,
  ) {}
}

/** The code of a finding that a diagnostic shows. */
export function codeOf({ code }: Diagnostic): string {
  return typeof code === 'object' ? code.value : (code ?? '');
}

export const CodeActionKind = { QuickFix: 'quickfix', RefactorRewrite: 'refactor.rewrite' };

interface Command {
  readonly command: string;
  readonly title: string;
  readonly arguments?: readonly unknown[];
}

export class CodeAction {
  edit?: WorkspaceEdit;
  command?: Command;
  diagnostics?: readonly Diagnostic[];
  isPreferred?: boolean;
  constructor(
    readonly title: string,
    readonly kind: string,
  ) {}
}

/** Replacements of one document; `applyEdit` makes them, snippets as text with `¦` at their first tab stop. */
export class WorkspaceEdit {
  set(uri: Uri, edits: readonly SnippetTextEdit[]): void {
    for (const { range, snippet } of edits)
      this.replacements.push({
        uri,
        range,
        text: snippet.value
          .replace(/\$\{\d+:([^}]*)\}/g, '$1')
          .replace('$1', '¦')
          .replace(/\$\d|\\(?=[$}\\])/g, ''),
      });
  }
  readonly replacements: { readonly uri: Uri; readonly range: Range; readonly text: string }[] = [];
  replace(uri: Uri, range: Range, text: string): void {
    this.replacements.push({ uri, range, text });
  }
}

export const CompletionItemKind = {
  Module: 8,
  Property: 9,
  Unit: 10,
  Value: 11,
  Keyword: 13,
  EnumMember: 19,
};
export const SymbolKind = { File: 0, Namespace: 2, Property: 6 };

export class CompletionItem {
  range?: Range;
  insertText?: unknown;
  command?: { readonly command: string };
  detail?: string;
  documentation?: { readonly value: string };
  constructor(
    readonly label: string,
    readonly kind: number,
  ) {}
}

export class MarkdownString {
  isTrusted: unknown;
  constructor(readonly value: string) {}
}

/** An event of the extension's own. */
export class EventEmitter<Event> extends Emitter<Event> {
  dispose(): void {}
}

export class SemanticTokensLegend {
  constructor(
    readonly tokenTypes: readonly string[],
    readonly tokenModifiers: readonly string[] = [],
  ) {}
}

/** Keeps tokens as they are pushed: line, character, length, type, modifiers. */
export class SemanticTokensBuilder {
  private readonly tokens: (readonly number[])[] = [];
  push(...token: readonly number[]): void {
    this.tokens.push(token);
  }
  build(): { readonly tokens: readonly (readonly number[])[] } {
    return { tokens: this.tokens };
  }
}

export class InlayHint {
  paddingLeft?: boolean;
  tooltip?: string;
  constructor(
    readonly position: Position,
    readonly label: string,
  ) {}
}

export class CodeLens {
  command?: { readonly title: string; readonly command: string; readonly arguments?: readonly unknown[] };
  constructor(readonly range: Range) {}
}

export const DocumentHighlightKind = { Text: 0, Read: 1, Write: 2 };

export class DocumentHighlight {
  constructor(
    readonly range: Range,
    readonly kind: number,
  ) {}
}

export class SelectionRange {
  constructor(
    readonly range: Range,
    readonly parent?: SelectionRange,
  ) {}
}

export class ParameterInformation {
  constructor(
    readonly label: string,
    readonly documentation: string,
  ) {}
}

export class SignatureInformation {
  documentation?: MarkdownString;
  parameters: readonly ParameterInformation[] = [];
  constructor(readonly label: string) {}
}

export class SignatureHelp {
  signatures: readonly SignatureInformation[] = [];
  activeSignature = 0;
  activeParameter = 0;
}

/** The token of a request that nobody gives up. */
export const uncanceled = { isCancellationRequested: false };

export class SnippetString {
  constructor(public value = '') {}
  appendText(text: string): this {
    this.value += text.replace(/[$}\\]/g, '\\$&');
    return this;
  }
  appendTabstop(number: number): this {
    this.value += `$${number}`;
    return this;
  }
}

export class SnippetTextEdit {
  private constructor(
    readonly range: Range,
    readonly snippet: SnippetString,
  ) {}
  static replace(range: Range, snippet: SnippetString): SnippetTextEdit {
    return new SnippetTextEdit(range, snippet);
  }
}

export class Hover {
  constructor(
    readonly contents: MarkdownString,
    readonly range: Range,
  ) {}
}

export class DocumentSymbol {
  children: DocumentSymbol[] = [];
  constructor(
    readonly name: string,
    readonly detail: string,
    readonly kind: number,
    readonly range: Range,
    readonly selectionRange: Range,
  ) {}
}

export class FoldingRange {
  constructor(
    readonly start: number,
    readonly end: number,
  ) {}
}

export class CancellationError extends Error {}
export const FileType = { Unknown: 0, File: 1, Directory: 2, SymbolicLink: 64 };
export const FilePermission = { Readonly: 1 };

export class FileSystemError extends Error {
  constructor(
    readonly code: string,
    about: string,
  ) {
    super(`${code}: ${about}`);
  }
}

export const ProgressLocation = { Notification: 15 };

export class TabInputTextDiff {
  constructor(
    readonly original: Uri,
    readonly modified: Uri,
  ) {}
}

export class TabInputText {
  constructor(readonly uri: Uri) {}
}

export class TabInputWebview {
  constructor(readonly viewType: string) {}
}

export const DiagnosticSeverity = { Error: 0, Warning: 1, Information: 2, Hint: 3 };
export const EndOfLine = { LF: 1, CRLF: 2 };
export const TextEditorRevealType = { InCenterIfOutsideViewport: 2 };
export const ViewColumn = { Active: -1, Beside: -2, One: 1 };
export const UIKind = { Desktop: 1, Web: 2 };
export class Uri {
  private constructor(
    readonly scheme: string,
    readonly path: string,
    readonly query = '',
  ) {}
  static parse(text: string): Uri {
    const [, scheme = '', path = '', query = ''] = /^([a-z-]+):([^?]*)\??(.*)$/.exec(text) ?? [];
    return new Uri(scheme, path, query);
  }
  static joinPath(base: Uri, ...parts: string[]): Uri {
    return new Uri(base.scheme, posix.join(base.path, ...parts));
  }
  with({ scheme }: { readonly scheme: string }): Uri {
    return new Uri(scheme, this.path, this.query);
  }
  get fsPath(): string {
    return this.path;
  }
  toString(): string {
    return `${this.scheme}:${this.path}${this.query === '' ? '' : `?${this.query}`}`;
  }
}

export class TextEdit {
  constructor(
    readonly range: Range,
    readonly newText: string,
  ) {}
  static replace(range: Range, text: string): TextEdit {
    return new TextEdit(range, text);
  }
}

export const StatusBarAlignment = { Left: 1, Right: 2 };

export class ThemeColor {
  constructor(readonly id: string) {}
}
