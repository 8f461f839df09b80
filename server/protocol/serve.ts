/**
 * The language server over any connection: which it is, and where files come from, is said by whoever starts it (`main-node.ts` with a
 * disk, `main-browser.ts` with files that its editor hands over).
 */
import {
  CancellationToken, CodeActionKind, CodeLensRefreshRequest, DiagnosticRefreshRequest, DidChangeConfigurationNotification, DidChangeWatchedFilesNotification, ErrorCodes, InlayHintRefreshRequest, ResponseError, TextDocumentSyncKind, type Connection, type Disposable,
  type InitializeError, type InitializeResult,
} from "vscode-languageserver";
import type { Folder, Shelf } from "../workspace/workspace";
import { keyOf, trimmed } from "../workspace/uris";
import { abilitiesOf, type Abilities } from "./abilities";
import { Convert } from "./convert";
import { changed, filesChanged, filesMoved, foldersAtStart, foldersChanged, ofDocument, opened } from "./expect";
import { FIX_ALL } from "./fix-all";
import { Guard } from "./guard";
import { METHODS } from "./messages";
import { Opening } from "./opening";
import { own } from "./own";
import { Publisher } from "./publisher";
import { Session } from "./session";
import { SettingsOf } from "./settings";
import { standard, TRIGGERS } from "./standard";
import { LEGEND } from "./tokens";
import { SIGNATURE_TRIGGERS, TYPED } from "./typed";

export interface Surroundings {
  /** The files of a folder that no editor holds; `changed` is for a shelf that fills by and by, and is called when there is more on it. */
  shelf(folder: string, changed: () => void): Shelf;
  /** The editor takes questions from now on. */
  initialized?(): void;
  readonly version: string;
}

const WATCHED = "**/*.bothways";
/** Folders too can be moved or deleted, and then nobody names the files in them. */
const ALL_FILES = { filters: [{ pattern: { glob: "**/*.bothways", matches: "file" as const } }, { pattern: { glob: "**", matches: "folder" as const } }] };

/** Registers everything and begins to listen. */
export function serve(connection: Connection, surroundings: Surroundings): void {
  const guard = new Guard(connection);

  connection.onInitialize((params): InitializeResult | ResponseError<InitializeError> => {
    if (guard.begun) return new ResponseError(ErrorCodes.InvalidRequest, "initialize is asked once.");
    const abilities = abilitiesOf(params);
    const server = new Server(connection, guard, surroundings, abilities, foldersAtStart(params));
    server.register();
    guard.begin();
    return {
      serverInfo: { name: "bothways", version: surroundings.version },
      capabilities: {
        textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: false },
        hoverProvider: true, definitionProvider: true, typeDefinitionProvider: true, referencesProvider: true, documentHighlightProvider: true,
        documentSymbolProvider: true, workspaceSymbolProvider: true, foldingRangeProvider: true, selectionRangeProvider: true, callHierarchyProvider: true,
        documentFormattingProvider: true, documentRangeFormattingProvider: true, documentOnTypeFormattingProvider: { firstTriggerCharacter: TYPED[0], moreTriggerCharacter: TYPED.slice(1) },
        renameProvider: { prepareProvider: true }, codeLensProvider: { resolveProvider: false }, documentLinkProvider: { resolveProvider: false }, inlayHintProvider: true,
        signatureHelpProvider: { triggerCharacters: SIGNATURE_TRIGGERS },
        semanticTokensProvider: { legend: LEGEND, full: { delta: true }, range: true },
        completionProvider: { triggerCharacters: TRIGGERS, resolveProvider: true },
        codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorExtract, FIX_ALL] },
        ...(abilities.pullsDiagnostics ? { diagnosticProvider: { identifier: "bothways", interFileDependencies: true, workspaceDiagnostics: false } } : {}),
        workspace: {
          workspaceFolders: { supported: true, changeNotifications: true },
          fileOperations: { didCreate: ALL_FILES, didRename: ALL_FILES, didDelete: ALL_FILES, willRename: ALL_FILES },
        },
      },
    };
  });
  connection.listen();
}

class Server {
  readonly #connection: Connection;
  readonly #guard: Guard;
  readonly #abilities: Abilities;
  readonly #session: Session;
  readonly #publisher: Publisher;
  readonly #convert: Convert;
  /** Keys of the folders that are open. */
  readonly #folders = new Set<string>();
  #watcher: Disposable | undefined;
  readonly #initialized: () => void;
  readonly #opening: Opening;

  constructor(connection: Connection, guard: Guard, surroundings: Surroundings, abilities: Abilities, folders: readonly string[]) {
    this.#connection = connection;
    this.#guard = guard;
    this.#abilities = abilities;
    this.#opening = new Opening(connection);
    this.#initialized = () => surroundings.initialized?.();
    this.#session = new Session((uri) => surroundings.shelf(uri, () => {
      this.#session.moved();
      this.#publisher.touch();
    }));
    guard.pending = () => this.#session.workspace.pending;
    this.#convert = new Convert(this.#session.workspace, abilities);
    this.#publisher = new Publisher(this.#session, this.#convert, {
      diagnostics: (uri, version, diagnostics) => {
        // Who asks is told to ask again where something else than the text itself has changed it.
        if (abilities.pullsDiagnostics) {
          if (abilities.diagnosticRefresh) this.#send(this.#connection.sendRequest(DiagnosticRefreshRequest.type));
          return;
        }
        this.#send(this.#connection.sendDiagnostics({ uri, ...(abilities.diagnosticVersions ? { version } : {}), diagnostics: [...diagnostics] }));
      },
      verdicts: (verdicts) => {
        this.#send(this.#connection.sendNotification(METHODS.verdicts, verdicts));
      },
      refreshLenses: () => {
        if (abilities.hintRefresh) this.#send(this.#connection.sendRequest(InlayHintRefreshRequest.type));
        if (abilities.lensRefresh) this.#send(this.#connection.sendRequest(CodeLensRefreshRequest.type));
      },
      log: (what, error) => {
        this.#guard.log(what, error);
      },
      watched: (folder: Folder) => this.#watcher !== undefined && this.#folders.has(folder.key),
    });
    for (const folder of folders) this.#addFolder(folder);
  }

  /** What cannot be sent is for an editor that is gone. */
  #send(sent: Promise<unknown>): void {
    sent.catch(() => undefined);
  }

  #addFolder(uri: string): void {
    this.#session.workspace.addFolder(uri);
    this.#folders.add(keyOf(trimmed(uri)));
  }

  register(): void {
    const guard = this.#guard;
    const session = this.#session;
    const publisher = this.#publisher;
    const { workspace } = session;
    const settings = new SettingsOf(this.#connection, this.#abilities.configuration);
    const parts = { guard, session, publisher, convert: this.#convert, abilities: this.#abilities, settings };
    standard(parts);
    own(parts);

    const opening = (): void => {
      if (this.#abilities.progress) void this.#opening.begin({ reading: () => workspace.pending, judging: () => publisher.settled(CancellationToken.None) }).catch(() => undefined);
    };
    this.#connection.onInitialized(() => {
      this.#initialized();
      opening();
      if (this.#abilities.configurationTold) this.#send(this.#connection.client.register(DidChangeConfigurationNotification.type, { section: "bothways" }));
      if (!this.#abilities.watching) return;
      this.#connection.client.register(DidChangeWatchedFilesNotification.type, { watchers: [{ globPattern: WATCHED }] }).then((watcher) => {
        this.#watcher = watcher;
        // What changed before somebody watched was not told.
        this.#forget();
      }, () => {
        guard.note("Files are not watched; each is read anew whenever something is looked at.");
      });
    });
    this.#connection.onShutdown(() => {
      guard.end();
      publisher.stop();
      this.#opening.stop();
    });

    guard.notification("textDocument/didOpen", opened, ({ uri, version, text }) => {
      session.open(uri, version, text);
      publisher.touch(uri, 0);
    });
    guard.notification("textDocument/didChange", changed, ({ uri, version, changes }) => {
      if (session.change(uri, version, changes)) publisher.touch(uri);
      else guard.note(`${uri} changed, but is not open; nothing was done.`);
    });
    guard.notification("textDocument/didClose", ofDocument, ({ uri }) => {
      const document = session.close(uri);
      if (document === undefined) return;
      publisher.forget(document);
      publisher.touch();
    });
    guard.notification("workspace/didChangeWatchedFiles", filesChanged, (uris) => {
      // Only files that lie in an open folder can matter; of a document that is open the editor's text counts, saved or not.
      if (uris.filter((uri) => workspace.changed(uri) !== undefined && workspace.document(uri) === undefined).length === 0) return;
      session.moved();
      publisher.touch();
    });
    guard.notification("workspace/didChangeWorkspaceFolders", foldersChanged, ({ added, removed }) => {
      for (const uri of removed) {
        workspace.removeFolder(uri);
        this.#folders.delete(keyOf(trimmed(uri)));
      }
      for (const uri of added) this.#addFolder(uri);
      session.moved();
      publisher.touch(undefined, 0);
      if (added.length > 0) opening();
    });
    for (const what of ["didCreateFiles", "didRenameFiles", "didDeleteFiles"]) {
      guard.notification(`workspace/${what}`, filesMoved, () => {
        this.#forget();
      });
    }
    this.#connection.onDidChangeConfiguration(() => {
      settings.forget();
      if (this.#abilities.hintRefresh) this.#send(this.#connection.sendRequest(InlayHintRefreshRequest.type));
      if (this.#abilities.lensRefresh) this.#send(this.#connection.sendRequest(CodeLensRefreshRequest.type));
    });
  }

  /** Everything that is not open is read anew. */
  #forget(): void {
    this.#session.workspace.forgetAll();
    this.#session.moved();
    this.#publisher.touch();
  }
}
