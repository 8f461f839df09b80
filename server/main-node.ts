/** The language server as a process: `--stdio` for any editor, `--node-ipc` for one that started it with a channel. */
import { fileURLToPath } from "node:url";
import { createConnection } from "vscode-languageserver/node";
import { version } from "../package.json";
import { FolderShelf } from "./disk/folder-shelf";
import { wordsOf } from "./disk/system-words";
import { lending } from "./protocol/lent";
import { serve } from "./protocol/serve";
import { EMPTY_SHELF, type Shelf } from "./workspace/workspace";

const WAYS_IN = ["--stdio", "--node-ipc", "--socket", "--pipe"];

/** The files of a folder on this machine. */
function onDisk(folder: string): Shelf {
  try {
    return new FolderShelf(fileURLToPath(folder));
  } catch {
    // The folder is not there, or not yet: the open documents are all there is.
    return EMPTY_SHELF;
  }
}

if (!process.argv.slice(2).some((argument) => WAYS_IN.some((way) => argument === way || argument.startsWith(`${way}=`)))) {
  process.stderr.write("This is the language server of Bothways: an editor starts it, with --stdio or --node-ipc.\n");
  process.exit(2);
}

const connection = createConnection();

// The editor is gone: nobody is left to answer.
process.on("disconnect", () => process.exit(1));
const gone = new Set(["EPIPE", "ERR_STREAM_DESTROYED", "ERR_IPC_CHANNEL_CLOSED"]);
const unforeseen = (error: unknown): void => {
  if (error instanceof Error && "code" in error && gone.has(String(error.code))) process.exit(1);
  connection.console.error(`Unforeseen: ${error instanceof Error ? error.stack ?? wordsOf(error) : wordsOf(error)}`);
};
process.on("uncaughtException", unforeseen);
process.on("unhandledRejection", unforeseen);

// A folder at any other address is read by the editor, where it can.
const lent = lending(connection);
serve(connection, { ...lent, shelf: (folder, changed) => (folder.startsWith("file:") ? onDisk(folder) : lent.shelf(folder, changed)), version });
