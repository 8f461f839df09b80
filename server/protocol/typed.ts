/** Requests while a text is written or its files are moved: how a statement goes on, laying out what was just typed, `use` lines that follow. */
import type { SignatureHelp, TextEdit, WorkspaceEdit } from "vscode-languageserver";
import { rangeFormatting, typedFormatting } from "../features/formatting";
import { renameFiles, type Moved } from "../features/rename-files";
import { signature } from "../features/signature";
import type { Folder } from "../workspace/workspace";
import { atPosition, inRange, movesAsked, typedAsked } from "./expect";
import type { Parts } from "./standard";

/** Signs after which what was typed is laid out. */
export const TYPED = ["\n", "}"] as const;
/** Signs after which a statement's values are told. */
export const SIGNATURE_TRIGGERS = [" ", ","];

export function typed({ guard, session, convert }: Parts): void {
  const { workspace } = session;

  guard.request("textDocument/rangeFormatting", inRange, ({ uri, range }): TextEdit[] => {
    const asked = session.asked(uri);
    const edits = asked && rangeFormatting(asked.path, asked.text, convert.span(asked.text, range));
    return asked === undefined || edits === undefined || "refused" in edits ? [] : convert.textEdits(asked.text, edits);
  }, []);

  guard.request("textDocument/onTypeFormatting", typedAsked, ({ uri, position, typed: sign }): TextEdit[] => {
    const asked = session.asked(uri);
    return asked === undefined || !TYPED.some((one) => one === sign) ? [] : convert.textEdits(asked.text, typedFormatting(asked.path, asked.text, convert.offset(asked.text, position), sign));
  }, []);

  guard.request("textDocument/signatureHelp", atPosition, ({ uri, position }): SignatureHelp | null => {
    const asked = session.asked(uri);
    const found = asked && signature(asked, convert.offset(asked.text, position));
    return found === undefined ? null : convert.signature(found);
  }, null);

  guard.request("workspace/willRenameFiles", movesAsked, (moves): WorkspaceEdit | null => {
    const byFolder = new Map<Folder, Moved[]>();
    for (const { from, to } of moves) {
      const [old, fresh] = [workspace.place(from), workspace.place(to)];
      // What leaves its folder cannot be reached by a path any more.
      if (old === undefined || fresh === undefined || old.folder !== fresh.folder) continue;
      const within = workspace.paths(old.folder).filter((path) => path === old.path || path.startsWith(`${old.path}/`));
      const moved = within.map((path) => ({ from: path, to: fresh.path + path.slice(old.path.length) }));
      byFolder.set(old.folder, [...(byFolder.get(old.folder) ?? []), ...moved]);
    }
    for (const [folder, moved] of byFolder) {
      const edits = renameFiles(workspace.paths(folder).map((path) => workspace.setup({ folder, path })), moved);
      if (edits.length > 0) return convert.workspaceEdit(folder, edits);
    }
    return null;
  }, null);
}
