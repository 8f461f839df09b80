/**
 * Every value computed, as a record with its formula, inputs and source. Hovers, the `figures` command and the hand-out print the
 * same records, so that no number can appear twice with two values. Values are those of the best guess.
 */
import type { Scene } from "./checks/check";
import { loopFigures } from "./figures/loops";
import type { Figure } from "./finding";
import { isAssumed, type Ranged } from "./model/ranged";
import type { Setup } from "./model/setup";
import type { Trial } from "./model/trial";
import { BAND_INDICES, OCTAVES, type Bands } from "./physics/bands";
import { directToReverberant, speechLevel, speechTransfer } from "./physics/soundField";
import { acoustics } from "./signal/acoustics";
import { listeners, loudest, loudspeakerField, mouths, playingLevel, voiceAtMicrophone } from "./signal/air";
import { claims } from "./signal/coverage";
import { echoOf, worstLoops } from "./signal/echo";
import { lasts, timeNeeded } from "./signal/endurance";
import { callDelay, carries, ONLINE } from "./signal/graph";
import { pictureHeight, viewOf } from "./signal/sight";
import { modeWords, streamsOver, total, usableShare, usableUp } from "./signal/streams";
import { node } from "./signal/edges";

type Input = Figure["inputs"][number];

export function figuresOf(scenes: readonly Scene[], trial: Trial): Figure[] {
  const first = scenes[0];
  if (first === undefined) return [];
  const { setup } = first;
  const out = new Map<string, Figure>();
  const add = (figure: Figure): void => {
    out.set([figure.name, figure.of.join(" "), figure.at ?? "", figure.band ?? ""].join("|"), figure);
  };
  roomFigures(setup, trial).forEach(add);
  for (const scene of scenes) {
    soundFigures(scene, trial).forEach(add);
    echoFigures(scene, trial).forEach(add);
    loopFigures(scene, trial).forEach(add);
    sightFigures(scene, trial).forEach(add);
    streamFigures(scene, trial).forEach(add);
  }
  powerFigures(first, trial).forEach(add);
  return [...out.values()];
}

/** An input from an open or stated value. */
function input(value: Ranged, trial: Trial, unit: string, scale = 1): Input {
  return { name: value.label, value: round(trial.value(value) * scale), unit, ...(isAssumed(value) ? { assumed: true } : {}) };
}

const given = (name: string, value: number, unit: string): Input => ({ name, value: round(value), unit });

/** Six significant figures: enough to compute on with, few enough to read. */
const round = (n: number): number => (Number.isFinite(n) ? Number(n.toPrecision(6)) : n);

function byBand(values: Bands, make: (value: number) => Omit<Figure, "band">): Figure[] {
  return BAND_INDICES.map((k) => ({ ...make(values[k]), band: OCTAVES[k] }));
}

function roomFigures(setup: Setup, trial: Trial): Figure[] {
  const { room } = setup;
  const a = acoustics(setup, trial);
  const sides = [input(room.length, trial, "m"), input(room.width, trial, "m"), input(room.height, trial, "m")];
  const of = [room.name];
  const stated = room.reverberation;
  return [
    { name: "volume", of, value: round(a.volume), unit: "m³", formula: "V = l·w·h", inputs: sides, source: "geometry" },
    { name: "surface", of, value: round(a.surface), unit: "m²", formula: "S = 2·(l·w + l·h + w·h)", inputs: sides, source: "geometry" },
    { name: "noise", of, value: a.noise, unit: "dBA", formula: "as stated", inputs: [input(room.noise, trial, "dBA")], source: room.noise.from.source ?? "the text" },
    ...byBand(a.time, (value) => ({
      name: "reverberation time", of, value: round(value), unit: "s",
      formula: stated === undefined ? "T = 0.161·V/(ΣαS + n·A₁ + 4mV)" : "as stated, alike in all bands",
      inputs: stated === undefined ? [given("volume", a.volume, "m³"), given("people", room.seats.reduce((n, s) => n + s.count, 0), "")] : [input(stated, trial, "s")],
      source: stated === undefined ? "Sabine; EN 12354-6:2003; 0.5 m² a person: model choice" : "the text",
    })),
    ...byBand(a.constant, (value) => ({
      name: "room constant", of, value: round(value), unit: "m²", formula: "R = A/(1 − A/S), A = 0.161·V/T",
      inputs: [given("volume", a.volume, "m³"), given("surface", a.surface, "m²")], source: "handbook of sound system design, ch. 6",
    })),
  ];
}

function soundFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup, graph } = scene;
  const { noise } = acoustics(setup, trial);
  const out: Figure[] = [];
  const back = graph.ways("sound", ONLINE, "back");
  const forth = graph.ways("sound", ONLINE, "forth");
  for (const ending of graph.endings.values()) {
    const { part, device } = ending;
    if (part.type === "microphone") {
      const path = back.get(node("microphone", part.id));
      if (path === undefined || path.length === 0 || !carries(path, trial)) continue;
      for (const voice of graph.voices) {
        const places = mouths(setup, voice, trial);
        const arrivals = places.map((mouth) => voiceAtMicrophone(setup, trial, voice, mouth, device, part));
        const ratios = arrivals.map(directToReverberant);
        const worst = ratios.indexOf(Math.min(...ratios));
        const arrival = arrivals[worst];
        if (arrival === undefined) continue;
        const seat = voice.seats === undefined ? undefined : setup.floor.seats(voice.seats, trial)[worst]?.name;
        const where = seat === undefined ? {} : { at: seat };
        out.push(
          { name: "direct to reverberant ratio", of: [voice.name, part.id], ...where, value: round(ratios[worst] ?? NaN), unit: "dB", formula: "10·lg(Σaₖdₖ/Σaₖvₖ), d = γ²M²/r², v = REE/Dc²", inputs: [given("room constant at 1 kHz", acoustics(setup, trial).constant[3], "m²")], source: "handbook of sound system design, ch. 6; weights IEC 60268-16 Ed. 5" },
          { name: "transfer from mouth to microphone", of: [voice.name, part.id], ...where, value: round(speechTransfer(arrival)), unit: "dB", formula: "H = 10·lg Σaₖ(dₖ + vₖ)", inputs: [], source: "as above" },
          { name: "speech over noise at the microphone", of: [voice.name, part.id], ...where, value: round(speechLevel(trial.value(voice.level), arrival) - noise), unit: "dB", formula: "L₁ + H − N", inputs: [input(voice.level, trial, "dBA"), given("noise", noise, "dBA")], source: "ISO 9921 for the level of a voice" },
        );
      }
    } else if (part.type === "loudspeaker") {
      const path = forth.get(node("loudspeaker", part.id));
      if (path === undefined || path.length === 0 || !carries(path, trial)) continue;
      const field = loudspeakerField(setup, trial, device, part);
      const ears = listeners(setup, trial).map((ear) => ({ ear, h: field(ear.at) }));
      const worst = ears.reduce((a, b) => (b.h < a.h ? b : a), ears[0] ?? { ear: { name: "", group: "", row: 1, at: { x: 0, y: 0, z: 0 } }, h: 0 });
      const level = playingLevel(setup, trial, device, part);
      out.push(
        { name: "level at 1 m when playing speech", of: [part.id], value: round(level), unit: "dBA", formula: "median seat gets max(65, N + 20), at most the loudest clean speech", inputs: [given("noise", noise, "dBA"), given("loudest clean speech", loudest(part, trial), "dBA")], source: "model choice; 65 dBA: listening level of commissioning practice" },
        { name: "level at the worst seat", of: [part.id], at: worst.ear.name, value: round(level + worst.h), unit: "dBA", formula: "L₁ + H", inputs: [given("transfer to that seat", worst.h, "dB")], source: "handbook of sound system design, ch. 6" },
        { name: "most speech over noise at the worst seat", of: [part.id], at: worst.ear.name, value: round(loudest(part, trial) + worst.h - noise), unit: "dB", formula: "Lmax + H − N", inputs: [given("noise", noise, "dBA")], source: "common practice, no source" },
      );
    }
  }
  return out;
}

function echoFigures(scene: Scene, trial: Trial): Figure[] {
  return worstLoops(scene.graph).flatMap((loop): Figure[] => {
    const echo = echoOf(scene.graph, loop, trial);
    if (echo === undefined) return [];
    // Who speaks decides how far a microphone is turned up, so an echo has a figure in each item.
    const at = scene.item === undefined ? {} : { at: scene.item };
    const of = [loop.plays.join.device, loop.sends.join.device];
    const delay = callDelay(scene.setup, loop.plays);
    const pair = echo.pair;
    return [
      ...(pair === undefined ? [] : byBand(pair.coupling, (value) => ({
        name: "coupling beside the near talker", of: [pair.speaker.part.id, pair.mic.part.id], ...at, value: round(value), unit: "dB", formula: "G = L_S1 − L_N1 + H_S − H_N",
        inputs: [given("distance", pair.metres, "m"), given("H_N", pair.talkerTransfer, "dB")], source: "model choice",
      }))),
      { name: "echo loss before cancellers", of, ...at, value: round(echo.uncancelled), unit: "dB", formula: "TCL = −10·lg Σ wₖ·10^(G/10)", inputs: [], source: "ITU-T G.122 (weights recalled)" },
      { name: "echo loss", of, ...at, value: round(echo.loss), unit: "dB", formula: "max(46, TCL) where a canceller holds what is played", inputs: [], source: "ITU-T P.1110 for 46 dB" },
      { name: "talker echo loudness rating", of, ...at, value: round(echo.telr), unit: "dB", formula: "TELR = SLR + RLR + TCL = 8 + 2 + TCL", inputs: [given("echo loss", echo.loss, "dB")], source: "ITU-T G.107" },
      { name: "delay of the echo, half the round trip", of, ...at, value: round(echo.delay * 1000), unit: "ms", formula: "T = ½(D₁ + τ_out + r/c + τ_in + D₂)", inputs: [input(delay, trial, "ms", 1000)], source: "ITU-T G.131" },
      { name: "rating needed at this delay", of, ...at, value: round(echo.needed), unit: "dB", formula: "14 + 40·lg((1 + T/10)/(1 + T/150))", inputs: [given("delay", echo.delay * 1000, "ms")], source: "ITU-T G.131, form inferred" },
    ];
  });
}

function sightFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup, graph } = scene;
  const out: Figure[] = [];
  const forth = graph.ways("picture", ONLINE, "forth");
  const back = graph.ways("picture", ONLINE, "back");
  for (const { device, part } of graph.endings.values()) {
    const path = part.type === "display" ? forth.get(node("display", part.id)) : part.type === "camera" ? back.get(node("camera", part.id)) : undefined;
    if (path === undefined || path.length === 0) continue;
    if (part.type === "display") {
      out.push({ name: "height of the picture", of: [part.id], value: round(pictureHeight(setup, device, part, trial)), unit: "m", formula: "16:9", inputs: part.diagonal === undefined ? [] : [input(part.diagonal, trial, "m")], source: "geometry" });
    } else out.push({ name: "angle of view, from side to side", of: [part.id], value: round(viewOf(part, trial)), unit: "°", formula: "α = 2·arctan(d/2f)", inputs: part.view === undefined ? [] : [input(part.view, trial, "°")], source: "geometry" });
  }
  for (const claim of claims(graph)) {
    if (claim.way !== "room-sees-online" && claim.way !== "online-sees-room") continue;
    const a = claim.assess(trial);
    if (a.measured === undefined) continue;
    const faces = graph.joins.flatMap((j) => j.shows).find((s) => s.what === "call")?.faces;
    out.push({
      name: a.measured.what, of: [claim.subject, ...(a.through === undefined ? [] : [a.through])], ...(a.short === undefined ? {} : { at: a.short.worst }), value: round(a.measured.value), unit: a.measured.unit,
      formula: claim.way === "room-sees-online" ? "2·arctan(h/2D), h = picture height/(3·⌈√n⌉)" : "α/2 − off-axis angle",
      inputs: claim.way === "room-sees-online" && faces !== undefined ? [input(faces, trial, "")] : [], source: claim.way === "room-sees-online" ? "geometry; a face is a third of its tile: common practice, no source" : "geometry",
    });
  }
  return out;
}

function streamFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup, graph, item } = scene;
  const over = setup.internets.length > 0 ? [...setup.internets] : [undefined];
  const at = item === undefined ? {} : { at: item };
  return over.flatMap((internet): Figure[] => {
    const streams = streamsOver(graph, internet);
    const each = streams.flatMap((stream): Figure[] => (["minimum", "target", "maximum"] as const).map((which) => ({
      name: `${which} rate of a stream`, of: [stream.title, ...(stream.picture === undefined ? [] : [modeWords(stream.picture)])], ...at, value: round(stream.rate[which] / 1e6), unit: "Mb/s",
      formula: stream.what === "sound" ? "rate + 50·8·(12 + 8 + 20 + 10) bit/s" : "rate·(1 + 50/1178)", inputs: [given("coded", stream.net[which] / 1e6, "Mb/s")],
      source: "RFC 3550, RFC 768, RFC 791, RFC 3711; RFC 7587 for sound; the open-source call implementation's table for pictures",
    })));
    if (streams.length === 0) return [];
    const name = internet?.name ?? "the internet";
    const usable = internet === undefined ? undefined : usableUp(internet, trial);
    return [
      ...each,
      { name: "sent in all", of: [name], ...at, value: round(total(streams, "target") / 1e6), unit: "Mb/s", formula: "Σ target rates", inputs: streams.map((s) => given(s.title, s.rate.target / 1e6, "Mb/s")), source: "arithmetic" },
      ...(usable === undefined || internet?.up === undefined ? [] : [{
        name: "uplink that can be counted on", of: [name], ...at, value: round(usable / 1e6), unit: "Mb/s", formula: "measured × usable part",
        inputs: [input(internet.up, trial, "Mb/s", 1e-6), input(usableShare(internet), trial, "%", 100)], source: "queue-management guide for wired links; common practice else",
      }]),
    ];
  });
}

function powerFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup, graph } = scene;
  const needed = timeNeeded(setup);
  return [...graph.feeds.values()].flatMap((feed): Figure[] => {
    const { device } = feed;
    if (feed.by !== "battery" || device.placed === undefined) return [];
    const life = lasts(setup, device, feed, graph.feeds, trial);
    if (life === undefined || !Number.isFinite(life)) return [];
    const { battery, draws, life: stated } = device.power;
    return [{
      name: "battery life", of: [device.name], value: round(life / 3600), unit: "h", formula: stated === undefined ? "E·η/P" : "as stated",
      inputs: [...(stated === undefined ? [] : [input(stated, trial, "h", 1 / 3600)]), ...(battery === undefined || stated !== undefined ? [] : [input(battery, trial, "Wh", 1 / 3600)]), ...(draws === undefined || stated !== undefined ? [] : [input(draws, trial, "W")])],
      source: "arithmetic; ageing 0.8: common practice, no source",
    }, ...(needed === undefined ? [] : [{
      name: "battery life needed", of: [device.name], value: round((needed.seconds + trial.value(setup.reserve)) / 3600), unit: "h", formula: "access to end + reserve",
      inputs: [input(setup.reserve, trial, "h", 1 / 3600)], source: "common practice, no source",
    }])];
  });
}
