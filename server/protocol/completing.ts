/** Completion: the list at once, and what is said of an offer when somebody looks at it. */
import type { CompletionItem, CompletionList } from "vscode-languageserver";
import { completion, type Offer } from "../features/completion";
import { documentation } from "../features/completion-resolve";
import { atPosition, itemAsked } from "./expect";
import type { Parts } from "./standard";

const NOTHING: CompletionList = { isIncomplete: false, items: [] };

export function completing({ guard, session, convert }: Parts): void {
  const { workspace } = session;
  /** The list that was answered last: nobody looks at an older one. */
  let last: { readonly list: number; readonly uri: string; readonly offers: readonly Offer[] } | undefined;

  guard.request("textDocument/completion", atPosition, ({ uri, position }): CompletionList => {
    const asked = session.asked(uri);
    if (asked === undefined) return NOTHING;
    const offers = completion(asked, convert.offset(asked.text, position), workspace.paths(asked.place.folder));
    const list = (last?.list ?? 0) + 1;
    last = { list, uri, offers };
    return { isIncomplete: false, items: offers.map((offer, i) => ({ ...convert.completion(asked.text, offer, i), data: { list, at: i } })) };
  }, NOTHING);

  guard.request("completionItem/resolve", itemAsked, ({ item, list, at }): CompletionItem => {
    const offer = last?.list === list ? last.offers[at] : undefined;
    const asked = offer === undefined || last === undefined ? undefined : session.asked(last.uri);
    if (offer === undefined || asked === undefined || offer.label !== item.label) return item;
    const words = documentation(asked, offer);
    return words === "" ? item : { ...item, documentation: convert.documentation(words) };
  }, { label: "" });
}
