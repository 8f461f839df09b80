/** Files that the editor reads for the server, of folders that lie on no disk: what it answers is checked, and never waited for without an end. */
import type { Connection } from "vscode-languageserver";
import { decoded } from "../model/decoded";
import { LentShelf, type Lender } from "../workspace/lent-shelf";
import { isPlain } from "../workspace/uris";
import { EMPTY_SHELF } from "../workspace/workspace";
import { record } from "./expect";
import { METHODS, type ReadFile, type ReadFolder } from "./messages";
import type { Surroundings } from "./serve";

/** How long a folder or a file may take, in ms: a folder far away is asked for with every one of its folders. */
const LONGEST_FOLDER = 60_000;
const LONGEST_FILE = 20_000;
/** Largest file that is read, in bytes. */
const LARGEST = 2_000_000;

/** Asks, once the editor takes questions; nothing where it does not answer in time, or not at all. */
async function answered(begun: Promise<void>, ask: () => Promise<unknown>, limit: number): Promise<unknown> {
  await begun;
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<undefined>((resolve) => (timer = setTimeout(() => resolve(undefined), limit)));
  const answer = await Promise.race([ask().catch(() => undefined), late]);
  clearTimeout(timer);
  return answer;
}

/** A document that was never saved lies in no folder: its address is all name. */
const hasFolder = (folder: string): boolean => /^(?!untitled:)[a-z][a-z0-9+.-]*:/iu.test(folder);

/** Shelves that the editor fills. */
export function lending(connection: Connection): Required<Pick<Surroundings, "shelf" | "initialized">> {
  let begin = (): void => undefined;
  const begun = new Promise<void>((resolve) => (begin = resolve));
  return { initialized: () => begin(), shelf: (folder, changed) => (hasFolder(folder) ? new LentShelf(lender(connection, folder, begun), changed) : EMPTY_SHELF) };
}

/** The files of a folder, as the editor reads them. `begun`: it takes questions. */
function lender(connection: Connection, folder: string, begun: Promise<void>): Lender {
  return {
    async list() {
      const asked: ReadFolder = { uri: folder };
      const answer = await answered(begun, () => connection.sendRequest(METHODS.readFolder, asked), LONGEST_FOLDER);
      const paths = record(answer)?.["paths"];
      return Array.isArray(paths) ? paths.filter((path): path is string => typeof path === "string" && isPlain(path)) : [];
    },
    async read(path) {
      if (!isPlain(path)) return { problem: "it lies outside the folder that is open" };
      const asked: ReadFile = { uri: folder, path };
      const answer = record(await answered(begun, () => connection.sendRequest(METHODS.readFile, asked), LONGEST_FILE));
      const { base64, problem } = answer ?? {};
      if (typeof base64 === "string") return fromBase64(base64);
      return { problem: typeof problem === "string" && problem !== "" ? problem : "the editor could not read it" };
    },
  };
}

function fromBase64(base64: string): ReturnType<typeof decoded> {
  // Four letters hold three bytes.
  if (base64.length > (LARGEST * 4) / 3 + 4) return { problem: "it is larger than 2 MB, and no setup is" };
  try {
    return decoded(Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)));
  } catch {
    return { problem: "the editor sent it in a form that nobody can read" };
  }
}
