/** Mends of a connection that is too thin: the pictures turned down or off to what fits best, in every item at once. */
import { insertInto, rewrite, type Edit } from "../model/edits";
import type { Internet } from "../model/setup";
import { fittingSet, fittingWithAll, laddersOf, modeOf, type FittingSet, type Ladders, type PictureMode } from "../signal/giving-up";
import { modeWords, sendingIn, streamsOver, Wrap, type Stream } from "../signal/streams";
import { fileOf, type Remedy, type Scene } from "./check";
import { withdraw } from "./join-text";

/** One picture turned down in one item, or off. */
interface Change {
  readonly stream: Stream;
  readonly item: string | undefined;
  readonly to: PictureMode | undefined;
}

/** More items than anybody mends at once. */
const MOST_ITEMS = 40;

/**
 * The best set of streams for `budget` bit/s; where that gives a picture up, the best in which every picture stays; none at all.
 * `counts`: which of the streams have to fit; all where nothing is said.
 */
export function thinRemedies(scene: Scene, internet: Internet | undefined, budget: number, counts: (stream: Stream) => boolean = () => true): Remedy[] {
  const { setup } = scene;
  const items = setup.items.length === 0 ? [undefined] : setup.items.slice(0, MOST_ITEMS).map((item) => item.name);
  const wrap = new Wrap(setup, internet);
  const each = items.map((item) => ({ item, ladders: laddersOf(setup, streamsOver(sendingIn(setup, item), internet).filter(counts), wrap) }));
  const plans: ((ladders: Ladders) => FittingSet | undefined)[] = [
    (ladders) => fittingSet(ladders, budget), (ladders) => fittingWithAll(ladders, budget), (ladders) => fittingSet(ladders.map((one) => one.filter((ladder) => ladder.stream.picture === undefined)), budget),
  ];
  const seen = new Set<string>();
  return plans.flatMap((plan): Remedy[] => {
    const changes = each.flatMap(({ item, ladders }): Change[] => {
      const set = plan(ladders);
      return set === undefined ? [] : ladders.flat().flatMap((ladder): Change[] => {
        const level = set.levels.get(ladder);
        return ladder.stream.picture === undefined || level?.planned === true ? [] : [{ stream: ladder.stream, item, to: level?.mode }];
      });
    });
    const lowest = lowestOfEach(changes);
    const edits = lowest.flatMap((change) => edit(scene, change, lowest));
    const title = titleOf(lowest, each.flatMap(({ ladders }) => ladders.flat().map((ladder) => ladder.stream)));
    if (edits.length === 0 || seen.has(title)) return [];
    seen.add(title);
    return [{ title, edits }];
  });
}

const keyOf = ({ stream }: Change): string => `${stream.picture?.where.path ?? ""} ${stream.picture?.where.start ?? 0} ${stream.picture?.name ?? ""}`;

/** One statement may count in several items: it is turned down to what the thinnest of them leaves. */
function lowestOfEach(changes: readonly Change[]): Change[] {
  const size = (change: Change): number => (change.to === undefined ? 0 : change.to.height * change.to.height * change.to.rate);
  const out = new Map<string, Change>();
  for (const change of changes) {
    const known = out.get(keyOf(change));
    if (known === undefined || size(change) < size(known)) out.set(keyOf(change), change);
  }
  return [...out.values()];
}

function titleOf(changes: readonly Change[], all: readonly Stream[]): string {
  const pictures = new Set(all.flatMap((stream) => stream.picture?.name ?? []));
  const off = new Set(changes.filter((change) => change.to === undefined).map((change) => change.stream.picture?.name));
  if (off.size === pictures.size) return "Send no picture";
  const words = changes.map(({ stream, to }) => `${stream.picture?.name ?? ""} ${to === undefined ? "not at all" : `at ${modeOf(to)}`}`);
  return `Send ${[...new Set(words)].slice(0, 4).join(", ")}${words.length > 4 ? " and so on" : ""}`;
}

/** The edits that turn one picture down, or that send it no more. */
function edit(scene: Scene, { stream, item, to }: Change, all: readonly Change[]): Edit[] {
  const { setup } = scene;
  const { picture, join } = stream;
  if (picture === undefined) return [];
  const statement = join.join.statements.find((s) => s.where === picture.where);
  const others = join.pictures.filter((other) => other !== picture && !all.some((change) => change.to === undefined && change.stream.picture?.where === other.where && change.stream.picture.name === other.name));
  if (to === undefined && others.length === 0) return withdraw(setup, join, "sends", "picture", item);
  const mode = to === undefined ? undefined : modeOf(to);
  if (statement === undefined) {
    const file = fileOf(setup, join.join.where.path);
    return file === undefined || mode === undefined ? [] : [insertInto(file, join.join.bound, [`sends picture from ${picture.name} at ${mode}`])];
  }
  const text = fileOf(setup, statement.where.path)?.text.slice(statement.where.start, statement.where.end) ?? "";
  const during = text.indexOf(" during ");
  const [said, when] = during < 0 ? [text, ""] : [text.slice(0, during), text.slice(during)];
  // One of several pictures that one statement names cannot be taken out of it here.
  if (mode === undefined) return (statement.values.get("from") ?? []).length > 1 ? [] : [rewrite(statement, `sends no picture from ${picture.name}${when}`)];
  const newText = said.includes(" at ") ? `${said.slice(0, said.lastIndexOf(" at "))} at ${mode}${when}` : `${said} at ${mode}${when}`;
  return newText === text || modeWords(picture) === mode ? [] : [rewrite(statement, newText)];
}
