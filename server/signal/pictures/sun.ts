/** Where sun and sky stand over a room in an item of its programme, as far as the text says day, hour and place. */
import { assumed } from "../../model/make-ranged";
import type { Default } from "../../../grammar/vocabulary";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { equationOfTime, skylight, sunAt, sunlight, type Sun } from "../../physics/daylight";

const CP = "common practice, no source";

/** What the sky gives at a time. */
export interface Outdoors {
  /** Nothing where the text does not say day and hour. */
  readonly sun: Sun | undefined;
  /** On level ground from the sky alone, lx. */
  readonly sky: number;
  /** From the sun on a surface turned to it, lx. */
  readonly beam: number;
  /** 0 overcast, 1 clear. */
  readonly clear: number;
}

/** The middle of an item, or of the meeting, in minutes since midnight; nothing where the text does not say when it begins. */
function middleOf(setup: Setup, item: string | undefined): number | undefined {
  const found = setup.items.find((one) => one.name === item);
  const [from, to] = found === undefined ? [setup.start, setup.end] : [found.from ?? setup.start, found.to ?? setup.end];
  return from === undefined ? undefined : (from + (to ?? from + 60)) / 2;
}

/** What decides the daylight of an item besides the trial: its day and hour. */
export const hourKey = (setup: Setup, item: string | undefined): string => (setup.room.openings.some((one) => one.kind === "window") ? `${setup.date ?? ""} ${middleOf(setup, item) ?? ""}` : "");

/** Day of the year of a date, 1 … 366. */
function dayOf(date: string): number | undefined {
  const at = Date.parse(`${date}T12:00:00Z`);
  const year = Date.parse(`${date.slice(0, 4)}-01-01T12:00:00Z`);
  return Number.isFinite(at) && Number.isFinite(year) ? Math.min(366, Math.max(1, Math.round((at - year) / 86_400_000) + 1)) : undefined;
}

/** Hours that a zone's clock is ahead of universal time at noon of a day; nothing for a zone that nobody knows. */
function aheadAt(zone: string, date: string): number | undefined {
  try {
    const at = new Date(`${date}T12:00:00Z`);
    const parts = new Intl.DateTimeFormat("en-GB", { timeZone: zone, hourCycle: "h23", year: "numeric", month: "2-digit", day: "2-digit", hour: "2-digit", minute: "2-digit" }).formatToParts(at);
    const get = (type: string): number => Number(parts.find((p) => p.type === type)?.value ?? NaN);
    const hours = (Date.UTC(get("year"), get("month") - 1, get("day"), get("hour"), get("minute")) - at.getTime()) / 3_600_000;
    return Number.isFinite(hours) ? hours : undefined;
  } catch {
    return undefined;
  }
}

/** Hours that the clock is put forward on a day, as one would in summer. */
function putForward(zone: string, date: string): number | undefined {
  const year = date.slice(0, 4);
  const [now, winter, summer] = [date, `${year}-01-15`, `${year}-07-15`].map((day) => aheadAt(zone, day));
  return now === undefined || winter === undefined || summer === undefined ? undefined : now - Math.min(winter, summer);
}

const SOUTH = /^(australia|antarctica)\/|^pacific\/(auckland|fiji|tongatapu|apia|noumea)|^america\/(argentina|sao_paulo|santiago|montevideo|asuncion|la_paz|lima|punta_arenas)|^africa\/(johannesburg|harare|maputo|windhoek|gaborone|lusaka|luanda|maseru|mbabane)|^indian\/(mauritius|reunion|antananarivo)/i;

/** Where people live in a zone, degrees north. Common practice, no source. */
function latitudes(zone: string | undefined): Default {
  if (zone === undefined) return { best: 48, low: -40, high: 60, source: CP };
  if (SOUTH.test(zone)) return { best: -33, low: -45, high: -10, source: CP };
  return /^europe\//i.test(zone) ? { best: 50, low: 36, high: 62, source: CP } : { best: 38, low: 0, high: 58, source: CP };
}

/** How far the sun's time may lie from the clock's, h: where in its zone a place is, and how long an item lasts. Common practice, no source. */
const OFF = { known: 1, unknown: 1.5 } as const;

/** Sun and sky over the room in an item. */
export function outdoors(setup: Setup, trial: Trial, item: string | undefined): Outdoors {
  const { date, zone, room } = setup;
  const minutes = middleOf(setup, item);
  const day = date === undefined ? undefined : dayOf(date);
  if (date === undefined || minutes === undefined || day === undefined) {
    const sky = trial.value({
      ...assumed("daylight.sky", `how light it is outside ${room.name}`, "illuminance", { best: 3000, low: 0, high: 30_000, source: CP }), ask: "On which day and at what hour is the meeting?",
    });
    return { sun: undefined, sky, beam: 0, clear: 0 };
  }
  return trial.keep(`outdoors ${date} ${minutes}`, () => {
    const forward = zone === undefined ? undefined : putForward(zone, date);
    const slack = forward === undefined ? OFF.unknown : OFF.known;
    const late = trial.value({ ...assumed("daylight.clock", "how far the sun's time is from the clock's", "time", { best: 0, low: -slack * 3600, high: slack * 3600, source: CP }) }) / 3600;
    // Where no zone tells, half an hour stands for summer time from April to October.
    const hour = minutes / 60 - (forward ?? (day > 90 && day < 300 ? 0.5 : 0)) + equationOfTime(day) + late;
    const latitude = trial.value(room.latitude ?? { ...assumed("room.latitude", `the latitude of ${room.name}`, "angle", latitudes(zone)), ask: `How far north is ${room.name}, in degrees of latitude?` });
    const sun = sunAt((latitude * Math.PI) / 180, day, hour);
    const clear = sun.altitude < -0.11 ? 0 : trial.value(assumed("daylight.clear", "how clear the sky is, 0 overcast to 1 clear", "ratio", { best: 0.5, low: 0, high: 1, source: CP }));
    const mix = (at: (sky: "cloudy" | "partly" | "clear") => number): number => (clear < 0.5 ? at("cloudy") * (1 - 2 * clear) + at("partly") * 2 * clear : at("partly") * (2 - 2 * clear) + at("clear") * (2 * clear - 1));
    return { sun, sky: mix((sky) => skylight(sun.altitude, sky)), beam: mix((sky) => sunlight(sun.altitude, day, sky)), clear };
  });
}
