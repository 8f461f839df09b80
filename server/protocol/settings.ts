/** What the person at the editor has chosen to be shown, for each folder; never what is judged, which stands in the text. */
import type { Connection } from "vscode-languageserver";
import type { InlayHint } from "../features/inlay-hints";
import { record } from "./expect";

export interface Settings {
  readonly hints: readonly InlayHint["sort"][];
  readonly lenses: boolean;
}

export const USUAL: Settings = { hints: ["computed", "assumed"], lenses: true };

/** Reads what the editor answered; whatever is no setting of ours is as usual. */
export function settingsFrom(answer: unknown): Settings {
  const at = (...path: readonly string[]): unknown => path.reduce<unknown>((value, key) => record(value)?.[key], answer);
  return {
    hints: USUAL.hints.filter((sort) => at("hints", sort) !== false),
    lenses: at("lenses", "shown") !== false,
  };
}

/** Asks the editor once for each document, and again when something was changed. */
export class SettingsOf {
  readonly #known = new Map<string, Promise<Settings>>();

  /** `able`: whether the editor can be asked. */
  constructor(private readonly connection: Connection, private readonly able: boolean) {}

  of(uri: string): Promise<Settings> {
    if (!this.able) return Promise.resolve(USUAL);
    const known = this.#known.get(uri);
    if (known !== undefined) return known;
    const asked = this.connection.workspace.getConfiguration({ scopeUri: uri, section: "bothways" }).then(settingsFrom, () => USUAL);
    this.#known.set(uri, asked);
    return asked;
  }

  forget(): void {
    this.#known.clear();
  }
}
