/** The requests that only Bothways has; `messages.ts` says what each takes and gives. */
import { explain } from "../features/explain";
import type { Setup } from "../model/setup";
import { readSetup } from "../model/setup";
import { drawnFlow } from "../views/flow/draw";
import { handout } from "../views/handout/handout";
import { remarks, starter } from "../views/starter";
import { chosen, explainAsked, flowAsked, handoutAsked, starterAsked, verdictsAsked } from "./expect";
import { METHODS, type Explained, type FlowOf, type HandoutOf, type StarterOf, type VerdictsOf } from "./messages";
import type { Parts } from "./standard";
import { setupName, shownVerdict, verdictsOf } from "./status";

const NEW_FILE = "meeting.bothways";

export function own({ guard, session, publisher }: Parts): void {
  const { workspace } = session;

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

  guard.request(METHODS.flow, flowAsked, async ({ uri, item, theme, form, width }, token): Promise<FlowOf | null> => {
    await publisher.settled(token);
    const place = workspace.place(uri);
    if (place === undefined || token.isCancellationRequested) return null;
    const judged = session.judged(place);
    const study = workspace.study(judged);
    if (!study.isSetup) return null;
    const flow = study.flow(item);
    const drawn = drawnFlow(flow, { ...(theme === undefined ? {} : { theme }), ...(form === undefined ? {} : { form }), ...(width === undefined ? {} : { width }) });
    const version = workspace.document(uri)?.version;
    return {
      setup: setupName(session, judged), svg: drawn.svg, desc: drawn.description, items: study.items, ...(flow.item === undefined ? {} : { item: flow.item }),
      verdicts: study.ways.filter((way) => way.item === undefined || flow.item === undefined || way.item === flow.item).map(shownVerdict),
      files: study.files.map(({ path }) => ({ path, uri: workspace.uri({ folder: place.folder, path }) })),
      ...(version === undefined ? {} : { version }),
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
