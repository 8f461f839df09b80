/** The one action that sets everything right that is a mere setting: only for an editor that asks for it, as when a file is saved. */
import type { CancellationToken, CodeAction } from "vscode-languageserver";
import { settingsMended } from "../features/fix-all";
import { inTurns, STALE, type Given } from "./guard";
import type { Parts } from "./standard";

export const FIX_ALL = "source.fixAll.bothways";

/** Whether it is asked for: by its name or by one that it begins with, never where all actions are wanted. */
export const wantsFixAll = (only: readonly string[] | undefined): boolean => only !== undefined && only.some((one) => one !== "" && (FIX_ALL === one || FIX_ALL.startsWith(`${one}.`)));

/** The action for a document; none where there is nothing to set right. */
export async function fixAll({ session, convert, publisher }: Parts, uri: string, token: CancellationToken): Promise<Given<CodeAction[]>> {
  await publisher.settled(token);
  const document = session.workspace.document(uri);
  if (document === undefined || token.isCancellationRequested) return [];
  const { folder, path } = document.place;
  const { revision } = session;
  const goOn = (): boolean => !token.isCancellationRequested && session.revision === revision;
  const study = (await inTurns(session.workspace.studying(session.judged(document.place)), goOn))?.done;
  if (study?.root !== path) return goOn() ? [] : STALE;
  const mended = await inTurns(settingsMended(folder.texts, study), goOn);
  if (mended === undefined || !goOn()) return STALE;
  return mended.done.length === 0 ? [] : [{ title: "Set right every setting that has one remedy", kind: FIX_ALL, edit: convert.workspaceEdit(folder, mended.done) }];
}
