/** What the editor at the other end can take; whatever it does not claim is done without. */
import { record } from "./expect";

export interface Abilities {
  /** Edits that say for which version of a document they are meant. */
  readonly versionedEdits: boolean;
  readonly nestedSymbols: boolean;
  readonly relatedPlaces: boolean;
  readonly linkedCodes: boolean;
  readonly diagnosticVersions: boolean;
  readonly diagnosticData: boolean;
  readonly codeActions: boolean;
  readonly preferredActions: boolean;
  readonly watching: boolean;
  readonly lensRefresh: boolean;
  /** Can be asked for what the person has set. */
  readonly configuration: boolean;
  /** Tells when that changes only if it is asked to. */
  readonly configurationTold: boolean;
  readonly markdownHover: boolean;
  /** Asks for what is shown in a document, rather than being told. */
  readonly pullsDiagnostics: boolean;
  readonly diagnosticRefresh: boolean;
  readonly hintRefresh: boolean;
  /** Edits may make files. */
  readonly createsFiles: boolean;
  readonly markdownCompletion: boolean;
  /** Shows that something takes its time. */
  readonly progress: boolean;
}

/** Reads them from the parameters of `initialize`. */
export function abilitiesOf(params: unknown): Abilities {
  const at = (...path: readonly string[]): unknown => path.reduce<unknown>((value, key) => record(value)?.[key], record(params)?.["capabilities"]);
  const has = (...path: readonly string[]): boolean => at(...path) === true;
  const markdown = (value: unknown): boolean => Array.isArray(value) && value.includes("markdown");
  return {
    versionedEdits: has("workspace", "workspaceEdit", "documentChanges"),
    nestedSymbols: has("textDocument", "documentSymbol", "hierarchicalDocumentSymbolSupport"),
    relatedPlaces: has("textDocument", "publishDiagnostics", "relatedInformation"),
    linkedCodes: has("textDocument", "publishDiagnostics", "codeDescriptionSupport"),
    diagnosticVersions: has("textDocument", "publishDiagnostics", "versionSupport"),
    diagnosticData: has("textDocument", "publishDiagnostics", "dataSupport"),
    codeActions: record(at("textDocument", "codeAction", "codeActionLiteralSupport")) !== undefined,
    preferredActions: has("textDocument", "codeAction", "isPreferredSupport"),
    watching: has("workspace", "didChangeWatchedFiles", "dynamicRegistration"),
    lensRefresh: has("workspace", "codeLens", "refreshSupport"),
    pullsDiagnostics: record(at("textDocument", "diagnostic")) !== undefined,
    diagnosticRefresh: has("workspace", "diagnostics", "refreshSupport"),
    hintRefresh: has("workspace", "inlayHint", "refreshSupport"),
    createsFiles: has("workspace", "workspaceEdit", "documentChanges") && Array.isArray(at("workspace", "workspaceEdit", "resourceOperations")) && (at("workspace", "workspaceEdit", "resourceOperations") as unknown[]).includes("create"),
    configuration: has("workspace", "configuration"),
    configurationTold: has("workspace", "didChangeConfiguration", "dynamicRegistration"),
    markdownHover: markdown(at("textDocument", "hover", "contentFormat")),
    progress: has("window", "workDoneProgress"),
    markdownCompletion: markdown(at("textDocument", "completion", "completionItem", "documentationFormat")),
  };
}
