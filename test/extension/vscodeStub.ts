import {
  type CodeAction,
  type CompletionItem,
  type Diagnostic,
  type DocumentSymbol,
  Emitter,
  EndOfLine,
  FileSystemError,
  FileType,
  type FoldingRange,
  type Hover,
  Position,
  Range,
  UIKind,
  Uri,
  ViewColumn,
  type WorkspaceEdit,
} from './vscodeValues.ts';
import { fromWire, takeAway, toWire } from './wire.ts';

// As much of the editor's interface as the extension uses, for tests without an editor. What the extension registers
// is noted in `editorState`, and the tests raise events by its functions.

export * from './vscodeValues.ts';

export const env: {
  readonly language: string;
  uiKind: number;
  readonly remoteName: string | undefined;
  readonly openExternal: (uri: Uri) => Promise<boolean>;
  readonly clipboard: { readonly writeText: (text: string) => Promise<void> };
} = {
  language: 'en',
  uiKind: UIKind.Web,
  remoteName: undefined,
  openExternal: async (uri) => {
    editorState.executed.push(['outside', uri]);
    return editorState.opensOutside;
  },
  clipboard: {
    writeText: async (text: string) => {
      clipboard.text = text;
    },
  },
};
export const l10n = {
  t: (text: string, ...values: unknown[]) =>
    text.replace(/\{(\d)\}/g, (_, index) => String(values[Number(index)])),
};

/** A stretch of a text, and what was put in its place. */
interface ContentChange {
  readonly range: Range;
  readonly text: string;
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
    const contentChanges = this.changesTo(text);
    this.text = text;
    this.version++;
    events.changed.fire({ document: this, contentChanges });
  }
  /** One change, as short as it can be; it replaces a stretch of the text before. */
  private changesTo(text: string): readonly ContentChange[] {
    if (text === this.text) return [];
    const shorter = Math.min(text.length, this.text.length);
    let start = 0;
    while (start < shorter && text[start] === this.text[start]) start++;
    let kept = 0;
    while (kept < shorter - start && text.at(-1 - kept) === this.text.at(-1 - kept)) kept++;
    const range = new Range(this.positionAt(start), this.positionAt(this.text.length - kept));
    return [{ range, text: text.slice(start, text.length - kept) }];
  }
}

/** An editor with a selection. */
export interface StubEditor {
  readonly document: StubDocument;
  readonly selection: { readonly start: Position; readonly end: Position; readonly active: Position };
}

/** Selects a stretch of a document, as if by its reader; offsets, end exclusive. */
export function selectText(document: StubDocument, start: number, end = start): void {
  const [first, last] = [document.positionAt(start), document.positionAt(end)];
  if (editorState.active?.document === document)
    editorState.active = { document, selection: { start: first, end: last, active: last } };
  events.selected.fire({ textEditor: { document, selection: { start: first, end: last, active: last } } });
}

/** A panel that notes what it was sent. */
export class StubPanel {
  title = '';
  iconPath: unknown;
  readonly sent: unknown[] = [];
  reveals = 0;
  private readonly closed = new Emitter<void>();
  private readonly received = new Emitter<unknown>();
  private readonly turned = new Emitter<void>();
  /** What was posted to the page, as JSON. */
  readonly posted = new Emitter<string>();
  visible = true;
  active = false;
  viewColumn: number | undefined = ViewColumn.Beside;
  readonly onDidChangeViewState = this.turned.event;
  readonly webview = {
    html: '',
    options: {} as unknown,
    asWebviewUri: (uri: Uri) => uri,
    // As the editor does it: messages travel as JSON, lists of numbers as bytes that are taken away from here.
    postMessage: (message: unknown) => {
      const json = toWire(message);
      takeAway(message);
      this.sent.push(fromWire(json));
      this.posted.fire(json);
    },
    onDidReceiveMessage: this.received.event,
  };
  readonly onDidDispose = this.closed.event;
  reveal(_?: unknown, preserveFocus = false): void {
    this.reveals++;
    if (!preserveFocus) this.focus(true);
  }
  dispose(): void {
    this.closed.fire();
  }
  /** Gives the focus to the panel, or takes it away. */
  focus(active: boolean): void {
    this.active = active;
    this.turned.fire();
  }
  /** Hides the panel, or shows it again. */
  turn(visible: boolean): void {
    this.visible = visible;
    this.turned.fire();
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
    token: unknown,
  ) => readonly CodeAction[] | Promise<readonly CodeAction[]>;
}

interface CompletionProvider {
  readonly provideCompletionItems: (
    document: StubDocument,
    at: Position,
    token: unknown,
    context: { readonly triggerCharacter?: string },
  ) => Promise<readonly CompletionItem[]>;
}

interface EditorState {
  documents: StubDocument[];
  active: { readonly document: StubDocument; readonly selection?: StubEditor['selection'] } | undefined;
  visible: readonly { readonly document: StubDocument; readonly viewColumn?: number }[];
  /** Stretches of the active text that were brought into sight. */
  readonly revealed: Range[];
  readonly diagnostics: Map<string, readonly Diagnostic[]>;
  readonly commands: Map<string, (...args: unknown[]) => unknown>;
  readonly serializers: Map<string, Serializer>;
  readonly formatters: { readonly provideDocumentFormattingEdits: (document: StubDocument) => TextEdits }[];
  readonly actions: ActionProvider[];
  readonly providers: {
    completion?: CompletionProvider;
    hover?: {
      readonly provideHover: (document: StubDocument, at: Position, token: unknown) => Promise<Hover | null>;
    };
    symbols?: { readonly provideDocumentSymbols: (document: StubDocument) => readonly DocumentSymbol[] };
    folding?: { readonly provideFoldingRanges: (document: StubDocument) => readonly FoldingRange[] };
  };
  /** Other providers by what they provide: `Definition`, `InlayHints`. */
  // biome-ignore lint/suspicious/noExplicitAny: tests know what their provider gives
  readonly provided: Map<string, any>;
  /** Settings of the extension. */
  readonly settings: Map<string, unknown>;
  /** The item of the status bar. */
  status: { text: string; tooltip: string; shown: boolean };
  /** Lines of the extension's output. */
  readonly log: string[];
  readonly panels: StubPanel[];
  readonly information: string[];
  readonly errors: string[];
  readonly shown: { readonly document: StubDocument; readonly options: unknown }[];
  /** Answers to the questions to come, first to last; a function is asked with what is offered, and how. */
  readonly answers: unknown[];
  /** Files by address; what the extension writes stands here. */
  readonly files: Map<string, Uint8Array>;
  /** Addresses of folders made by the extension, and of files that are links. */
  readonly folders: Set<string>;
  readonly links: Set<string>;
  /** Throws where a call to the file system is to fail. */
  failing: (
    call: 'stat' | 'readDirectory' | 'createDirectory' | 'writeFile' | 'rename' | 'delete',
    uri: Uri,
  ) => void;
  /** Commands of the editor that were run. */
  readonly executed: (readonly unknown[])[];
  /** Other extensions by name. */
  readonly extensions: Map<string, { readonly activate: () => Promise<unknown> }>;
  activeTab: unknown;
  /** Address of the workspace's folder. */
  folder: string | null;
  /** Addresses of the folders that are open; undefined: none is. */
  workspaceFolders: readonly string[] | undefined;
  /** Whether the system has a program for what is opened outside. */
  opensOutside: boolean;
  /** Buttons of the last message. */
  choices: readonly string[];
  groups: readonly (readonly unknown[])[];
  /** Messages of a progress; where it returns true, the reader presses Cancel. */
  progress: (message: string) => boolean;
  /** A progress is shown at present; `cancel` presses its button. */
  working: boolean;
  cancel: () => void;
}

export const editorState: EditorState = {
  documents: [],
  active: undefined,
  visible: [],
  revealed: [],
  diagnostics: new Map(),
  commands: new Map(),
  serializers: new Map(),
  formatters: [],
  actions: [],
  providers: {},
  provided: new Map(),
  settings: new Map(),
  status: { text: '', tooltip: '', shown: false },
  log: [],
  panels: [],
  information: [],
  errors: [],
  shown: [],
  answers: [],
  files: new Map(),
  folders: new Set(),
  links: new Set(),
  failing: () => undefined,
  executed: [],
  extensions: new Map(),
  activeTab: undefined,
  folder: null,
  workspaceFolders: undefined,
  opensOutside: true,
  choices: [],
  groups: [],
  progress: () => false,
  working: false,
  cancel: () => undefined,
};

/** What the editor was asked to put into the clipboard last. */
export const clipboard = { text: '' };

export const events = {
  opened: new Emitter<StubDocument>(),
  changed: new Emitter<{
    readonly document: StubDocument;
    readonly contentChanges: readonly ContentChange[];
  }>(),
  closed: new Emitter<StubDocument>(),
  renamed: new Emitter<{ readonly files: readonly { readonly oldUri: Uri; readonly newUri: Uri }[] }>(),
  activated: new Emitter<{ readonly document: StubDocument } | undefined>(),
  selected: new Emitter<{ readonly textEditor: StubEditor }>(),
  fileCreated: new Emitter<Uri>(),
  fileChanged: new Emitter<Uri>(),
  fileDeleted: new Emitter<Uri>(),
  filesDeleted: new Emitter<unknown>(),
  foldersChanged: new Emitter<unknown>(),
  tabsChanged: new Emitter<unknown>(),
  configured: new Emitter<{ readonly affectsConfiguration: (section: string) => boolean }>(),
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
  editorState.visible = [];
  editorState.revealed.length = 0;
  editorState.activeTab = undefined;
  editorState.groups = [];
  editorState.folder = null;
  editorState.workspaceFolders = undefined;
  editorState.opensOutside = true;
  env.uiKind = UIKind.Web;
  editorState.progress = () => false;
  editorState.failing = () => undefined;
  const {
    diagnostics,
    commands: known,
    serializers,
    files,
    folders,
    links,
    extensions: others,
  } = editorState;
  const { provided, settings } = editorState;
  for (const map of [diagnostics, known, serializers, files, folders, links, others, provided, settings])
    map.clear();
  const { formatters, actions, panels, information, errors, shown, answers, executed, log } = editorState;
  for (const list of [formatters, actions, panels, information, errors, shown, answers, executed, log])
    list.length = 0;
}

/** The options of a prompt, which has a title: above the list it says what is asked for, and names it to a screen reader. */
function titled(options: unknown): unknown {
  const { title } = (options ?? {}) as { readonly title?: unknown };
  if (typeof title !== 'string' || title === '') throw new Error('A prompt has no title');
  return options;
}

/** The next answer that was prepared; undefined, as after Escape, where there is none. */
function answer(offered: unknown, options?: unknown): unknown {
  const next = editorState.answers.shift();
  return typeof next === 'function' ? next(offered, options) : next;
}

const nothing = { dispose: () => undefined };

/** Notes a provider by what it provides. */
function provides(name: string) {
  return (_: unknown, provider: unknown) => {
    editorState.provided.set(name, provider);
    return nothing;
  };
}

export const languages = {
  registerSignatureHelpProvider: provides('SignatureHelp'),
  registerDefinitionProvider: provides('Definition'),
  registerReferenceProvider: provides('Reference'),
  registerDocumentHighlightProvider: provides('DocumentHighlight'),
  registerRenameProvider: provides('Rename'),
  registerSelectionRangeProvider: provides('SelectionRange'),
  registerDocumentSemanticTokensProvider: provides('DocumentSemanticTokens'),
  registerInlayHintsProvider: provides('InlayHints'),
  registerCodeLensProvider: provides('CodeLens'),
  registerOnTypeFormattingEditProvider: provides('OnTypeFormattingEdit'),
  createDiagnosticCollection: () => ({
    set: (uri: Uri, list: readonly Diagnostic[]) => editorState.diagnostics.set(uri.toString(), list),
    delete: (uri: Uri) => editorState.diagnostics.delete(uri.toString()),
    dispose: () => editorState.diagnostics.clear(),
  }),
  registerCodeActionsProvider: (_: unknown, provider: ActionProvider) => {
    editorState.actions.push(provider);
    return nothing;
  },
  registerCompletionItemProvider: (_: unknown, provider: CompletionProvider) => {
    editorState.providers.completion = provider;
    return nothing;
  },
  registerHoverProvider: (_: unknown, provider: NonNullable<EditorState['providers']['hover']>) => {
    editorState.providers.hover = provider;
    return nothing;
  },
  registerDocumentSymbolProvider: (
    _: unknown,
    provider: NonNullable<EditorState['providers']['symbols']>,
  ) => {
    editorState.providers.symbols = provider;
    return nothing;
  },
  registerFoldingRangeProvider: (_: unknown, provider: NonNullable<EditorState['providers']['folding']>) => {
    editorState.providers.folding = provider;
    return nothing;
  },
  registerDocumentFormattingEditProvider: (_: unknown, provider: EditorState['formatters'][number]) => {
    editorState.formatters.push(provider);
    return nothing;
  },
};

export const workspace = {
  get workspaceFolders() {
    return editorState.workspaceFolders?.map((address) => ({ uri: Uri.parse(address) }));
  },
  getWorkspaceFolder: (uri: Uri) =>
    editorState.folder !== null && uri.toString().startsWith(editorState.folder) ? {} : undefined,
  asRelativePath: ({ path }: Uri) => path.replace(/^\//, ''),
  createFileSystemWatcher: () => ({
    onDidCreate: events.fileCreated.event,
    onDidChange: events.fileChanged.event,
    onDidDelete: events.fileDeleted.event,
    dispose: () => undefined,
  }),
  onDidDeleteFiles: events.filesDeleted.event,
  onDidChangeWorkspaceFolders: events.foldersChanged.event,
  fs: {
    isWritableFileSystem: (scheme: string) => (scheme === 'frozen' ? false : undefined),
    stat: async (uri: Uri) => {
      editorState.failing('stat', uri);
      const address = uri.toString();
      const { files, folders, links } = editorState;
      if (folders.has(address)) return { type: FileType.Directory };
      if (files.has(address))
        return { type: links.has(address) ? FileType.File | FileType.SymbolicLink : FileType.File };
      throw new FileSystemError('FileNotFound', address);
    },
    readDirectory: async (uri: Uri): Promise<[string, number][]> => {
      editorState.failing('readDirectory', uri);
      const below = (address: string) =>
        address.startsWith(`${uri}/`) && !address.slice(`${uri}/`.length).includes('/');
      const name = (address: string) => address.slice(`${uri}/`.length);
      return [
        ...[...editorState.files.keys()]
          .filter(below)
          .map((address): [string, number] => [name(address), FileType.File]),
        ...[...editorState.folders]
          .filter(below)
          .map((address): [string, number] => [name(address), FileType.Directory]),
      ];
    },
    readFile: async (uri: Uri) => {
      const content = editorState.files.get(uri.toString());
      if (content === undefined) throw new FileSystemError('FileNotFound', uri.toString());
      return content;
    },
    createDirectory: async (uri: Uri) => {
      editorState.failing('createDirectory', uri);
      editorState.folders.add(uri.toString());
    },
    // As on a disk: an old file is emptied first.
    writeFile: async (uri: Uri, bytes: Uint8Array) => {
      editorState.files.set(uri.toString(), new Uint8Array());
      editorState.failing('writeFile', uri);
      editorState.files.set(uri.toString(), bytes);
    },
    // As the editor does it: an old file is deleted first.
    rename: async (from: Uri, to: Uri, { overwrite }: { readonly overwrite: boolean }) => {
      const { files, links } = editorState;
      if (files.has(to.toString()) && !overwrite) throw new FileSystemError('FileExists', to.toString());
      files.delete(to.toString());
      links.delete(to.toString());
      editorState.failing('rename', to);
      files.set(to.toString(), files.get(from.toString())!);
      files.delete(from.toString());
    },
    delete: async (uri: Uri) => {
      editorState.failing('delete', uri);
      const { files, folders } = editorState;
      if ([...files.keys()].some((file) => file.startsWith(`${uri}/`)))
        throw new FileSystemError('Unknown', `${uri} is not empty`);
      if (!files.delete(uri.toString()) && !folders.delete(uri.toString()))
        throw new FileSystemError('FileNotFound', uri.toString());
    },
  },
  get textDocuments() {
    return editorState.documents;
  },
  onDidOpenTextDocument: events.opened.event,
  onDidChangeTextDocument: events.changed.event,
  onDidCloseTextDocument: events.closed.event,
  onDidRenameFiles: events.renamed.event,
  registerTextDocumentContentProvider: (_: string, provider: unknown) => {
    editorState.provided.set('Content', provider);
    return nothing;
  },
  onDidChangeConfiguration: events.configured.event,
  getConfiguration: () => ({ get: (name: string) => editorState.settings.get(name) }),
  applyEdit: async (edit: WorkspaceEdit) => {
    for (const document of editorState.documents) {
      const own = edit.replacements
        .filter(({ uri }) => uri.toString() === document.uri.toString())
        .map(({ range, text }) => ({
          start: document.offsetAt(range.start),
          end: document.offsetAt(range.end),
          text,
        }))
        .sort((a, b) => b.start - a.start);
      // One edit, as one step to undo: places are those in the text before it.
      const edited = own.reduce(
        (before, { start, end, text }) => before.slice(0, start) + text + before.slice(end),
        document.getText(),
      );
      if (own.length > 0) document.edit(edited);
    }
    return true;
  },
  openTextDocument: async (uri: Uri | { readonly content: string }) => {
    if (!(uri instanceof Uri)) return openStubDocument('Untitled-1', uri.content);
    if (uri.scheme === 'untitled') {
      const made = new StubDocument(uri, '');
      editorState.documents.push(made);
      events.opened.fire(made);
      return made;
    }
    const document = editorState.documents.find((open) => open.uri.toString() === uri.toString());
    if (document === undefined) throw new Error(`No file ${uri}`);
    return document;
  },
};

export const extensions = {
  getExtension: (name: string) => editorState.extensions.get(name),
};

export const commands = {
  executeCommand: async (...parts: unknown[]) => {
    editorState.executed.push(parts);
  },
  registerCommand: (name: string, run: (...args: unknown[]) => unknown) => {
    editorState.commands.set(name, run);
    return nothing;
  },
};

/** A text on the screen, which notes what is brought into sight. */
const revealing = <Editor extends object>(editor: Editor) => ({
  ...editor,
  revealRange: (range: Range) => editorState.revealed.push(range),
});

export const window = {
  get activeTextEditor() {
    return editorState.active && revealing(editorState.active);
  },
  get visibleTextEditors() {
    const { active, visible } = editorState;
    const isHidden = active && visible.every(({ document }) => document !== active.document);
    return (isHidden ? [...visible, active] : visible).map(revealing);
  },
  onDidChangeActiveTextEditor: events.activated.event,
  onDidChangeTextEditorSelection: events.selected.event,
  createWebviewPanel: (_: string, __: string, column: number | { readonly viewColumn: number }) => {
    const panel = new StubPanel();
    panel.viewColumn = typeof column === 'number' ? column : column.viewColumn;
    editorState.panels.push(panel);
    return panel;
  },
  registerWebviewPanelSerializer: (type: string, serializer: Serializer) => {
    editorState.serializers.set(type, serializer);
    return nothing;
  },
  showInformationMessage: async (text: string, ...choices: string[]) => {
    editorState.information.push(text);
    editorState.choices = choices;
    return choices.length > 0 ? answer(choices) : undefined;
  },
  showWarningMessage: async (text: string, _: unknown, ...choices: string[]) => {
    editorState.information.push(text);
    return answer(choices);
  },
  showErrorMessage: async (text: string, ...choices: readonly unknown[]) => {
    editorState.errors.push(text);
    return choices.length > 0 ? answer(choices) : undefined;
  },
  createStatusBarItem: () => {
    editorState.status = { text: '', tooltip: '', shown: false };
    const item = editorState.status;
    return Object.assign(item, {
      show: () => {
        item.shown = true;
      },
      hide: () => {
        item.shown = false;
      },
      dispose: () => undefined,
    });
  },
  createOutputChannel: () => ({
    info: (words: string) => editorState.log.push(words),
    error: (words: string) => editorState.log.push(words),
    dispose: () => undefined,
  }),
  showQuickPick: async (items: unknown, options?: unknown) => answer(await items, titled(options)),
  showInputBox: async (options: unknown) => answer(titled(options)),
  showSaveDialog: async (options: unknown) => answer(options),
  showOpenDialog: async (options: unknown) => answer(options),
  withProgress: async (
    _: unknown,
    task: (
      progress: { report: (step: { message: string }) => void },
      token: {
        readonly isCancellationRequested: boolean;
        readonly onCancellationRequested: Emitter<void>['event'];
      },
    ) => Promise<unknown>,
  ) => {
    const canceled = new Emitter<void>();
    let over = false;
    const cancel = () => {
      over = true;
      canceled.fire();
    };
    const progress = {
      report: ({ message }: { message: string }) => {
        if (editorState.progress(message)) cancel();
      },
    };
    Object.assign(editorState, { working: true, cancel });
    return task(progress, {
      get isCancellationRequested() {
        return over;
      },
      onCancellationRequested: canceled.event,
    }).finally(() => {
      editorState.working = false;
    });
  },
  tabGroups: {
    onDidChangeTabs: events.tabsChanged.event,
    get activeTabGroup() {
      return { activeTab: { input: editorState.activeTab } };
    },
    /** Each group by the inputs of its tabs, the first one active. */
    get all() {
      return editorState.groups.map((inputs, index) => ({
        viewColumn: index + 1,
        tabs: inputs.map((input) => ({ input })),
        activeTab: inputs[0] && { input: inputs[0] },
      }));
    },
  },
  showTextDocument: async (document: StubDocument, options: { readonly selection?: Range } = {}) => {
    editorState.shown.push({ document, options });
    const { selection } = options;
    if (!selection) return;
    const { start, end } = selection;
    const textEditor = { document, selection: { start, end, active: end } };
    editorState.active = textEditor;
    events.selected.fire({ textEditor });
  },
};
