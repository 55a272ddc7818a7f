/**
 * As much of the editor's interface as the extension uses, for tests without an editor. What the extension
 * registers is noted in `editorState`, and the tests raise events by its functions.
 */
type Listener<Event> = (event: Event) => void;

class Emitter<Event> {
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
  code?: string;
  relatedInformation?: DiagnosticRelatedInformation[];
  constructor(
    readonly range: Range,
    readonly message: string,
    readonly severity: number,
  ) {}
}

export const CodeActionKind = { QuickFix: 'quickfix', RefactorRewrite: 'refactor.rewrite' };

export class CodeAction {
  edit?: WorkspaceEdit;
  diagnostics?: readonly Diagnostic[];
  isPreferred?: boolean;
  constructor(
    readonly title: string,
    readonly kind: string,
  ) {}
}

/** Replacements of one document; `applyEdit` makes them. */
export class WorkspaceEdit {
  readonly replacements: { readonly uri: Uri; readonly range: Range; readonly text: string }[] = [];
  replace(uri: Uri, range: Range, text: string): void {
    this.replacements.push({ uri, range, text });
  }
}

export const DiagnosticSeverity = { Error: 0, Warning: 1, Information: 2, Hint: 3 };
export const EndOfLine = { LF: 1, CRLF: 2 };
export const ViewColumn = { Active: -1, Beside: -2, One: 1 };
export const env = { language: 'en' };
export const l10n = {
  t: (text: string, ...values: unknown[]) =>
    text.replace(/\{(\d)\}/g, (_, index) => String(values[Number(index)])),
};

export class Uri {
  private constructor(
    readonly scheme: string,
    readonly path: string,
  ) {}
  static parse(text: string): Uri {
    const [, scheme = '', path = ''] = /^([a-z-]+):(.*)$/.exec(text) ?? [];
    return new Uri(scheme, path);
  }
  static joinPath(base: Uri, ...parts: string[]): Uri {
    return new Uri(base.scheme, [base.path, ...parts].join('/'));
  }
  toString(): string {
    return `${this.scheme}:${this.path}`;
  }
}

/** A document in memory; `edit` replaces its text and tells the extension. */
export class StubDocument {
  version = 1;
  languageId = 'winding';
  eol = EndOfLine.LF;
  constructor(
    readonly uri: Uri,
    private text: string,
  ) {}
  getText = (): string => this.text;
  positionAt = (offset: number): Position => {
    const lines = this.text.slice(0, offset).split('\n');
    return new Position(lines.length - 1, lines.at(-1)?.length ?? 0);
  };
  offsetAt = ({ line, character }: Position): number =>
    this.text
      .split('\n')
      .slice(0, line)
      .reduce((sum, content) => sum + content.length + 1, character);
  edit(text: string): void {
    this.text = text;
    this.version++;
    events.changed.fire({ document: this });
  }
}

/** A panel that notes what it was sent. */
export class StubPanel {
  title = '';
  iconPath: unknown;
  readonly sent: unknown[] = [];
  reveals = 0;
  private readonly closed = new Emitter<void>();
  private readonly received = new Emitter<unknown>();
  readonly webview = {
    html: '',
    options: {} as unknown,
    asWebviewUri: (uri: Uri) => uri,
    postMessage: (message: unknown) => this.sent.push(structuredClone(message)),
    onDidReceiveMessage: this.received.event,
  };
  readonly onDidDispose = this.closed.event;
  reveal(): void {
    this.reveals++;
  }
  dispose(): void {
    this.closed.fire();
  }
  /** As if the page had sent this. */
  say(message: unknown): void {
    this.received.fire(message);
  }
}

interface Serializer {
  readonly deserializeWebviewPanel: (panel: StubPanel, state: unknown) => Promise<void>;
}

type TextEdits = readonly { readonly range: Range; readonly newText: string }[];

interface ActionProvider {
  readonly provideCodeActions: (
    document: StubDocument,
    range: Range,
    context: { readonly diagnostics: readonly Diagnostic[] },
  ) => readonly CodeAction[];
}

interface EditorState {
  documents: StubDocument[];
  active: { readonly document: StubDocument } | undefined;
  readonly diagnostics: Map<string, readonly Diagnostic[]>;
  readonly commands: Map<string, (...args: unknown[]) => unknown>;
  readonly serializers: Map<string, Serializer>;
  readonly formatters: { readonly provideDocumentFormattingEdits: (document: StubDocument) => TextEdits }[];
  readonly actions: ActionProvider[];
  readonly panels: StubPanel[];
  readonly information: string[];
  readonly shown: { readonly document: StubDocument; readonly options: unknown }[];
}

export const editorState: EditorState = {
  documents: [],
  active: undefined,
  diagnostics: new Map(),
  commands: new Map(),
  serializers: new Map(),
  formatters: [],
  actions: [],
  panels: [],
  information: [],
  shown: [],
};

export const events = {
  opened: new Emitter<StubDocument>(),
  changed: new Emitter<{ readonly document: StubDocument }>(),
  closed: new Emitter<StubDocument>(),
  activated: new Emitter<{ readonly document: StubDocument } | undefined>(),
};

/** Opens a winding text, as the active editor. */
export function openStubDocument(name: string, text: string): StubDocument {
  const document = new StubDocument(Uri.parse(`memory:/${name}`), text);
  editorState.documents.push(document);
  events.opened.fire(document);
  editorState.active = { document };
  events.activated.fire(editorState.active);
  return document;
}

/** Forgets everything, as a new window would. */
export function resetStub(): void {
  editorState.documents = [];
  editorState.active = undefined;
  for (const map of [editorState.diagnostics, editorState.commands, editorState.serializers]) map.clear();
  const { formatters, actions, panels, information, shown } = editorState;
  for (const list of [formatters, actions, panels, information, shown]) list.length = 0;
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

const nothing = { dispose: () => undefined };

export const languages = {
  createDiagnosticCollection: () => ({
    set: (uri: Uri, list: readonly Diagnostic[]) => editorState.diagnostics.set(uri.toString(), list),
    delete: (uri: Uri) => editorState.diagnostics.delete(uri.toString()),
    dispose: () => editorState.diagnostics.clear(),
  }),
  registerCodeActionsProvider: (_: unknown, provider: ActionProvider) => {
    editorState.actions.push(provider);
    return nothing;
  },
  registerDocumentFormattingEditProvider: (_: unknown, provider: EditorState['formatters'][number]) => {
    editorState.formatters.push(provider);
    return nothing;
  },
};

export const workspace = {
  get textDocuments() {
    return editorState.documents;
  },
  onDidOpenTextDocument: events.opened.event,
  onDidChangeTextDocument: events.changed.event,
  onDidCloseTextDocument: events.closed.event,
  applyEdit: async (edit: WorkspaceEdit) => {
    for (const { uri, range, text } of edit.replacements) {
      const document = editorState.documents.find((open) => open.uri.toString() === uri.toString())!;
      const before = document.getText();
      const [start, end] = [document.offsetAt(range.start), document.offsetAt(range.end)];
      document.edit(before.slice(0, start) + text + before.slice(end));
    }
    return true;
  },
  openTextDocument: async (uri: Uri) => {
    const document = editorState.documents.find((open) => open.uri.toString() === uri.toString());
    if (document === undefined) throw new Error(`No file ${uri}`);
    return document;
  },
};

export const commands = {
  registerCommand: (name: string, run: (...args: unknown[]) => unknown) => {
    editorState.commands.set(name, run);
    return nothing;
  },
};

export const window = {
  get activeTextEditor() {
    return editorState.active;
  },
  visibleTextEditors: [],
  onDidChangeActiveTextEditor: events.activated.event,
  createWebviewPanel: () => {
    const panel = new StubPanel();
    editorState.panels.push(panel);
    return panel;
  },
  registerWebviewPanelSerializer: (type: string, serializer: Serializer) => {
    editorState.serializers.set(type, serializer);
    return nothing;
  },
  showInformationMessage: (text: string) => editorState.information.push(text),
  showTextDocument: async (document: StubDocument, options: unknown) => {
    editorState.shown.push({ document, options });
  },
};
