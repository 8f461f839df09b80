/** The language server in a browser's worker: it speaks to the editor that started it, which reads the files for it. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from "vscode-languageserver/browser";
import { version } from "../package.json";
import { lending } from "./protocol/lent";
import { serve } from "./protocol/serve";

/** The worker itself is the way to whoever started it; its type is the browser's own, which is not known to the rest of the house. */
const port = globalThis as never;
const connection = createConnection(new BrowserMessageReader(port), new BrowserMessageWriter(port));

serve(connection, { version, ...lending(connection) });
