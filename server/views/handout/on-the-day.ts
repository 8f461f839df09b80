/** Who does what while people are there, and how each way is tried before they come. */
import { canonical } from "../../model/names";
import { joinDuties, mixerDuties, speakers, type Duty, type Speaker } from "./duties";
import { html, listed, name, sentenceOf, type Html, type Part } from "./html";
import { trialsOf, type Link, type Trial } from "./line-check";
import { bounded, during, fill, list, section, thing, tick, type Sheet } from "./sheet";

/** Of each way. */
const MOST_TRIALS = 14;
const MOST_JOBS = 16;
const MOST_NAMES = 12;

/** What holds in the same items is said behind one naming of them. */
const dutyParts = (duties: readonly Duty[]): Part[] => duties.flatMap(({ text, items }, i): Part[] => {
  const before = duties[i - 1];
  const same = before !== undefined && before.items.join("\n") === items.join("\n");
  return [i === 0 ? "" : same ? ", " : "; ", ...(same ? [] : during(items)), sentenceOf(text)];
});

/** Names in bold, as many as one reads. */
const naming = (names: readonly string[]): Part[] => [
  ...listed(names.slice(0, MOST_NAMES).map((one) => html("b", {}, name(one))), ", ", names.length > MOST_NAMES ? ", " : " and "),
  names.length > MOST_NAMES ? ` and ${names.length - MOST_NAMES} more` : "",
];

/** Jobs that follow from the setup, each with a line for the name of whoever does it. */
export function doing(sheet: Sheet): Part[] {
  const { setup } = sheet.study;
  const joins = setup.joins.map((join): Part[] => [html("b", {}, "Runs ", ...thing(sheet, join.device)), ": ", fill(), " ", ...dutyParts(joinDuties(setup, join.device))]);
  const mixers = [...setup.mixers.values()].map((mixer): Part[] => [html("b", {}, "Mixes at ", ...thing(sheet, mixer.device)), ": ", fill(), " ", ...dutyParts(mixerDuties(setup, mixer))]);
  const { shown, more } = bounded(sheet, [...joins, ...mixers, ...speakers(setup).map((speaker) => speaking(sheet, speaker))], MOST_JOBS, "jobs");
  return section("jobs", "Who does what", ...list(shown), ...more);
}

const speaking = (sheet: Sheet, speaker: Speaker): Part[] => [
  ...naming(speaker.names), speaker.names.length > 1 ? " speak " : " speaks ", name(speaker.place),
  ...(speaker.items.length === 0 ? [] : [" during ", ...listed(speaker.items.slice(0, 4).map((item) => name(item, 24))), speaker.items.length > 4 ? ` and ${speaker.items.length - 4} more` : ""]),
  ...(speaker.with.length === 0 ? [] : [", with ", ...listed(speaker.with.slice(0, 4).map((device) => html("span", {}, ...thing(sheet, device))))]),
  ...speaker.repeats.flatMap((duty): Part[] => ["; ", ...during(duty.items), "repeats the words of ", name(duty.text)]),
];

/** What is asked for, and what has to come of it. */
const ASKED: Readonly<Record<Trial["way"], string>> = {
  "room-hears-online": "Somebody online speaks: the last row hears every word.",
  "online-hears-room": "Each speaks in turn: heard online.",
  "room-sees-online": "Somebody online waves: the last row sees who it is.",
  "online-sees-room": "Each waves in turn: seen online.",
};

/** Each way tried once, with where to look if it fails. */
export function trying(sheet: Sheet): Part[] {
  if (sheet.study.setup.joins.length === 0) return [];
  const trials = trialsOf(sheet.study, sheet.links, (named) => sheet.numbers.has(canonical(named)));
  const ways = [...new Set(trials.map((trial) => trial.way))];
  return section("check", "Line check",
    html("p", {}, "One in the last row, one in the call from elsewhere: ", fill(), ". Where a way fails, look along what is named behind it: there, powered, plugged in, turned up, chosen in the call?"),
    ...ways.flatMap((way): Part[] => {
      const { shown, more } = bounded(sheet, trials.filter((trial) => trial.way === way), MOST_TRIALS, "trials");
      return [html("p", { class: "asked" }, html("b", {}, ASKED[way]), " If not, look at"), html("ul", { class: "ticks" }, ...shown.map((trial) => row(sheet, trial))), ...more];
    }),
    html("ul", { class: "ticks" }, echo(), internet()));
}

const row = (sheet: Sheet, trial: Trial): Html => html("li", {}, tick(), html("div", {}, ...naming(trial.subjects),
  ...(trial.repeatedBy === undefined ? [] : [" (", name(trial.repeatedBy), " repeats)"]),
  ...(trial.items.length === 0 ? [] : [" during ", ...listed(trial.items.slice(0, 3).map((item) => name(item, 24))), trial.items.length > 3 ? ` and ${trial.items.length - 3} more` : ""]),
  ": ", ...chain(sheet, trial.chain)));

/** Longer chains than this are no chain that anybody follows with a finger. */
const MOST_LINKS = 40;

function chain(sheet: Sheet, links: readonly Link[]): Part[] {
  const shown = links.slice(0, MOST_LINKS).map((link, i): Part => {
    const before = i === 0 ? "" : " – ";
    switch (link.kind) {
      case "device": return html("span", {}, before, ...thing(sheet, link.name));
      case "lead": return html("span", {}, before, html("span", { class: "label" }, link.label));
      case "missing": return html("span", {}, before, html("b", { class: "gap" }, name(link.says)));
    }
  });
  return [...(shown.length === 0 ? ["nothing is planned for it"] : shown), links.length > MOST_LINKS ? " …" : ""];
}

/** The call itself: nobody online may hear themselves. */
const echo = (): Html => html("li", {}, tick(), html("div", {}, html("b", {}, "Quiet in the room while somebody online counts to ten: they do not hear themselves."), " If not, see “If somebody says”."));

const internet = (): Html => html("li", {}, tick(), html("div", {}, html("b", {}, "All cameras on for two minutes: no picture freezes, no voice breaks up."), " If not, see “When the internet is thin”."));
