/** Reads files for a server that cannot: those of the language in the folders that are open, and never outside them. */
import * as vscode from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { METHODS, type FileRead, type FolderRead, type ReadFile, type ReadFolder } from "../server/protocol/messages";
import { LANGUAGE } from "./language";

const ENDING = ".bothways";
/** Files that are listed, and entries of folders that are looked at for them; near ones are found first. */
const MOST_LISTED = 2000;
const MOST_SEEN = 20_000;
/** Folders that are asked for at a time: they may be far away. */
const AT_A_TIME = 8;
/** Largest file that is read, in bytes. */
const LARGEST = 2_000_000;

/** Answers what the server asks of files. */
export function lend(client: BaseLanguageClient): void {
  client.onRequest(METHODS.readFolder, ({ uri }: ReadFolder) => listed(uri));
  client.onRequest(METHODS.readFile, ({ uri, path }: ReadFile) => read(uri, path));
}

const trimmed = (uri: vscode.Uri): string => uri.toString().replace(/\/+$/u, "");

/** The folder, if it is one that is open or that an open document of the language lies in. */
function known(uri: string): vscode.Uri | undefined {
  const folder = vscode.Uri.parse(uri);
  const open = [
    ...(vscode.workspace.workspaceFolders ?? []).map((one) => one.uri),
    ...vscode.workspace.textDocuments.filter((document) => document.languageId === LANGUAGE).map((document) => vscode.Uri.joinPath(document.uri, "..")),
  ];
  return open.find((one) => trimmed(one) === trimmed(folder));
}

const isLink = (type: vscode.FileType): boolean => (type & vscode.FileType.SymbolicLink) !== 0;

/** Paths of the files of the language in the folder and below it; hidden folders, packages and links left out. */
async function listed(uri: string): Promise<FolderRead> {
  const folder = known(uri);
  if (folder === undefined) return { paths: [] };
  const found: string[] = [];
  let seen = 0;
  for (let open = [""]; open.length > 0 && seen < MOST_SEEN && found.length < MOST_LISTED;) {
    const now = open.slice(0, AT_A_TIME);
    open = open.slice(AT_A_TIME);
    const entries = await Promise.all(now.map(async (at) => (await entriesOf(at === "" ? folder : vscode.Uri.joinPath(folder, at))).map(([name, type]) => ({ name, type, path: at === "" ? name : `${at}/${name}` }))));
    for (const { name, type, path } of entries.flat()) {
      seen += 1;
      if (name.startsWith(".") || name === "node_modules" || isLink(type)) continue;
      if (type === vscode.FileType.Directory) open.push(path);
      else if (name.endsWith(ENDING) && found.length < MOST_LISTED) found.push(path);
    }
  }
  return { paths: found };
}

async function entriesOf(folder: vscode.Uri): Promise<readonly [string, vscode.FileType][]> {
  try {
    return await vscode.workspace.fs.readDirectory(folder);
  } catch {
    // A folder that is gone or may not be read has no files for anybody.
    return [];
  }
}

/** One file below the folder. A link may lead anywhere, so none is followed. */
async function read(uri: string, path: string): Promise<FileRead> {
  const folder = known(uri);
  const parts = path.split("/");
  if (folder === undefined || parts.some((part) => part === "" || part === "." || part === ".." || part.includes("\\"))) {
    return { problem: "it lies outside the folder that is open" };
  }
  try {
    for (let depth = 1; depth <= parts.length; depth += 1) {
      const { type, size } = await vscode.workspace.fs.stat(vscode.Uri.joinPath(folder, ...parts.slice(0, depth)));
      if (isLink(type)) return { problem: "it is a link, and may lead outside the folder that is open" };
      if (depth < parts.length) continue;
      if ((type & vscode.FileType.Directory) !== 0) return { problem: "it is a folder, not a file" };
      if (size > LARGEST) return { problem: "it is larger than 2 MB, and no setup is" };
    }
    const bytes = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(folder, ...parts));
    return { base64: btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join("")) };
  } catch (error) {
    return { problem: problemOf(error) };
  }
}

function problemOf(error: unknown): string {
  switch (error instanceof vscode.FileSystemError ? error.code : "") {
    case "FileNotFound": case "FileNotADirectory": return "there is no such file";
    case "NoPermissions": return "it may not be opened (no permission)";
    case "Unavailable": return "the place where it lies cannot be reached";
    default: return `it cannot be read (${(error instanceof Error ? error.message : String(error)).split("\n", 1)[0] ?? ""})`;
  }
}
