/** What the call gets of each talker through each live microphone; of seats, of the one that is heard worst. */
import type { Scene } from "../checks/check";
import type { Figure } from "../finding";
import type { Voice } from "../model/setup";
import type { Trial } from "../model/trial";
import { acoustics } from "../signal/acoustics";
import { mouths } from "../signal/air";
import { FAR, hearingOf, hearings, margin, type Hearing } from "../signal/pick-up/hearing";
import { liveMics, noiseRise, openWith } from "../signal/pick-up/mics";
import { seatsThrough } from "../signal/pick-up/seats-heard";
import { facing } from "../signal/stands";
import { given, input, round } from "./record";

export function pickUpFigures({ graph }: Scene, trial: Trial): Figure[] {
  const live = liveMics(graph, trial);
  const open = openWith(graph, live);
  return [
    ...graph.voices.flatMap((voice) => (voice.seats === undefined ? ofTalker(graph, voice, trial) : ofSeats(graph, voice, trial))),
    ...live.map(({ ending }, i): Figure => ({
      name: "microphones open at once", of: [ending.part.id], value: open[i] ?? 1, unit: "", formula: "NOM on its bus; those that a mixer opens in turn are one", inputs: [], source: "handbook of sound system design",
    })),
  ];
}

function ofTalker(graph: Scene["graph"], voice: Voice, trial: Trial): Figure[] {
  const [home = [], ...walked] = hearings(graph, voice, liveMics(graph, trial), trial);
  const worst = home.flatMap((_, i) => walked.flatMap((spot) => spot[i] ?? []).reduce<Hearing | undefined>((a, b) => (a === undefined || margin(b) < margin(a) ? b : a), undefined) ?? []);
  return [...home.flatMap((h) => ofOne(graph, voice, h, undefined, trial)), ...worst.flatMap((h) => ofOne(graph, voice, h, "the worst spot walked over", trial))];
}

function ofSeats(graph: Scene["graph"], voice: Voice, trial: Trial): Figure[] {
  const { setup } = graph;
  const found = seatsThrough(graph, voice, trial);
  const mouth = found && mouths(setup, voice, trial)[found.seats.indexOf(found.worst)];
  if (found === undefined || mouth === undefined) return [];
  const live = liveMics(graph, trial);
  const open = openWith(graph, live);
  return [
    ...live.flatMap((mic, i) => ofOne(graph, voice, hearingOf(graph, voice, mouth, facing(setup, voice, mouth, trial), mic.ending, open[i] ?? 1, trial), found.worst.name, trial)),
    {
      name: "seats too far from every microphone", of: [voice.name], value: found.seats.filter((seat) => seat.ratio < FAR.warning).length, unit: "",
      formula: `direct to reverberant ratio under ${FAR.warning} dB at the best microphone`, inputs: [given("seats", found.seats.length, "")], source: "model choice",
    },
  ];
}

function ofOne({ setup }: Scene["graph"], voice: Voice, h: Hearing, at: string | undefined, trial: Trial): Figure[] {
  const room = acoustics(setup, trial);
  const common = { of: [voice.name, h.mic.part.id], ...(at === undefined ? {} : { at }) };
  const apart = h.worn ? [] : [given("from mouth to microphone", h.apart, "m")];
  return [
    { ...common, name: "direct to reverberant ratio", value: round(h.ratio), unit: "dB", formula: "10·lg(Σaₖdₖ/Σaₖvₖ), d = γ²M²/r², v = REE/Dc²", inputs: [...apart, given("room constant at 1 kHz", room.constant[3], "m²")], source: "handbook of sound system design, ch. 6; weights IEC 60268-16 Ed. 5" },
    { ...common, name: "transfer from mouth to microphone", value: round(h.transfer), unit: "dB", formula: "H = 10·lg Σaₖ(dₖ + vₖ)", inputs: apart, source: "as above" },
    {
      ...common, name: "speech over noise at the microphone", value: round(h.overNoise), unit: "dB", formula: "L₁ + H − N − 10·lg(REE·NOM)",
      inputs: [input(voice.level, trial, "dBA"), given("noise", room.noise, "dBA"), given("10·lg(REE·NOM)", noiseRise(h.mic, h.open), "dB")], source: "ISO 9921 for the level of a voice; handbook of sound system design for open microphones",
    },
    ...(voice.music ? [] : [{
      ...common, name: "speech transmission index to the call", value: round(h.sti), unit: "", formula: "STI = Σαₖ·MTIₖ − Σβₖ·√(MTIₖ·MTIₖ₊₁)",
      inputs: [given("reverberation at 1 kHz", room.time[3], "s"), given("speech over noise", h.overNoise, "dB")], source: "IEC 60268-16 Ed. 5, male, heard at 65 dBA; direct and diffuse field together: model choice",
    }]),
  ];
}
