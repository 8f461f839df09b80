import { append, insertInto } from "../model/edits";
import { called } from "../signal/coverage";
import { rootFile, type Case, type Check, type Remedy, type Scene } from "./check";

/** So many sit together without anybody thinking of joining on the own telephone. Model choice. */
const A_FEW = 8;

export const visitorJoins: Check = {
  entry: {
    code: "visitor-joins", title: "Nothing is said on the sound of visitors who join", severity: "plan", group: "Echo and howl",
    notice: "Somebody in the third row opens the call on a telephone to see the slides better, and everybody hears everything twice.",
    why: "A device that joins from within the room is a second one with loudspeaker and microphone: no canceller holds what another device plays.",
    todo: ["Say in the invitation and at the door: who joins from the room comes in with sound off.", "Let the call admit everybody muted, and play nothing on telephones in the room."],
    source: "common practice, no source",
    settle: { what: "whether people in the room join too, and that they come in with sound off", who: "whoever invites" }, symptoms: ["somebody's telephone", "a visitor's device", "sudden echo"],
    limit: "more than 8 people in the room, or visitors who may join, and nothing said on their sound",
  },
  cases: (scene) => {
    const { setup } = scene;
    const seats = [...setup.room.seats].sort((a, b) => b.count - a.count)[0];
    const people = setup.room.seats.reduce((sum, group) => sum + group.count, 0);
    const may = setup.visitors?.how === "may-join";
    if (setup.joins.length === 0 || (!may && (setup.visitors !== undefined || people <= A_FEW))) return [];
    return [{
      key: "visitors", ways: ["call"],
      measure: () => ({
        severity: "plan", badness: people, cause: { key: "visitors", subjects: seats === undefined ? [] : [seats.name], where: setup.visitors?.where ?? seats?.where ?? setup.titleWhere },
        say: () => ({
          because: may ? "people in the room may join with devices of their own, and nothing is said on their sound"
            : `nothing is said on whether ${people} people in ${seats === undefined ? "the room" : called(seats.name)} join with devices of their own`,
          effect: "one of them with sound on is an echo", summary: "nothing is said on visitors who join", chain: [],
        }),
      }),
      remedies: () => remedies(scene),
    } satisfies Case];
  },
};

function remedies({ setup }: Scene): Remedy[] {
  const file = rootFile(setup);
  if (file === undefined) return [];
  const title = "Ask whoever joins from the room to come in with sound off";
  if (setup.visitors !== undefined) return [{ title, edits: [{ ...setup.visitors.where, newText: "visitors muted" }] }];
  const call = file.statements.find((s) => s.row.head === "call");
  return [{ title, edits: [call === undefined ? append(file, "visitors muted", ["visitors", "call", "join"]) : insertInto(file, call, ["visitors muted"])] }];
}
