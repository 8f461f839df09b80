/** Requests that follow something: from a device to its kind, and along the path of sound and picture. */
import type { CallHierarchyIncomingCall, CallHierarchyItem, CallHierarchyOutgoingCall, Location } from "vscode-languageserver";
import { fedBy, feeds, stationAt, type Connection, type Station } from "../features/signal-path";
import { typeDefinition } from "../features/type-definition";
import { atPosition, stationAsked } from "./expect";
import type { Parts } from "./standard";

export function paths({ guard, session, convert }: Parts): void {
  guard.request("textDocument/typeDefinition", atPosition, ({ uri, position }): Location[] => {
    const asked = session.asked(uri);
    return asked === undefined ? [] : convert.locations(asked.place.folder, typeDefinition(asked, convert.offset(asked.text, position)));
  }, []);

  type Asked = NonNullable<ReturnType<typeof session.asked>>;
  /** An item refers to the document that was asked about, whose setup is drawn; where it stands may be in another file. */
  const item = (asked: Asked, uri: string, station: Station): CallHierarchyItem | undefined => convert.station(asked.place.folder, uri, station);

  guard.request("textDocument/prepareCallHierarchy", atPosition, ({ uri, position }): CallHierarchyItem[] | null => {
    const asked = session.asked(uri);
    const station = asked && stationAt(asked, convert.offset(asked.text, position));
    const found = asked === undefined || station === undefined ? undefined : item(asked, uri, station);
    return found === undefined ? null : [found];
  }, null);

  const follow = <R>(uri: string, name: string, along: (asked: Asked, name: string) => readonly Connection[], make: (item: CallHierarchyItem, ranges: Location[]) => R): R[] => {
    const asked = session.asked(uri);
    if (asked === undefined) return [];
    return along(asked, name).flatMap(({ station, made, how }): R[] => {
      const found = item(asked, uri, { ...station, detail: [how, station.detail].filter((word) => word !== "").join(" – ") });
      return found === undefined ? [] : [make(found, convert.locations(asked.place.folder, made))];
    });
  };

  guard.request("callHierarchy/incomingCalls", stationAsked, ({ uri, name }): CallHierarchyIncomingCall[] =>
    // Ranges are those of the one that feeds: of its file.
    follow(uri, name, fedBy, (from, made) => ({ from, fromRanges: made.filter((one) => one.uri === from.uri).map((one) => one.range) })), []);

  guard.request("callHierarchy/outgoingCalls", stationAsked, ({ uri, name }): CallHierarchyOutgoingCall[] =>
    follow(uri, name, feeds, (to, made) => ({ to, fromRanges: made.filter((one) => one.uri === uri).map((one) => one.range) })), []);
}
