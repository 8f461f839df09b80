/** How the language server is started: in a process of its own on a desktop, in a worker in a browser. */
import type * as vscode from "vscode";
import type { BaseLanguageClient, LanguageClientOptions } from "vscode-languageclient";

/** A server that was made ready, and what ends it beyond what the protocol says. */
export interface Launched {
  readonly client: BaseLanguageClient;
  dispose(): void;
}

export type Launch = (context: vscode.ExtensionContext, options: LanguageClientOptions) => Promise<Launched>;
