/** How the setup of a document stands, as the status line and the preview are told. */
import type { WayVerdict } from "../finding";
import { VERDICT_WORDS, WAY_TITLES } from "../model/ways";
import type { Place } from "../workspace/workspace";
import type { SetupName, ShownVerdict, VerdictsOf } from "./messages";
import type { Session } from "./session";

export const shownVerdict = ({ way, verdict, weakest, hangsOn, item }: WayVerdict): ShownVerdict => ({
  way, title: WAY_TITLES[way], verdict, word: VERDICT_WORDS[verdict], weakest, hangsOn, ...(item === undefined ? {} : { item }),
});

export const setupName = ({ workspace }: Session, place: Place): SetupName => ({ uri: workspace.uri(place), title: workspace.title(place) });

/** The verdicts of the setup in view of a place, what was found there, and which setups there are. */
export function verdictsOf(session: Session, uri: string, place: Place): VerdictsOf {
  const { workspace } = session;
  const judged = session.judged(place);
  const study = workspace.study(judged);
  const severe = (severity: string): number =>
    study.problems.filter((one) => one.severity === severity).length + study.findings.filter((one) => one.severity === severity).length;
  return {
    uri, ...(study.isSetup ? { setup: setupName(session, judged) } : {}),
    ways: study.ways.map(shownVerdict), items: study.items,
    errors: severe("error"), warnings: severe("warning"), hints: severe("hint"), questions: study.questions.length,
    setups: (workspace.isSetup(place) ? [place.path] : workspace.setupsWith(place)).map((path) => setupName(session, { folder: place.folder, path })),
  };
}
