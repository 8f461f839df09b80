/** The drawing in words, for those who cannot see it: every way, every line across, where it breaks, every echo. */
import { VERDICT_WORDS, WAY_TITLES } from "../../model/ways";
import type { Flow, Run } from "../../signal/drawing/flow";
import { shorten } from "../svg/wrap";
import { kindOf } from "./labels";
import type { Line, Network } from "./network";

/** A description longer than this nobody listens to. */
const MOST_RUNS = 60;
/** Lengths of names and of sentences, in letters' widths. */
const NAME_LENGTH = 80;
const SENTENCE_LENGTH = 250;

function brief(name: string): string {
  return shorten(name, 1, NAME_LENGTH);
}

/** A sentence ends in a full stop, whoever wrote it. */
function sentence(text: string): string {
  const trimmed = shorten(text, 1, SENTENCE_LENGTH);
  return trimmed === "" || /[.!?…]$/u.test(trimmed) ? trimmed : `${trimmed}.`;
}

/** One line of the drawing in words: from what to what, by what, what is missing, and who takes it. */
export function describeLine(line: Line, nameOf: (id: string) => string): string {
  const end = (id: string, port: string): string => (port === "" ? nameOf(id) : `${nameOf(id)} (${port})`);
  const how = line.gap !== "" ? `: ${line.gap}` : line.remark !== "" ? `: ${line.remark}` : "";
  const titles = [...new Set(line.runs.map((run) => run.title).filter((title) => title !== ""))];
  const shown = titles.slice(0, 6).map(brief).join("; ");
  const rest = titles.length > 6 ? `; and ${titles.length - 6} more` : "";
  return `${end(line.from, line.fromPort)} to ${end(line.to, line.toPort)}${how}${shown === "" ? "" : ` — ${shown}${rest}`}`;
}

function describeRun(run: Run, lines: readonly Line[], nameOf: (id: string) => string): string {
  const [first] = lines;
  const title = run.title === "" ? "" : `${brief(run.title)}: `;
  if (first === undefined) return `${title}nothing is drawn.`;
  const path = [first.from, ...lines.map((line) => line.to)].map((id) => brief(nameOf(id))).join(", ");
  const gaps = lines.filter((line) => line.gap !== "");
  const breaks = gaps.map((line) => `breaks between ${brief(nameOf(line.from))} and ${brief(nameOf(line.to))}: ${brief(line.gap)}`);
  return `${title}${path}; ${breaks.length === 0 ? "complete" : breaks.join("; ")}.`;
}

/** The title and the description of the whole drawing. */
export function describe(flow: Flow, network: Network): { title: string; description: string } {
  const names = new Map([...network.posts, ...network.loose].map((post) => [post.id, post.name]));
  const nameOf = (id: string): string => names.get(id) ?? id;
  const title = `Signal flow: ${flow.title}${flow.item === undefined ? "" : `, during ${flow.item}`}`;
  const parts: string[] = ["The room is at the left, the people online are at the right; each way across is a horizontal band."];
  let told = 0;
  for (const { band, runs, left } of network.bands) {
    parts.push(`${WAY_TITLES[band.way]}: ${VERDICT_WORDS[band.verdict]}. ${sentence(band.sentence)}`);
    for (const { run, lines } of runs) {
      told += 1;
      if (told <= MOST_RUNS) parts.push(describeRun(run, lines, nameOf));
    }
    if (left > 0) parts.push(`${left} more not drawn.`);
  }
  if (told > MOST_RUNS) parts.push(`${told - MOST_RUNS} more lines across are drawn.`);
  for (const echo of network.echoes) {
    const way = (ids: readonly string[]): string => ids.map((id) => brief(nameOf(id))).join(", ");
    const name = kindOf(echo.run) === "howl" ? "Howl" : "Echo";
    const heading = echo.run.title === "" ? name : `${name}, ${brief(echo.run.title)}`;
    if (kindOf(echo.run) === "howl") parts.push(`${heading}: goes round and round by ${way([...echo.out, ...echo.back])}.`);
    else parts.push(`${heading}: goes out by ${way(echo.out)}, turns round and comes back by ${way(echo.back)}.`);
  }
  if (network.echoesLeft > 0) parts.push(`${network.echoesLeft} more echoes are not drawn.`);
  for (const post of network.posts) if (post.trouble !== "") parts.push(`${brief(post.name)}: ${sentence(brief(post.trouble))}`);
  if (network.loose.length > 0) parts.push(`On no way across: ${network.loose.map((post) => brief(post.name)).join(", ")}.`);
  if (network.postsLeft > 0) parts.push(`${network.postsLeft} more posts are not drawn.`);
  parts.push(`${WAY_TITLES.call}: ${VERDICT_WORDS[flow.call.verdict]}. ${sentence(flow.call.sentence)}`);
  parts.push(`${WAY_TITLES.internet}: ${VERDICT_WORDS[flow.internet.verdict]}. ${sentence(flow.internet.sentence)}`);
  return { title, description: parts.filter((part) => part.trim() !== "").join(" ") };
}
