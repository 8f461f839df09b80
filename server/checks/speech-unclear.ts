import type { Observation } from "../model/observations";
import { rank } from "../finding";
import type { Voice } from "../model/setup";
import { duration } from "../model/show";
import type { Trial } from "../model/trial";
import { midFrequencyTime } from "../physics/treatment";
import { acoustics } from "../signal/acoustics";
import { listeners } from "../signal/air";
import { called } from "../signal/coverage";
import { causesAt, clarityAt, hallOf } from "../signal/seats/clarity";
import { curtainsFor } from "../signal/seats/curtains";
import { clarityOf, groupNames, keyOfSpeaking, leastClear, loudestOf, ONLINE_SPEAKS, seatsOf, sourcesOf, type Speaking } from "../signal/seats/heard";
import { strongestAt } from "../signal/seats/levels";
import { CLEAR } from "../signal/seats/limits";
import { mouthsAsked } from "../signal/seats/sources";
import type { Case, Check, Outcome, Scene, Testimony } from "./check";
import { opinion } from "./observes";
import { counted, graded, LATE, quietKey, spoken, unheardKey, whereOf } from "./seat-causes";
import { apartRemedies, nearerTo } from "./seat-remedies";
import { aboutSeats } from "./seat-testimony";
import { likewise, speakingOf, spokesmen, type Spokesman } from "./voices-in-room";

/** Of more seats than these each is not worked out, to count them. */
const MOST_COUNTED = 1000;

export const speechUnclear: Check = {
  silentInOrder: true,
  entry: {
    code: "speech-unclear", title: "Words are not understood at a seat", severity: "error", group: "The room hears the people online",
    notice: "It is loud enough, and still people ask: what did they say? Names and numbers get lost.",
    why: "What the room throws back, noise, and what comes late from other loudspeakers fill the gaps between syllables. The speech transmission index counts how much of the rise and fall of the voice is left: 1 all, 0 nothing.",
    todo: ["Loudspeakers nearer to those who listen, and aimed at them, so that less goes to walls and ceiling.", "Where the room rings: curtains, carpet, more people; a fact of the room, so ask the venue.", "Where noise does it: louder, or less noise.", "Where another loudspeaker comes late: delay, cable in place of radio, or one of them off.", "Speak slowly."],
    source: "IEC 60268-16 Ed. 5, with direct and reverberant field together (model choice)", symptoms: ["cannot make out the words", "echoing room", "muddy", "loud but unclear", "unintelligible"],
    limit: `index ${CLEAR.error} an error, ${CLEAR.warning} a warning, ${CLEAR.hint} a hint; a voice that nothing amplifies: a warning under ${CLEAR.error}`,
  },
  cases: (scene) => [
    ...groupNames(scene.setup).map((group): Case => ({
      key: `${group} ${keyOfSpeaking(scene.graph, ONLINE_SPEAKS)}`, ways: ["room-hears-online"],
      measure: (trial) => measure(scene, ONLINE_SPEAKS, [group], trial), remedies: (outcome) => remedies(scene, group, outcome), observed: (seen) => observed(scene, group, seen),
    })),
    // Of the six ways none is from the room to itself: it is told, and no verdict hangs on it.
    ...spokesmen(scene, (voice, trial) => inTheRoom(scene, voice, trial)?.badness).map((by): Case => ({
      key: `in the room ${keyOfSpeaking(scene.graph, speakingOf(by.voice, 0))} ${by.alike.map((voice) => voice.name).join(",")}`, ways: [], measure: (trial) => inTheRoom(scene, by.voice, trial, by),
    })),
  ],
};

function inTheRoom(scene: Scene, voice: Voice, trial: Trial, by?: Spokesman): Outcome | undefined {
  let worst: Outcome | undefined;
  for (const mouth of mouthsAsked(scene.setup, voice, trial)) {
    const one = measure(scene, speakingOf(voice, mouth), groupNames(scene.setup), trial, by);
    if (one !== undefined && (worst === undefined || one.badness > worst.badness)) worst = one;
  }
  return worst;
}

function measure(scene: Scene, speaking: Speaking, groups: readonly string[], trial: Trial, spokesman?: Spokesman): Outcome | undefined {
  const { graph, setup } = scene;
  const worst = groups.flatMap((group) => leastClear(graph, speaking, group, trial) ?? []).reduce<{ seat: number; sti: number } | undefined>((a, b) => (a === undefined || b.sti < a.sti ? b : a), undefined);
  if (worst === undefined) return undefined;
  const { seat, sti } = worst;
  const sources = sourcesOf(graph, speaking, trial);
  const alone = speaking.who === "voice" && sources.length === 1;
  const { severity: level, limit } = graded(sti, CLEAR);
  const severity = !alone ? level : level === "error" ? "warning" : undefined;
  const room = acoustics(setup, trial);
  const hall = hallOf(room);
  const by = severity === undefined ? undefined : causeOf(scene, speaking, sources, seat, trial);
  const strongest = strongestAt(sources, seat);
  return {
    severity, badness: CLEAR.hint - sti, measured: { value: sti, unit: "" }, limit: { value: limit, unit: "" },
    cause: { key: `unclear ${by?.what ?? ""}`, subjects: [speaking.who === "online" ? groups[0] ?? "" : speaking.voice.name], where: whereOf(scene, strongest, speaking) },
    ...(by?.under === undefined ? {} : { foldUnder: by.under }),
    say: () => {
      const name = spoken(speaking);
      const ears = listeners(setup, trial);
      const there = ears[seat]?.name ?? "the worst seat";
      const summary = `${name} reach${speaking.who === "online" ? "" : "es"} ${there} with a speech transmission index of ${sti.toFixed(2)}`;
      if (severity === undefined || by === undefined) return { because: "", effect: "", summary, chain: [] };
      const among = groups.flatMap((group) => seatsOf(setup, trial, group));
      const hardly = limit === CLEAR.error ? ["does not understand", "do not understand"] as const : limit === CLEAR.warning ? ["understands only with effort", "understand only with effort"] as const : ["does not understand everything of", "do not understand everything of"] as const;
      const verbs = hardly.map((verb) => (verb.endsWith("effort") ? `${verb.replace(" only with effort", "")} ${name} only with effort` : `${verb} ${name}`)) as unknown as readonly [string, string];
      const others = spokesman === undefined ? "" : likewise(spokesman, (other) => rank(inTheRoom(scene, other, trial)?.severity) >= rank(severity));
      const those = among.length > MOST_COUNTED ? `${there} and others: they ${verbs[1]}`
        : counted(scene, trial, among, among.filter((i) => (i === seat ? sti : clarityOf(graph, speaking, trial)[i] ?? 1) < limit), seat, verbs);
      const effect = `${those}${others}`;
      const helped = by.what === "reverberation" ? curtainsFor(setup, room, sources, seat, limit) : undefined;
      return {
        because: by.because, effect, summary: `${by.because}: ${effect}`,
        chain: [
          `speech transmission index ${sti.toFixed(2)} at ${there}, ${limit.toFixed(2)} is needed`, by.gain,
          ...(helped === undefined ? [] : [`heavy curtains before ${helped.area} m² of the walls would give ${helped.sti.toFixed(2)}`]),
          ...(by.what === "noise" ? [`the noise is ${Math.round(hall.noiseLevel)} dBA`] : []),
        ],
      };
    },
  };
}

interface Cause {
  readonly what: "reverberation" | "noise" | "late";
  readonly because: string;
  /** What it would be without it. */
  readonly gain: string;
  readonly under: string | undefined;
}

/** What takes most of the index away. */
function causeOf(scene: Scene, speaking: Speaking, sources: ReturnType<typeof sourcesOf>, seat: number, trial: Trial): Cause {
  const room = acoustics(scene.setup, trial);
  const { withoutNoise, withoutReverberation, withoutLaterArrivals } = causesAt(sources, hallOf(room), seat);
  const [what, without] = ([["reverberation", withoutReverberation], ["noise", withoutNoise], ["late", withoutLaterArrivals]] as const).reduce((a, b) => (b[1] > a[1] ? b : a));
  const who = speaking.who === "online" ? "what the room plays of the call" : `the words of ${called(speaking.voice.name)}`;
  const gain = { reverberation: "with no reverberation", noise: "with no noise", late: "with one arrival alone" }[what];
  const under = what === "late" ? LATE : what === "reverberation" ? undefined : speaking.who === "online" ? quietKey(loudestOf(scene.graph, trial)) : unheardKey(sources.length > 1);
  return {
    what, under, gain: `${gain} it would be ${without.toFixed(2)}`,
    because: what === "reverberation" ? `the room rings for ${duration(midFrequencyTime(room.time))} and blurs ${who}` : what === "noise" ? `noise covers ${who}` : `${who} comes to one seat twice, the second time late`,
  };
}

const remedies = (scene: Scene, group: string, outcome: Outcome) => (outcome.cause.key === "unclear late" ? apartRemedies(scene, ONLINE_SPEAKS) : nearerTo(scene, ONLINE_SPEAKS, group));

/** `observed box clear at row 4`, `observed unclear`: of seats that hear the people online. */
function observed(scene: Scene, group: string, seen: Observation): Testimony | undefined {
  const meant = aboutSeats(scene, group, seen);
  const said = opinion(seen, ["unclear"], ["clear"]);
  if (meant === undefined || said === undefined || seen.place === undefined) return meant === undefined ? undefined : said;
  return {
    ...said, part: {
      name: seen.place.words,
      measure: (trial) => {
        const sources = sourcesOf(scene.graph, ONLINE_SPEAKS, trial);
        if (sources.length === 0) return undefined;
        const hall = hallOf(acoustics(scene.setup, trial));
        const sti = Math.min(...meant.slice(0, MOST_COUNTED).map((i) => clarityAt(sources, hall, i)));
        const { severity, limit } = graded(sti, CLEAR);
        return { severity, badness: CLEAR.hint - sti, words: `a speech transmission index of ${sti.toFixed(2)} there, where ${limit.toFixed(2)} is needed`, off: Math.abs(limit - sti).toFixed(2) };
      },
    },
  };
}
