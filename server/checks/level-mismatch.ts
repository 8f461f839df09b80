import { insertInto } from "../model/edits";
import { canonical } from "../model/names";
import { figure } from "../model/show";
import { expectedLevel, givenLevel, isAnalogue, mismatch } from "../signal/port-levels";
import { endsOf, portOwnersOf } from "../signal/wiring";
import { fileOf, limitOf, type Case, type Check } from "./check";

/** dB. Common practice, no source. */
const APART = 20;
const PADS = [20, 40] as const;

export const levelMismatch: Check = {
  silentInOrder: true,
  takesLimit: true,
  entry: {
    code: "level-mismatch", title: "A line into a microphone input, or the reverse", severity: "error", group: "The people online hear the room",
    notice: "The people online hear a harsh, broken sound at every loud word; or, the other way round, next to nothing under a loud hiss.",
    why: "A line is about a hundred times stronger than a microphone. An input made for the one overloads with the other, or hardly hears it, and no fader behind it mends that.",
    todo: ["Put a pad into the cable: pad 20 dB.", "Use a line input, or go through a sound interface.", "If the socket takes both, say so: level line at the port."],
    source: "common practice, no source", symptoms: ["distorted", "harsh", "crackles at loud words", "very soft and hissing"], limit: "nominal levels at most 20 dB apart",
  },
  cases: ({ setup }) => setup.links.flatMap((link): Case[] => {
    if (link.how !== "cable") return [];
    const owners = portOwnersOf(setup);
    const pairs = [[link.from, link.to], [link.to, link.from]].flatMap(([from = "", to = ""]) => endsOf(setup, from).flatMap((out) => endsOf(setup, to).map((into) => ({ out, into }))))
      .filter(({ out, into }) => isAnalogue(out) && isAnalogue(into) && out.gives.has("sound") && into.takes.has("sound"));
    const [pair] = pairs;
    const giver = pair && owners.get(canonical(pair.out.id));
    const taker = pair && owners.get(canonical(pair.into.id));
    if (pair === undefined || giver === undefined || taker === undefined) return [];
    const given = givenLevel(giver, pair.out);
    // A computer's socket that both gives and takes: what the computer plays goes out, what the cable brings comes in.
    if (given === undefined) return [];
    const channel = setup.mixers.get(canonical(taker.name))?.channels.find((one) => one.ports.includes(canonical(pair.into.id)));
    const loss = link.pad + (channel?.pad ?? 0);
    return [{
      key: `${pair.out.id} ${pair.into.id} ${loss}`, ways: ["online-hears-room"],
      measure: (trial) => {
        const expected = expectedLevel(taker, pair.into, trial);
        const apart = expected === undefined ? 0 : Math.abs(mismatch(given, expected, loss));
        const limit = limitOf(setup, "level-mismatch", APART);
        return {
          severity: apart > limit ? "error" : undefined, badness: apart - limit, measured: { value: apart, unit: "dB" }, limit: { value: limit, unit: "dB" },
          cause: { key: `level ${canonical(pair.out.id)} ${canonical(pair.into.id)}`, subjects: [giver.name, taker.name], where: link.where },
          say: () => ({
            because: `${pair.out.id} gives ${a(given)} and ${pair.into.id} expects ${a(expected ?? given)}`,
            effect: `what comes in is ${figure(apart)} dB too ${mismatch(given, expected ?? given, loss) > 0 ? "strong" : "weak"}`,
            summary: apart > limit ? `${pair.out.id} and ${pair.into.id} do not go together` : `${pair.out.id} fits ${pair.into.id}`,
            chain: loss === 0 ? [] : [`pads take ${figure(loss)} dB off`],
          }),
        };
      },
      remedies: () => {
        const file = fileOf(setup, link.where.path);
        return file === undefined || given === "microphone" || link.pad > 0 ? [] : PADS.map((pad) => ({
          title: `Put a pad of ${pad} dB into the cable from ${pair.out.id}`, edits: [insertInto(file, link.statement, [`pad ${pad} dB`])],
        }));
      },
    }];
  }),
};

const a = (level: string): string => (level === "line" ? "a line" : `a ${level}’s sound`);
