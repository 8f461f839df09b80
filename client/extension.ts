/** The extension on a desktop, and wherever an editor has a disk: the server is a process of its own. */
import type * as vscode from "vscode";
import type { ServerOptions } from "vscode-languageclient/node";
import { begin, type Api } from "./begin";
import type { Launch } from "./launch";

export { deactivate } from "./begin";

const process: Launch = async (context, options) => {
  const module = context.asAbsolutePath("dist/server.js");
  const { LanguageClient, TransportKind } = await import("vscode-languageclient/node");
  const server: ServerOptions = {
    run: { module, transport: TransportKind.ipc },
    debug: { module, transport: TransportKind.ipc, options: { execArgv: ["--nolazy", "--inspect=6011"] } },
  };
  return { client: new LanguageClient("bothways", "Bothways", server, options), dispose: () => undefined };
};

export const activate = (context: vscode.ExtensionContext): Api => begin(context, process);
