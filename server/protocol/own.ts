/** The requests that only Bothways has; `messages.ts` says what each takes and gives. */
import type { CancellationToken } from "vscode-languageserver-protocol";
import { explain } from "../features/explain";
import { lookFrom, type Looked } from "../features/look";
import { LOOK_TITLES, LOOKS } from "../features/looks";
import { move } from "../features/move";
import type { Setup } from "../model/setup";
import { readSetup } from "../model/setup";
import { ASK_TITLES, ASKS } from "../signal/ground-plan/plan";
import type { Study } from "../study";
import { drawnFlow } from "../views/flow/draw";
import { drawnSide } from "../views/elevation/draw";
import { handout } from "../views/handout/handout";
import { drawnPerspective } from "../views/perspective/draw";
import { drawnPlan } from "../views/plan/draw";
import { remarks, starter } from "../views/starter";
import { chosen, explainAsked, flowAsked, handoutAsked, lookAsked, moveAsked, planAsked, starterAsked, verdictsAsked } from "./expect";
import { METHODS, type Explained, type FlowOf, type HandoutOf, type LookOf, type MoveOf, type PlanOf, type StarterOf, type VerdictsOf } from "./messages";
import type { Parts } from "./standard";
import { setupName, shownVerdict, verdictsOf } from "./status";

const NEW_FILE = "meeting.bothways";

export function own({ guard, session, publisher }: Parts): void {
  const { workspace } = session;

  // Whoever started a worker has no other way to know that it is there.
  guard.request(METHODS.alive, () => ({}), () => true, true);

  guard.request(METHODS.verdicts, verdictsAsked, async ({ uri }, token): Promise<VerdictsOf | null> => {
    await publisher.settled(token);
    const place = workspace.place(uri);
    return place === undefined || token.isCancellationRequested ? null : verdictsOf(session, uri, place);
  }, null);

  guard.request(METHODS.choose, chosen, ({ uri, setup }): VerdictsOf | null => {
    const place = workspace.place(uri);
    if (place === undefined) return null;
    const wanted = setup === undefined ? undefined : workspace.place(setup);
    // A setup of another folder is none that could take the file in.
    if (setup === undefined || wanted?.folder === place.folder) workspace.choose(place, wanted?.path);
    session.moved();
    publisher.touch(uri, 0);
    return verdictsOf(session, uri, place);
  }, null);

  /** What a drawing of a document's setup is told with; nothing where there is no setup to draw. */
  const drawing = async (uri: string, token: CancellationToken, draw: (study: Study) => { readonly svg: string; readonly description: string; readonly item: string | undefined }): Promise<FlowOf | undefined> => {
    await publisher.settled(token);
    const place = workspace.place(uri);
    if (place === undefined || token.isCancellationRequested) return undefined;
    const judged = session.judged(place);
    const study = workspace.study(judged);
    if (!study.isSetup) return undefined;
    const drawn = draw(study);
    const version = workspace.document(uri)?.version;
    return {
      setup: setupName(session, judged), svg: drawn.svg, desc: drawn.description, items: study.items, ...(drawn.item === undefined ? {} : { item: drawn.item }),
      verdicts: study.ways.filter((way) => way.item === undefined || drawn.item === undefined || way.item === drawn.item).map(shownVerdict),
      files: study.files.map(({ path }) => ({ path, uri: workspace.uri({ folder: place.folder, path }) })),
      ...(version === undefined ? {} : { version }),
    };
  };

  guard.request(METHODS.flow, flowAsked, async ({ uri, item, ...look }, token): Promise<FlowOf | null> =>
    (await drawing(uri, token, (study) => {
      const flow = study.flow(item);
      return { ...drawnFlow(flow, look), item: flow.item };
    })) ?? null, null);

  guard.request(METHODS.plan, planAsked, async ({ uri, item, ask, ...look }, token): Promise<PlanOf | null> => {
    const drawn = await drawing(uri, token, (study) => {
      const plan = study.plan(item, ask);
      return { ...drawnPlan(plan, look), item: plan.item };
    });
    return drawn === undefined ? null : { ...drawn, asks: ASKS.map((one) => ({ ask: one, title: ASK_TITLES[one] })), ...(ask === undefined ? {} : { ask }) };
  }, null);

  guard.request(METHODS.look, lookAsked, async ({ uri, item, view = "camera", of, ...look }, token): Promise<LookOf | null> => {
    let looked: Looked | undefined;
    const drawn = await drawing(uri, token, (study) => {
      looked = lookFrom(study, view, of, item);
      const { seen } = looked;
      if ("nothing" in seen) return { svg: "", description: seen.nothing, item: study.flow(item).item };
      return { ...("view" in seen ? drawnPerspective(seen, look) : drawnSide(seen, look)), item: seen.item };
    });
    if (drawn === undefined || looked === undefined) return null;
    return { ...drawn, view, views: LOOKS.map((one) => ({ view: one, title: LOOK_TITLES[one] })), places: looked.places, ...(looked.of === undefined ? {} : { of: looked.of }) };
  }, null);

  guard.request(METHODS.move, moveAsked, ({ uri, ...wanted }): MoveOf | null => {
    const place = workspace.place(uri);
    if (place === undefined) return null;
    const judged = session.judged(place);
    const done = move(place.folder.texts, judged.path, wanted);
    if ("refused" in done) return { edits: [], says: done.refused, refused: true };
    return {
      edits: done.edits.map(({ path, start, end, newText }) => ({ uri: workspace.uri({ folder: place.folder, path }), start, end, newText })),
      says: done.says, refused: false,
    };
  }, null);

  guard.request(METHODS.handout, handoutAsked, async ({ uri, item }, token): Promise<HandoutOf | null> => {
    await publisher.settled(token);
    const place = workspace.place(uri);
    if (place === undefined || token.isCancellationRequested) return null;
    const judged = session.judged(place);
    const study = workspace.study(judged);
    return study.isSetup ? { setup: setupName(session, judged), html: handout(study, item === undefined ? {} : { item }) } : null;
  }, null);

  guard.request(METHODS.explain, explainAsked, ({ code }): Explained | null => explain(code) ?? null, null);

  guard.request(METHODS.starter, starterAsked, (answers): StarterOf | null => {
    const started = starter(answers);
    const read = readSetup({ read: (path) => (path === NEW_FILE ? { text: started.text } : { problem: "there is no such file" }) }, NEW_FILE);
    const problem = misfit(read, started.text);
    return { text: started.text, remarks: remarks(started), ...(problem === undefined ? {} : { problem }) };
  }, null);
}

/** What an answer did to the text that it does not read well, with the line. */
function misfit(read: Setup, text: string): string | undefined {
  const [problem] = read.problems;
  if (problem === undefined) return undefined;
  const line = text.slice(0, problem.where.start).split("\n").length - 1;
  return `An answer does not fit: ${problem.message} (in the line: ${text.split("\n")[line] ?? ""})`;
}
