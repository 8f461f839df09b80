/** Floor plans to draw, from texts of invented rooms, and what stands in each other's way in one. */
import { readSetup } from "../../server/model/setup";
import { Trial } from "../../server/model/trial";
import { makeGraph } from "../../server/signal/graph";
import type { Ask, GroundPlan } from "../../server/signal/ground-plan/plan";
import { groundPlanOf } from "../../server/signal/ground-plan/plan-of";
import { study, type Study } from "../../server/study";
import type { Scene } from "../../server/views/plan/scene";
import { boxOfMark } from "../../server/views/plan/things";
import { crosses } from "../../server/views/svg/taken";
import { boxOf, meet, type Box, type Text } from "../../server/views/svg/text";

export const studyOf = (text: string): Study => study({ read: (path) => (path === "evening.bothways" ? { text } : { problem: "there is no such file" }) }, "evening.bothways");

/** The plan alone, of a room so full that judging it takes long. */
export function planAlone(text: string, ask: Ask): GroundPlan {
  const setup = readSetup({ read: (path) => (path === "evening.bothways" ? { text } : { problem: "there is no such file" }) }, "evening.bothways");
  return groundPlanOf(makeGraph(setup, undefined), new Trial(), { ask });
}

export const SCHOOLROOM = `setup "Fern society"
room schoolroom 9.2 m by 6.4 m by 3.1 m {
  noise 38 dBA
  chairs 24 in 4 rows { first 3.2 m, pitch 0.9 m }
  spot lectern at (1.0 m, 2.6 m)
  screen front-screen at front, width 2.0 m
  outlet back-wall at back, sockets 2
  table desk at (8.2 m, 3 m), size 1.6 m by 0.8 m
}
online 8 people
talker Ines at lectern
place laptop is laptop, at (1.5 m, 3.1 m)
place lapel is lapel-microphone, on Ines
place box is battery-loudspeaker, at (0.5 m, 5 m, 1.4 m), aim audience
place projector is projector, at (4.6 m, 3.2 m), fills front-screen
place stage-camera is webcam, behind row 3, aim lectern
cable from laptop.hdmi to projector.hdmi, length 10 m
cable from stage-camera.usb to laptop.usb-1, length 5 m
mains from back-wall to projector
radio from laptop.bluetooth to box.bluetooth
join laptop {
  sends picture from stage-camera at 720p30
  plays sound on box
  shows slides on projector, text-height 3 %
  shows call on laptop.screen
}
`;

/** A ring of people, each with a microphone, and everything else at one place. */
export const RING = `setup "Council"
room chamber 9.8 m by 7.3 m by 3.4 m { table ring at middle, size 6 m by 3.5 m, chairs 12 around ring, outlet floor-box at middle }
online 4 people
talkers 12 around ring
devices mic 1 to 12 is gooseneck-microphone
place each mic around ring
place desk is mixer-12, at operator
place laptop is laptop, at operator
place panel is flat-display, at front
place left-box is battery-loudspeaker, at operator
place right-box is battery-loudspeaker, at operator
`;

/** `rows` rows of `inRow` seats in a hall that holds them. */
export const hall = (rows: number, inRow: number): string => `setup "Great hall"
room hall ${rows * 0.85 + 8} m by ${inRow * 0.55 + 4} m by 9 m { noise 40 dBA, chairs ${rows * inRow} in ${rows} rows { first 4 m, pitch 0.85 m, spacing 0.55 m }, screen front-screen at front, width 6 m }
online 30 people
talker Ada at (1.5 m, 4 m)
place left-box is battery-loudspeaker, at (1 m, 2 m, 2.5 m), aim audience
place laptop is laptop, at back
place beamer is projector, at middle, fills front-screen
join laptop { plays sound on left-box, shows slides on beamer }
`;

interface Thing extends Box {
  readonly what: string;
}

const named = (text: Text): Thing => ({ ...boxOf(text), what: `"${text.text}"` });

export function textsIn(scene: Scene): Text[] {
  const labels = [...scene.things, ...scene.areas, ...scene.routes].flatMap(({ label }) => label?.texts ?? []);
  return [...scene.texts, ...labels, ...scene.rows.flatMap(({ label }) => (label === undefined ? [] : [label])), ...scene.key.map(({ text }) => text), ...scene.bar.texts, ...(scene.north === undefined ? [] : [scene.north.text])];
}

/** Every overlap, in words; empty where there is none. */
export function overlapsIn(scene: Scene): string[] {
  const found: string[] = [];
  const texts = textsIn(scene).map(named);
  const half = scene.seat / 2;
  const seats = scene.rows.flatMap(({ row, seats: all }) => all.map((seat): Thing => ({ x: seat.at.x - half, y: seat.at.y - half, width: scene.seat, height: scene.seat, what: `a seat of row ${row.row}` })));
  const marks = scene.things.map((placed): Thing => ({ ...boxOfMark(placed), what: `the mark of ${placed.thing.name}` }));
  texts.forEach((text, i) => {
    for (const other of [...texts.slice(i + 1), ...seats, ...marks]) if (meet(text, other)) found.push(`${text.what} on ${other.what}`);
    if (text.x < -0.01 || text.y < -0.01 || text.x + text.width > scene.width + 0.01 || text.y + text.height > scene.height + 0.01) found.push(`${text.what} outside`);
    scene.outline.forEach((corner, n) => {
      if (crosses(corner, scene.outline[(n + 1) % scene.outline.length] ?? corner, text)) found.push(`${text.what} on a wall`);
    });
  });
  const labels = [...scene.things, ...scene.areas, ...scene.routes].flatMap(({ label }) => (label === undefined ? [] : [label]));
  for (const { leader, of } of labels) {
    if (leader === undefined) continue;
    for (const text of texts) if (crosses(leader[0], leader[1], text)) found.push(`the line to ${of} on ${text.what}`);
  }
  return found;
}
