/** Who says in another language what others say. They speak for some, not to the room and not to the call. */
import { valuesOf } from "../model/bound";
import { holding } from "../model/during";
import { canonical } from "../model/names";
import type { Voice } from "../model/setup";

/** Whether somebody interprets in an item. */
export const interprets = (voice: Voice, item: string | undefined): boolean => said(voice, item).length > 0;

/** Names of those whose words somebody interprets, canonical; nothing where it is everybody's. */
export function interpreted(voice: Voice, item: string | undefined): ReadonlySet<string> | undefined {
  const of = said(voice, item).map((s) => valuesOf(s, "of", "name"));
  return of.length === 0 || of.some((names) => names.length === 0) ? undefined : new Set(of.flat().map((name) => canonical(name.text)));
}

const said = (voice: Voice, item: string | undefined) => holding(voice.statements, "interprets", item).filter((s) => !s.negated);
