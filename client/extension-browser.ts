/** The extension in a browser: the server is a worker, and the editor reads its files. */
import * as vscode from "vscode";
import { begin, type Api } from "./begin";
import { METHODS } from "../server/protocol/messages";
import type { Launch } from "./launch";
import { Pulse } from "./pulse";

export { deactivate } from "./begin";

/** As far as it is used here; an extension that runs on a desktop has none. */
declare const Worker: new (address: string, options: { name: string }) => Running;
interface Running {
  terminate(): void;
  addEventListener(type: "error" | "message", heard: () => void): void;
}

/** Where the worker's script can be loaded from. An editor that gets its extensions from a server cannot load a worker from there, but read it. */
async function addressOf(script: vscode.Uri): Promise<string> {
  if (script.scheme === "http" || script.scheme === "https") return script.toString(true);
  const bytes = await vscode.workspace.fs.readFile(script);
  return URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type: "text/javascript" }));
}

const worker: Launch = async (context, options) => {
  const { BrowserMessageReader, BrowserMessageWriter, LanguageClient } = await import("vscode-languageclient/browser");
  const address = await addressOf(vscode.Uri.joinPath(context.extensionUri, "dist", "server-browser.js"));
  /** What is said of a worker's end is what would be said of a process's: the connection closes, and the server is started again. */
  class Reader extends BrowserMessageReader {
    close(): void {
      this.fireClose();
    }
  }
  let running: Running | undefined;
  let pulse: Pulse | undefined;
  const end = (): void => {
    pulse?.stop();
    running?.terminate();
  };
  const client = new LanguageClient("bothways", "Bothways", () => {
    end();
    const made = new Worker(address, { name: "Bothways" });
    running = made;
    // Its type is the browser's own, which is not known to the rest of the house.
    const reader = new Reader(made);
    const beat = new Pulse({
      ask: () => void client.sendRequest(METHODS.alive, {}).then(() => beat.heard(), () => undefined),
      died: () => {
        made.terminate();
        reader.close();
      },
    });
    pulse = beat;
    made.addEventListener("message", () => beat.heard());
    made.addEventListener("error", () => beat.failed());
    return Promise.resolve({ reader, writer: new BrowserMessageWriter(made as never) });
  }, options);
  return { client, dispose: end };
};

export const activate = (context: vscode.ExtensionContext): Api => begin(context, worker);
