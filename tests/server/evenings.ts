/** Small folders for the server's tests: an evening with a room and a kit of its own, and a second one that shares both. */
import { readFileSync } from "node:fs";
import path from "node:path";
import { folder, project } from "../cli/built";

export const ROOM = [
  "room hall 9.2 m by 6.4 m by 3.1 m {",
  "  noise 38 dBA measured 2026-10-07 18:40",
  "  chairs 24 in 4 rows",
  "  outlet left-wall at left",
  "}",
  "",
].join("\n");

export const KIT = ["device laptop is laptop", "device lapel is lapel-microphone", "device box is battery-loudspeaker", ""].join("\n");

export const evening = (title: string, online = 8): string => [
  `setup "${title}"`,
  'use "rooms/hall.bothways"',
  'use "kit.bothways"',
  `online ${online} people`,
  "talker Ines at lectern",
  "place laptop near lectern",
  "place lapel on Ines",
  "place box near front",
  "cable from lapel.plug to laptop.headset",
  "radio from laptop.bluetooth to box.bluetooth",
  "mains from left-wall to laptop",
  "join laptop {",
  "  sends sound from lapel",
  "  plays sound on box",
  "}",
  "",
].join("\n");

export const FILES = {
  "autumn.bothways": evening("Autumn evening"), "winter.bothways": evening("Winter evening", 3), "rooms/hall.bothways": ROOM, "kit.bothways": KIT,
} as const;

/** A new folder with both evenings, their room and their kit. */
export const evenings = (more: Readonly<Record<string, string>> = {}): string => folder({ ...FILES, ...more });

export const SAMPLES = path.join(project, "samples");
export const sample = (name: string): string => readFileSync(path.join(SAMPLES, name), "utf8");
