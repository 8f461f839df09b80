/** From offsets in the texts of a study to lines and characters, for whoever reads the output. */
import { lineTable, type LineTable } from "../../grammar/lines";
import type { Where } from "../model/where";
import type { Study } from "../study";
import type { FolderTexts } from "./texts";
import { shownPath } from "./texts";
import path from "node:path";

/** Counted from 0, characters in UTF-16 units. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

export interface Place {
  /** As one types it where the command was given. */
  readonly path: string;
  readonly range: Range;
  /** Absent for what stands in no file of the study (built-in equipment). */
  readonly text: string | undefined;
}

/** Finds places in the texts of one study. */
export class Places {
  readonly #texts = new Map<string, string>();
  readonly #tables = new Map<string, LineTable>();
  readonly #show: (path: string) => string;

  /** `show` turns a path of the study into the one that is printed. */
  constructor(study: Pick<Study, "files">, show: (path: string) => string) {
    for (const file of study.files) this.#texts.set(file.path, file.text);
    this.#show = show;
  }

  /** Places as seen from the current folder. */
  static of(study: Study, texts: FolderTexts): Places {
    return new Places(study, (given) => shownPath(path.join(texts.root, given)));
  }

  shown(given: string): string {
    return this.#texts.has(given) ? this.#show(given) : given;
  }

  range(where: Where): Range {
    const text = this.#texts.get(where.path);
    if (text === undefined) return { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
    let table = this.#tables.get(where.path);
    if (table === undefined) {
      table = lineTable(text);
      this.#tables.set(where.path, table);
    }
    return { start: table.at(where.start), end: table.at(where.end) };
  }

  at(where: Where): Place {
    return { path: this.shown(where.path), range: this.range(where), text: this.#texts.get(where.path) };
  }
}
