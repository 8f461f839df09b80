// Setups of stated content for the bench, the same on every run. All names are invented.

/** The fewest lines in which a setup of this shape has room. */
export const FEWEST_LINES = 100;

/**
 * A setup of exactly `lines` lines in one text, with everything that grows in proportion but items and joins. At 1,000 lines: 250
 * seats, 40 devices, 60 cables, one mixer of 21 channels, 8 items of the programme, 3 joins. What statements do not fill is notes
 * and comments, turn about.
 */
export function makeSetup(lines) {
  if (lines < FEWEST_LINES) throw new Error(`a setup of this shape has ${FEWEST_LINES} lines or more, not ${lines}`);
  const scale = lines / 1000;
  const count = (n) => Math.max(1, Math.round(n * scale));
  const mics = count(20);
  const towers = count(6);
  const fills = count(4);
  // The hall keeps its shape, so that seats stay as dense.
  const side = Math.sqrt(scale);
  const [length, width] = [8 + 20 * side, 2 + 15 * side];
  const rows = Math.max(1, Math.round(10 * side));
  const metres = (value) => `${value.toFixed(1)} m`;
  const across = (i, of) => metres((width * i) / (of + 1));
  const upTo = (n, one) => Array.from({ length: n }, (_, i) => one(i + 1)).flat();

  const out = [
    "bothways 1",
    'setup "Measured evening"',
    `room great-hall ${metres(length)} by ${metres(width)} by 6 m {`,
    "  noise 36 dBA, reverberation 1.1 s guessed",
    `  chairs ${count(250)} in ${rows} rows { first 5 m, pitch 0.9 m }`,
    "  screen backdrop at front, width 4 m",
    "  outlet stage-box at left, sockets 120",
    "  outlet back-box at back, sockets 20",
    "}",
    "meeting { date 2026-10-14, access 17:00, start 18:30, end 21:30, online 30 people }",
    "internet venue { up 40 Mb/s measured 2026-10-07 18:40, wired }",
    "kind many-tracks is an interface {",
    `  ports in 1 to ${mics} is xlr, takes sound`,
    "  port usb is usb-b, gives sound",
    "  runs on mains, draws 15 W",
    "}",
    "kind large-desk is a mixer {",
    `  ports in 1 to ${mics + 1} is xlr, takes sound, phantom`,
    `  ports out 1 to ${towers + fills} is xlr, gives sound`,
    "  port usb is usb-b, gives sound, takes sound",
    "  runs on mains, draws 60 W",
    "}",
    ...Object.entries({ desk: "large-desk", recorder: "many-tracks", laptop: "laptop", second: "laptop", third: "laptop", hub: "network-switch" })
      .flatMap(([name, kind]) => [`place ${name} is ${kind}, at operator`, `mains from back-box to ${name}`]),
    "place beamer is projector, above row 1, height 4 m, fills backdrop",
    "mains from back-box to beamer",
    "place panel is flat-display, at back",
    "mains from back-box to panel",
    "place stage-camera is webcam, at back, height 2 m, aim lectern",
    "place hall-camera is webcam, at left front corner, height 2 m, aim audience",
    "cable from desk.usb to laptop.usb-1",
    "cable from stage-camera.usb to laptop.usb-2, length 5 m",
    "cable from recorder.usb to second.usb-1",
    "cable from hall-camera.usb to second.usb-2, length 5 m",
    `cable from second.headset to desk.in-${mics + 1}`,
    "cable from laptop.hdmi to beamer.hdmi, length 10 m",
    "cable from second.hdmi to panel.hdmi",
    ...["laptop", "second", "third"].map((name, i) => `cable from ${name}.ethernet to hub.port-${i + 1}`),
    ...upTo(mics, (i) => [
      `talker speaker-${i} at (${metres(1 + (i % 3))}, ${across(i, mics)})`,
      `device mic-${i} is gooseneck-microphone {`,
      `  mouth ${20 + (i % 5) * 5} cm within 15 to 50 cm`,
      '  owned by "the club"',
      "}",
      `place mic-${i} at (${metres(1.2 + (i % 3))}, ${across(i, mics)})`,
      `cable from mic-${i}.plug to desk.in-${i} { length 20 m }`,
      `cable from mic-${i}.plug to recorder.in-${i} { length 20 m }`,
    ]),
    ...upTo(towers + fills, (i) => [
      `device box-${i} is ${i <= towers ? "column" : "mains"}-loudspeaker {`,
      `  speech-level ${94 + (i % 5)} dBA within 90 to 100 dBA`,
      `  draws ${50 + (i % 4) * 10} W`,
      "}",
      i <= towers ? `place box-${i} at (2 m, ${across(i, towers)})` : `place box-${i} at (${metres(length / 2)}, ${across(i - towers, fills)})`,
      `cable from desk.out-${i} to box-${i}.line { length 15 m }`,
      `mains from stage-box to box-${i}`,
    ]),
    "mixer desk {",
    ...upTo(mics, (i) => `  channel mic-in-${i} from desk.in-${i}, trim -${i % 6} dB`),
    `  channel online from desk.in-${mics + 1}`,
    ...upTo(towers + fills, (i) => `  bus way-${i} to desk.out-${i} { holds all }`),
    "  bus far-end to desk.usb { holds all, holds no online }",
    "}",
    ...upTo(8, (i) => {
      const minutes = 18 * 60 + 10 + i * 20;
      return `item part-${i} from ${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}, talkers speaker-${((i - 1) % mics) + 1}`;
    }),
    "call { shall show lectern and audience }",
    "join laptop over venue { sends sound from desk, plays no sound, sends picture from stage-camera at 720p30, shows slides on beamer }",
    "join second over venue { sends no sound, plays sound on desk, sends picture from hall-camera at 720p30, shows call on panel }",
    "join third over venue { sends no sound, plays no sound, sends no picture }",
  ];
  if (out.length > lines) throw new Error(`${out.length} lines of statements do not go into ${lines}`);
  for (let i = 1; out.length < lines; i += 1) out.push(i % 2 === 0 ? `# what the caretaker said, ${i}` : `note "Chairs of block ${i} go back to the store."`);
  return `${out.join("\n")}\n`;
}

/** A folder of `count` small setups that share one room file and one kit file: texts by file name. */
export function makeFolder(count) {
  const files = new Map([
    ["room.bothways", "room hall 9.2 m by 6.4 m by 3.1 m {\n  noise 38 dBA\n  chairs 24 in 4 rows\n  outlet left-wall at left\n}\n"],
    ["kit.bothways", "device laptop is laptop\ndevice lapel is lapel-microphone\ndevice box is battery-loudspeaker\n"],
  ]);
  for (let i = 1; i <= count; i += 1) {
    files.set(`evening-${i}.bothways`, [
      `setup "Evening ${i}"`, 'use "room.bothways"', 'use "kit.bothways"',
      `online ${2 + (i % 20)} people`, `internet venue { up ${3 + (i % 9)} Mb/s }`,
      "talker Ines at lectern", "place laptop near lectern", "place lapel on Ines", "place box near front",
      "cable from lapel.plug to laptop.headset", "radio from laptop.bluetooth to box.bluetooth", "mains from left-wall to laptop",
      "join laptop {", "  sends sound from lapel", "  plays sound on box", "}", "",
    ].join("\n"));
  }
  return files;
}

/**
 * A hall of stated size, one statement a line: chairs, loudspeakers in front and over the audience, microphones along a stage, one mixer
 * with a bus for each loudspeaker, a send to the call and its return. The hall grows with its seats and keeps its shape.
 */
export function hallOf({ seats, speakers, mics }) {
  const side = Math.sqrt(seats / 250);
  const [length, width] = [8 + 20 * side, 2 + 15 * side];
  const rows = Math.max(1, Math.round(10 * side));
  const metres = (value) => `${value.toFixed(1)} m`;
  const upTo = (n, one) => Array.from({ length: n }, (_, i) => one(i + 1)).flat();
  // The first four stand beside the stage, the others along the sides.
  const boxAt = (i) => (i <= 4 ? `at (2 m, ${metres((width * i) / 5)})` : `at (${metres(5 + ((length - 6) * Math.ceil((i - 4) / 2)) / Math.max(1, speakers / 2))}, ${i % 2 === 0 ? "0.5 m" : metres(width - 0.5)})`);
  return `${[
    "bothways 1",
    'setup "Measured hall"',
    `room hall ${metres(length)} by ${metres(width)} by 6 m {`,
    "  noise 36 dBA, reverberation 1.1 s guessed",
    `  chairs ${seats} in ${rows} rows { first 5 m, pitch 0.9 m }`,
    "  screen backdrop at front, width 4 m",
    "  outlet stage-box at left, sockets 120",
    "  outlet back-box at back, sockets 20",
    "}",
    "meeting { date 2026-10-14, access 17:00, start 18:30, end 21:30, online 30 people }",
    "internet venue { up 40 Mb/s measured 2026-10-07 18:40, wired }",
    "kind large-desk is a mixer {",
    `  ports in 1 to ${mics + 1} is xlr, takes sound, phantom`,
    `  ports out 1 to ${speakers} is xlr, gives sound`,
    "  port usb is usb-b, gives sound, takes sound",
    "  runs on mains, draws 60 W",
    "}",
    ...["desk is large-desk", "laptop is laptop", "beamer is projector"].flatMap((words) => [
      `place ${words}${words.startsWith("beamer") ? ", above row 1, height 4 m, fills backdrop" : ", at operator"}`, `mains from back-box to ${words.split(" ")[0]}`,
    ]),
    "place camera is webcam, at back, height 2 m, aim lectern",
    "cable from camera.usb to laptop.usb-2, length 5 m",
    "cable from desk.usb to laptop.usb-1",
    `cable from laptop.headset to desk.in-${mics + 1}`,
    "cable from laptop.hdmi to beamer.hdmi, length 10 m",
    ...upTo(mics, (i) => [
      `talker speaker-${i} at (${metres(1 + (i % 3))}, ${metres((width * i) / (mics + 1))})`,
      `device mic-${i} is gooseneck-microphone { mouth 20 cm within 15 to 30 cm }`,
      `place mic-${i} at (${metres(1.2 + (i % 3))}, ${metres((width * i) / (mics + 1))})`,
      `cable from mic-${i}.plug to desk.in-${i} { length 20 m }`,
    ]),
    ...upTo(speakers, (i) => [
      `device box-${i} is column-loudspeaker { speech-level ${92 + (i % 5)} dBA within 88 to 98 dBA }`,
      `place box-${i} ${boxAt(i)}`,
      `cable from desk.out-${i} to box-${i}.line { length 15 m }`,
      `mains from stage-box to box-${i}`,
    ]),
    "mixer desk {",
    ...upTo(mics, (i) => `  channel mic-in-${i} from desk.in-${i}`),
    `  channel return from desk.in-${mics + 1}`,
    ...upTo(speakers, (i) => `  bus way-${i} to desk.out-${i} { holds all }`),
    "  bus send to desk.usb { holds all, holds no return }",
    "}",
    "join laptop over venue { sends sound from desk, plays sound on desk, sends picture from camera at 720p30, shows call on beamer }",
  ].join("\n")}\n`;
}

/** A call of many: so many joined devices, each of which sends sound and a picture in some of so many items of a programme. */
export function callOf({ joins, items }) {
  const upTo = (n, one) => Array.from({ length: n }, (_, i) => one(i + 1)).flat();
  const clock = (minutes) => `${String(18 + Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
  return `${[
    "bothways 1",
    'setup "Measured call"',
    "room hall 16 m by 12 m by 4 m {",
    "  noise 38 dBA, reverberation 0.6 s guessed",
    `  chairs ${joins} in 5 rows { first 3 m, pitch 1.2 m }`,
    "  outlet wall at left, sockets 100",
    "}",
    `meeting { date 2026-10-14, access 17:00, start 18:00, end ${clock(items * 10)}, online 30 people }`,
    "programme {",
    ...upTo(items, (i) => `  item part-${i} from ${clock((i - 1) * 10)}`),
    "}",
    "internet venue { up 60 Mb/s measured 2026-10-07 18:40, wired }",
    ...upTo(joins, (i) => [
      `place laptop-${i} is laptop, at (${(3 + 1.2 * ((i - 1) % 5)).toFixed(1)} m, ${(1 + (10 * i) / (joins + 1)).toFixed(1)} m)`,
      `mains from wall to laptop-${i}`,
      `join laptop-${i} {`,
      ...(i === 1 ? ["  sends sound from laptop-1.microphone", "  plays sound on laptop-1.loudspeaker"] : ["  sends no sound", "  plays no sound"]),
      `  sends picture from laptop-${i}.camera at 360p15 during ${i === 1 ? upTo(items, (k) => `part-${k}`).join(" and ") : `part-${1 + (i % items)}`}`,
      "}",
    ]),
  ].join("\n")}\n`;
}
