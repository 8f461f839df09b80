/**
 * The hand-out for helpers: one self-contained page that needs no network, no script and no program but a browser, and that prints
 * on one sheet of A4 for a small evening: lists on the front, the floor plan on the back. Nothing on it but what the text says or what follows from it.
 */
import { canonical } from "../../model/names";
import type { Study } from "../../study";
import { drawFlow } from "../flow/draw";
import { floorPlan } from "./floor-plan";
import { accepted, fallbacks, openFacts, thinInternet } from "./giving-way";
import { cautions, heading, notes, roomPlan, verdictStrip, warnings } from "./head";
import { html, name, written, type Html, type Part } from "./html";
import { ifMissing } from "./missing";
import { doing, trying } from "./on-the-day";
import { plugging, settingUp } from "./setting-up";
import { command, sheetOf, type Sheet } from "./sheet";
import { STYLE } from "./style";
import { symptomCard } from "./symptom-card";
import { toSettle } from "./to-settle";

export interface HandoutOptions {
  /** The item of the programme that is drawn; the first one where nothing is said. */
  readonly item?: string;
  /** Long lists are printed whole, on however many pages; else what two pages hold. */
  readonly all?: boolean;
}

/** The hand-out of a setup as a complete HTML document. */
export function handout(study: Study, options: HandoutOptions = {}): string {
  const sheet = sheetOf(study, options.all ?? false);
  if (!study.isSetup) return `<!DOCTYPE html>\n${written(page(sheet, nothing(sheet)))}\n`;
  const plan = floorPlan(sheet, options.item);
  const body = html("main", {},
    html("header", {}, ...heading(sheet)),
    ...warnings(sheet),
    verdictStrip(sheet),
    ...drawing(sheet, options.item),
    ...notes(sheet),
    cautions(),
    ...settingUp(sheet),
    html("div", { class: "columns" },
      ...plugging(sheet), ...doing(sheet), ...trying(sheet), ...thinInternet(sheet),
      ...symptomCard(sheet), ...ifMissing(sheet), ...fallbacks(sheet), ...roomPlan(sheet), ...accepted(sheet), ...toSettle(sheet), ...openFacts(sheet)),
    ...plan.parts,
    html("footer", {}, "Numbers in rings are those of the drawing; a label goes on both ends of what it names. Made anew with ", html("code", {}, command(sheet)), "."),
  );
  return `<!DOCTYPE html>\n${written(page(sheet, body, plan.style))}\n`;
}

/** A room or a kit on its own: said plainly, since an editor asks for whatever is open. */
const nothing = (sheet: Sheet): Html => html("main", {}, html("h1", {}, "Nothing to hand out"),
  html("p", {}, name(sheet.study.root), " holds no setup: a room or a kit of its own. Make the hand-out of the setup that uses it."));

function page(sheet: Sheet, body: Html, style = ""): Html {
  return html("html", { lang: "en" },
    html("head", {},
      html("meta", { charset: "utf-8" }),
      html("meta", { name: "viewport", content: "width=device-width, initial-scale=1" }),
      html("meta", { "http-equiv": "Content-Security-Policy", content: "default-src 'none'; style-src 'unsafe-inline'" }),
      html("title", {}, `${sheet.study.isSetup ? sheet.study.title.slice(0, 120) : "Nothing"}: hand-out`),
      html("style", {}, { drawn: `${STYLE}${style}` }),
    ),
    html("body", {}, body));
}

/** The signal flow with the numbers of the lists; on a telephone it is moved sideways by hand. */
function drawing(sheet: Sheet, wanted: string | undefined): Part[] {
  const flow = sheet.study.flow(wanted);
  const numbers = new Map(flow.posts.flatMap((post) => {
    const number = post.role === "device" ? sheet.numbers.get(canonical(post.id)) : undefined;
    return number === undefined ? [] : [[post.id, number] as const];
  }));
  const svg = drawFlow(flow, { theme: "print", stops: false, form: "paper", numbers });
  const others = sheet.study.items.filter((item) => item !== flow.item);
  return [html("figure", {},
    html("div", { class: "drawing", tabindex: 0, role: "region", "aria-label": "Signal flow, drawn" }, { drawn: svg }),
    ...(flow.item === undefined || others.length === 0 ? [] : [html("figcaption", {}, "Drawn as it is during ", html("b", {}, name(flow.item)), "; what changes later stands below.")]))];
}
