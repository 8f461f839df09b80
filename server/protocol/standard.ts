/** The standard requests about a document: each asks its feature and translates what comes back. */
import {
  CodeActionKind, type CodeAction, type CodeLens, type DocumentSymbol, type FoldingRange, type Hover, type Location, type Range,
  type SymbolInformation, type TextEdit, type WorkspaceEdit,
} from "vscode-languageserver";
import { fixActions, spellingActions, type Action } from "../features/code-actions";
import { definition } from "../features/definition";
import { folding } from "../features/folding";
import { formatting } from "../features/formatting";
import { hover } from "../features/hover";
import { joinLenses, lenses } from "../features/lenses";
import { outline } from "../features/outline";
import { acceptances, refactorings } from "../features/refactorings";
import { references } from "../features/references";
import { rename, renameable } from "../features/rename";
import type { Abilities } from "./abilities";
import { completing } from "./completing";
import type { Convert } from "./convert";
import { actionsAsked, atPosition, ofDocument, referencesAsked, renameAsked } from "./expect";
import { fixAll, wantsFixAll } from "./fix-all";
import { inTurns, Refusal, STALE, type Given, type Guard } from "./guard";
import { COMMANDS } from "./messages";
import type { Publisher } from "./publisher";
import type { Session } from "./session";
import { paths } from "./paths";
import type { SettingsOf } from "./settings";
import { shown } from "./shown";
import { typed } from "./typed";

/** Letters after which completion opens by itself, besides those of a word. */
export const TRIGGERS = [" ", ".", "\"", "/"];

/** How often mends are proven for one question while files keep changing. */
const MOST_TRIES = 3;

export interface Parts {
  readonly guard: Guard;
  readonly session: Session;
  readonly convert: Convert;
  readonly publisher: Publisher;
  readonly abilities: Abilities;
  readonly settings: SettingsOf;
}

export function standard(parts: Parts): void {
  const { guard, session, convert, publisher, abilities, settings } = parts;
  const { workspace } = session;
  shown(parts);
  typed(parts);
  paths(parts);
  completing(parts);

  guard.request("textDocument/hover", atPosition, ({ uri, position }): Hover | null => {
    const asked = session.asked(uri);
    const found = asked && hover(asked, convert.offset(asked.text, position));
    return asked === undefined || found === undefined ? null : convert.hover(asked.text, found);
  }, null);

  guard.request("textDocument/definition", atPosition, ({ uri, position }): Location[] => {
    const asked = session.asked(uri);
    return asked === undefined ? [] : convert.locations(asked.place.folder, definition(asked, convert.offset(asked.text, position)));
  }, []);

  guard.request("textDocument/references", referencesAsked, ({ uri, position, withDeclaration }): Location[] => {
    const asked = session.asked(uri);
    if (asked === undefined) return [];
    return convert.locations(asked.place.folder, references(session.setupsWith(asked.place), asked.path, convert.offset(asked.text, position), withDeclaration));
  }, []);

  guard.request("textDocument/prepareRename", atPosition, ({ uri, position }): Given<{ range: Range; placeholder: string } | null> => {
    const asked = session.asked(uri);
    const found = asked && renameable(session.setupsWith(asked.place), asked.path, convert.offset(asked.text, position));
    if (asked === undefined || found === undefined) return null;
    return "refused" in found ? new Refusal(found.refused) : { range: convert.range(asked.text, found), placeholder: found.name };
  }, null);

  guard.request("textDocument/rename", renameAsked, ({ uri, position, name }): Given<WorkspaceEdit | null> => {
    const asked = session.asked(uri);
    if (asked === undefined) return null;
    const edits = rename(session.setupsWith(asked.place), asked.texts, asked.path, convert.offset(asked.text, position), name);
    return "refused" in edits ? new Refusal(edits.refused) : convert.workspaceEdit(asked.place.folder, edits);
  }, null);

  guard.request("textDocument/documentSymbol", ofDocument, ({ uri }): DocumentSymbol[] | SymbolInformation[] => {
    const asked = session.asked(uri);
    return asked === undefined ? [] : convert.symbols(uri, asked.text, outline(asked));
  }, []);

  guard.request("textDocument/foldingRange", ofDocument, ({ uri }): FoldingRange[] => {
    const asked = session.asked(uri);
    return asked === undefined ? [] : folding(asked.text).flatMap((span) => convert.fold(asked.text, span));
  }, []);

  guard.request("textDocument/formatting", ofDocument, ({ uri }): TextEdit[] => {
    const asked = session.asked(uri);
    if (asked === undefined) return [];
    const edits = formatting(asked.path, asked.text);
    if (!("refused" in edits)) return convert.textEdits(asked.text, edits);
    // Many lay a text out whenever they save it: a message each time would be in the way.
    guard.note(`${asked.path} is not laid out: ${edits.refused}`);
    return [];
  }, []);

  guard.request("textDocument/codeAction", actionsAsked, async ({ uri, range, only }, token): Promise<Given<CodeAction[]>> => {
    // A kind stands for all that begin with it, and nothing for all there are.
    const wants = (kind: string): boolean => only === undefined || only.some((one) => one === "" || kind === one || kind.startsWith(`${one}.`));
    const all = abilities.codeActions && wantsFixAll(only) ? await fixAll(parts, uri, token) : [];
    if (!Array.isArray(all) || all.length > 0) return all;
    if (!abilities.codeActions || ![CodeActionKind.QuickFix, CodeActionKind.RefactorExtract].some(wants)) return [];
    if (!wants(CodeActionKind.QuickFix)) {
      const asked = session.asked(uri);
      return asked === undefined ? [] : refactorings(asked, convert.span(asked.text, range)).flatMap((one) => convert.refactoring(asked.place.folder, one) ?? []);
    }
    await publisher.settled(token);
    const document = workspace.document(uri);
    if (document === undefined || token.isCancellationRequested) return [];
    const { folder, path } = document.place;
    const span = convert.span(document.text, range);
    for (let tries = 1; ; tries += 1) {
      const { revision } = session;
      const goOn = (): boolean => !token.isCancellationRequested && session.revision === revision;
      const studied = await inTurns(workspace.studying(session.judged(document.place)), goOn);
      const study = studied?.done;
      const own = study?.isSetup === true && study.root === path;
      const proven = study === undefined || !own ? { done: [] } : await inTurns(fixActions(folder.texts, study, span), goOn);
      if (token.isCancellationRequested) return [];
      if (study !== undefined && proven !== undefined && session.revision === revision) {
        const spelt: readonly Action[] = spellingActions(folder.texts, study.setup, session.shown(document), path, span);
        const asked = wants(CodeActionKind.RefactorExtract) ? session.asked(uri) : undefined;
        const others = [...(own ? acceptances(study, span) : []), ...(asked === undefined ? [] : refactorings(asked, span))];
        return [...[...spelt, ...proven.done].map((action) => convert.action(folder, document.text, action)), ...others.flatMap((one) => convert.refactoring(folder, one) ?? [])];
      }
      // Another file has changed: proven anew, since nobody asks again as long as this text stays as it is.
      if (workspace.document(uri)?.version !== document.version || tries === MOST_TRIES) return STALE;
      await publisher.settled(token);
      if (token.isCancellationRequested) return [];
    }
  }, []);

  guard.request("textDocument/codeLens", ofDocument, async ({ uri }, token): Promise<CodeLens[]> => {
    if (!(await settings.of(uri)).lenses) return [];
    await publisher.settled(token);
    const asked = token.isCancellationRequested ? undefined : session.asked(uri);
    if (asked === undefined) return [];
    const study = asked.study();
    if (study.root === asked.path) return [...lenses(study), ...joinLenses(study)].map((lens) => convert.lens(uri, asked.text, lens));
    const others = workspace.setupsWith(asked.place).length - 1;
    const title = `judged in “${study.title}”${others === 0 ? "" : `, one of ${others + 1} setups: choose`}`;
    return [{ range: convert.range(asked.text, { start: 0, end: 0 }), command: { title, command: COMMANDS.choose, arguments: [uri] } }];
  }, []);
}
