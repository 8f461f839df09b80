/** What every feature is given: the text that is asked about, what the files around it say, and a study where one is needed. */
import type { Texts } from "../model/files";
import type { Setup } from "../model/setup";
import type { SourceFile } from "../model/files";
import type { Study } from "../study";

export interface Asked {
  readonly texts: Texts;
  /** The file that is asked about; one of `setup.files` if it could be read. */
  readonly path: string;
  readonly text: string;
  /** The setup in view, of which the file is part; else the file alone. */
  readonly setup: Setup;
  /** The same, judged: takes longer, so it is made when asked. */
  study(): Study;
}

/** A stretch of the text that is asked about, in UTF-16 units. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** The file that is asked about, as it was read. */
export const fileAsked = ({ setup, path }: Pick<Asked, "setup" | "path">): SourceFile | undefined => setup.files.find((file) => file.path === path);

/** Whether a position touches a stretch: a cursor behind the last letter of a word is still at the word. */
export const touches = (span: Span, offset: number): boolean => span.start <= offset && offset <= span.end;
