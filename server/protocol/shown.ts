/** Requests on how a text is shown: marks of words, hints beside lines, links, what is alike, how a selection grows, and what is found when it is asked for. */
import {
  DocumentHighlightKind, InlayHintKind, type DocumentDiagnosticReport, type DocumentHighlight, type DocumentLink, type InlayHint, type SelectionRange,
  type SemanticTokens, type SemanticTokensDelta, type WorkspaceSymbol,
} from "vscode-languageserver";
import { highlights } from "../features/highlights";
import { inlayHints } from "../features/inlay-hints";
import { links } from "../features/links";
import { selection } from "../features/selection";
import { semanticTokens } from "../features/semantic-tokens";
import { matches, namesGiven } from "../features/workspace-symbols";
import { atPosition, atPositions, diagnosticsAsked, inRange, ofDocument, symbolsAsked, tokensSince } from "./expect";
import { STALE, type Given } from "./guard";
import type { Parts } from "./standard";
import { PackedTokens } from "./tokens";

const NO_TOKENS: SemanticTokens = { data: [] };
/** Symbols in one answer; who looks for one types more letters. */
const MOST_SYMBOLS = 500;
/** How often an answer waits for a text that keeps changing. */
const MOST_WAITS = 20;

export function shown({ guard, session, convert, publisher, settings }: Parts): void {
  const { workspace } = session;
  const packed = new PackedTokens();

  guard.request("textDocument/semanticTokens/full", ofDocument, ({ uri }): SemanticTokens => {
    const asked = session.asked(uri);
    return asked === undefined ? NO_TOKENS : packed.whole(uri, convert.lines(asked.text), semanticTokens(asked));
  }, NO_TOKENS);

  guard.request("textDocument/semanticTokens/full/delta", tokensSince, ({ uri, previous }): SemanticTokens | SemanticTokensDelta => {
    const asked = session.asked(uri);
    return asked === undefined ? NO_TOKENS : packed.since(uri, previous, convert.lines(asked.text), semanticTokens(asked));
  }, NO_TOKENS);

  guard.request("textDocument/semanticTokens/range", inRange, ({ uri, range }): SemanticTokens => {
    const asked = session.asked(uri);
    return asked === undefined ? NO_TOKENS : packed.part(convert.lines(asked.text), semanticTokens(asked, convert.span(asked.text, range)));
  }, NO_TOKENS);

  guard.request("textDocument/documentHighlight", atPosition, ({ uri, position }): DocumentHighlight[] => {
    const asked = session.asked(uri);
    return asked === undefined ? [] : highlights(asked, convert.offset(asked.text, position))
      .map((one) => ({ range: convert.range(asked.text, one), kind: one.declares ? DocumentHighlightKind.Write : DocumentHighlightKind.Read }));
  }, []);

  guard.request("textDocument/selectionRange", atPositions, ({ uri, positions }): SelectionRange[] => {
    const asked = session.asked(uri);
    if (asked === undefined) return [];
    return positions.map((position): SelectionRange => {
      const at = { range: { start: position, end: position } };
      const whole = selection(asked, convert.offset(asked.text, position)).reduceRight<SelectionRange | undefined>((parent, span) => ({ range: convert.range(asked.text, span), ...(parent === undefined ? {} : { parent }) }), undefined);
      return whole ?? at;
    });
  }, []);

  guard.request("textDocument/documentLink", ofDocument, ({ uri }): DocumentLink[] => {
    const asked = session.asked(uri);
    return asked === undefined ? [] : links(asked).map(({ start, end, target }) => ({
      range: convert.range(asked.text, { start: start + 1, end: end - 1 }), target: workspace.uri({ folder: asked.place.folder, path: target }), tooltip: "Open the file that is taken in",
    }));
  }, []);

  guard.request("textDocument/inlayHint", inRange, async ({ uri, range }, token): Promise<Given<InlayHint[]>> => {
    const { hints } = await settings.of(uri);
    if (hints.length === 0) return [];
    await publisher.settled(token);
    const asked = token.isCancellationRequested ? undefined : session.asked(uri);
    if (asked === undefined) return [];
    return inlayHints(asked, convert.span(asked.text, range), hints).map((hint) => ({
      position: convert.range(asked.text, { start: hint.at, end: hint.at }).start, label: hint.label, tooltip: hint.tooltip, paddingLeft: true,
      ...(hint.sort === "computed" ? { kind: InlayHintKind.Type } : {}),
    }));
  }, []);

  guard.request("workspace/symbol", symbolsAsked, ({ query }, token): WorkspaceSymbol[] => {
    const out: WorkspaceSymbol[] = [];
    for (const folder of workspace.folders) {
      for (const path of workspace.paths(folder)) {
        const text = token.isCancellationRequested || out.length >= MOST_SYMBOLS ? undefined : workspace.text({ folder, path });
        if (text === undefined) continue;
        const uri = workspace.uri({ folder, path });
        for (const one of namesGiven(text)) if (matches(one.name, query)) out.push(convert.workspaceSymbol(uri, text, one));
      }
    }
    return out.slice(0, MOST_SYMBOLS);
  }, []);

  guard.request("textDocument/diagnostic", diagnosticsAsked, async ({ uri, previous }, token): Promise<Given<DocumentDiagnosticReport>> => {
    // What was worked out for an older text is not told: it is waited for anew, and an editor that types on withdraws its question.
    for (let revision = -1, tries = 0; revision !== session.revision && !token.isCancellationRequested; tries += 1) {
      if (tries === MOST_WAITS) return STALE;
      revision = session.revision;
      await publisher.settled(token);
    }
    const document = workspace.document(uri);
    if (document === undefined || token.isCancellationRequested) return { kind: "full", items: [] };
    const { items, id } = publisher.answer(document);
    return previous === id ? { kind: "unchanged", resultId: id } : { kind: "full", resultId: id, items };
  }, { kind: "full", items: [] });
}
