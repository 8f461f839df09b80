/** Who does what while people are there, and how each way is tried before they come. */
import { canonical } from "../../model/names";
import { joinDuties, mixerDuties, speakers, type Duty } from "./duties";
import { html, listed, name, sentenceOf, type Part } from "./html";
import { trialsOf, type Link, type Trial } from "./line-check";
import { bounded, during, fill, list, section, thing, tick, type Sheet } from "./sheet";

const MOST_TRIALS = 16;
const MOST_JOBS = 16;

/** What holds in the same items is said behind one naming of them. */
const dutyParts = (duties: readonly Duty[]): Part[] => duties.flatMap(({ text, items }, i): Part[] => {
  const before = duties[i - 1];
  const same = before !== undefined && before.items.join("\n") === items.join("\n");
  return [i === 0 ? "" : same ? ", " : "; ", ...(same ? [] : during(items)), sentenceOf(text)];
});

/** Jobs that follow from the setup, each with a line for the name of whoever does it. */
export function doing(sheet: Sheet): Part[] {
  const { setup } = sheet.study;
  const joins = setup.joins.map((join): Part[] => [html("b", {}, "Runs ", ...thing(sheet, join.device)), ": ", fill(), " ", ...dutyParts(joinDuties(setup, join.device))]);
  const mixers = [...setup.mixers.values()].map((mixer): Part[] => [html("b", {}, "Mixes at ", ...thing(sheet, mixer.device)), ": ", fill(), " ", ...dutyParts(mixerDuties(setup, mixer))]);
  const talking = speakers(setup).map((speaker): Part[] => [
    html("b", {}, name(speaker.name)), " speaks ", name(speaker.place),
    ...(speaker.items.length === 0 ? [] : [" during ", ...listed(speaker.items.slice(0, 4).map((item) => name(item, 24)))]),
    ...(speaker.with.length === 0 ? [] : [", with ", ...listed(speaker.with.slice(0, 4).map((device) => html("span", {}, ...thing(sheet, device))))]),
    ...speaker.repeats.flatMap((duty): Part[] => ["; ", ...during(duty.items), "repeats the words of ", name(duty.text)]),
  ]);
  const elsewhere: Part[][] = joins.length === 0 ? [] : [["In the call from elsewhere for the line check: ", fill()]];
  const { shown, more } = bounded(sheet, [...joins, ...mixers, ...talking], MOST_JOBS, "jobs");
  return section("jobs", "Who does what", ...list([...shown, ...elsewhere]), ...more);
}

/** Each way tried once, with where to look if it fails. */
export function trying(sheet: Sheet): Part[] {
  if (sheet.study.setup.joins.length === 0) return [];
  const { shown, more } = bounded(sheet, trialsOf(sheet.study, [...sheet.links]), MOST_TRIALS, "trials");
  return section("check", "Line check", html("p", { class: "small" }, "One in the last row, one in the call from elsewhere; if a way fails, look along its things in this order."),
    html("ul", { class: "ticks" }, ...shown.map((trial) => html("li", {}, tick(), html("div", {}, ...during(trial.items), ...asked(sheet, trial), " ",
      html("span", { class: "chain" }, "If not: ", ...chain(sheet, trial.chain))))), ...call(sheet), ...internet()), ...more);
}

/** Somebody whom the text names; else somebody who is there. */
function who(sheet: Sheet, subject: string): Part[] {
  const voice = sheet.study.setup.voices.get(canonical(subject));
  return voice !== undefined && voice.stated && voice.seats === undefined ? [name(subject)] : ["somebody at ", name(subject)];
}

function asked(sheet: Sheet, trial: Trial): Part[] {
  const second = trial.chain.filter((link) => link.kind === "thing")[1];
  // Between the one who speaks and the first device there is only somebody who repeats it.
  const repeats = second !== undefined && sheet.study.setup.voices.has(canonical(second.name)) ? second.name : undefined;
  switch (trial.way) {
    case "room-hears-online": return ["Somebody online speaks: it is heard at ", name(trial.subject), ", from the last row too."];
    case "online-hears-room": return [...capital(who(sheet, trial.subject)), " speaks", ...(repeats === undefined ? [] : [", ", name(repeats), " repeats it"]), ": it is heard online."];
    case "room-sees-online": return ["Somebody online waves: one can tell who it is at ", name(trial.subject), ", from the last row too."];
    case "online-sees-room": return [...capital(who(sheet, trial.subject)), " waves: it is seen online."];
  }
}

/** A sentence begins with a capital letter, but a name keeps its own. */
const capital = (parts: readonly Part[]): Part[] => parts.map((part, i) => (i === 0 && typeof part === "string" ? part.charAt(0).toUpperCase() + part.slice(1) : part));

/** Longer chains than this are no chain that anybody follows with a finger. */
const MOST_LINKS = 40;

function chain(sheet: Sheet, whole: readonly Link[]): Part[] {
  // Those at the ends are the ones who try it; what they look along lies between.
  const isThing = (link: Link | undefined): boolean => link?.kind === "thing" && sheet.numbers.has(canonical(link.name));
  const links = whole.filter((link, i) => (i > 0 && i < whole.length - 1) || link.kind !== "thing" || isThing(link));
  const out: Part[] = [];
  let before: Link["kind"] | undefined;
  for (const link of links.slice(0, MOST_LINKS)) {
    switch (link.kind) {
      case "thing": out.push(before === undefined ? "" : before === "lead" ? " – " : " → ", ...thing(sheet, link.name)); break;
      case "lead": out.push(before === undefined ? "" : " – ", html("span", { class: "label" }, link.label)); break;
      case "missing": out.push(before === undefined ? "" : " → ", html("b", { class: "gap" }, name(link.says))); break;
    }
    before = link.kind;
  }
  return links.length > MOST_LINKS ? [...out, " …"] : out;
}

/** The call itself: nobody online may hear themselves. */
function call(sheet: Sheet): Part[] {
  const joined = sheet.study.setup.joins.slice(0, 8).map((join): Part => html("span", {}, ...thing(sheet, join.device)));
  const many = joined.length > 1;
  return [html("li", {}, tick(), html("div", {}, "Quiet in the room while somebody online counts to ten: they do not hear themselves. ",
    html("span", { class: "chain" }, "If they do: see that ", ...listed(joined), many ? " are set as under “Who does what” and nothing else in the room has joined with its sound on; then turn the loudspeaker down."
      : " is set as under “Who does what” and nothing else in the room has joined; then turn the loudspeaker down.")))];
}

function internet(): Part[] {
  return [html("li", {}, tick(), html("div", {}, "All cameras on for two minutes: no picture freezes, no voice breaks up. ",
    html("span", { class: "chain" }, "If not: see “When the internet is thin”.")))];
}
