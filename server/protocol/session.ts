/** What one editor has open, and how a feature is asked about it. */
import { TextDocument } from "vscode-languageserver-textdocument";
import type { Asked } from "../features/asked";
import { diagnosticsOfPart, diagnosticsOfSetup, type Shown } from "../features/diagnostics";
import type { Setup } from "../model/setup";
import type { Study } from "../study";
import { keyOf } from "../workspace/uris";
import { Workspace, type OpenDocument, type Place, type Shelf } from "../workspace/workspace";
import type { Change } from "./expect";

export class Session {
  readonly workspace: Workspace;
  /** The texts with their lines, as the protocol changes them. */
  readonly #texts = new Map<string, TextDocument>();
  #revision = 0;

  constructor(open: (uri: string) => Shelf) {
    this.workspace = new Workspace(open);
  }

  /** Goes up with every change of a text or of the folders: what was worked out before one may not fit after it. */
  get revision(): number {
    return this.#revision;
  }

  /** Something changed that is none of the open documents. */
  moved(): void {
    this.#revision += 1;
  }

  open(uri: string, version: number, text: string): void {
    this.#texts.set(keyOf(uri), TextDocument.create(uri, "bothways", version, text));
    this.workspace.put(uri, version, text);
    this.moved();
  }

  /** Takes changes in, in their order; false where the document is not open. */
  change(uri: string, version: number | undefined, changes: readonly Change[]): boolean {
    const known = this.#texts.get(keyOf(uri));
    if (known === undefined) return false;
    const after = TextDocument.update(known, [...changes], version ?? known.version);
    this.#texts.set(keyOf(uri), after);
    this.workspace.put(known.uri, after.version, after.getText());
    this.moved();
    return true;
  }

  close(uri: string): OpenDocument | undefined {
    const document = this.workspace.document(uri);
    this.#texts.delete(keyOf(uri));
    this.workspace.close(uri);
    this.moved();
    return document;
  }

  /** The setup that is judged for a place: the one in view, else the file alone. */
  judged(place: Place): Place {
    const root = { folder: place.folder, path: this.workspace.inView(place) ?? place.path };
    // A file that its setup could not take in is looked at alone.
    return root.path === place.path || this.workspace.setup(root).files.some((file) => file.path === place.path) ? root : place;
  }

  studyFor(place: Place): Study {
    return this.workspace.study(this.judged(place));
  }

  /** What features are asked with; nothing where the address means no text that can be read. */
  asked(uri: string): (Asked & { readonly place: Place }) | undefined {
    const place = this.workspace.place(uri);
    const text = place && this.workspace.text(place);
    if (place === undefined || text === undefined) return undefined;
    const root = this.judged(place);
    return { place, texts: place.folder.texts, path: place.path, text, setup: this.workspace.setup(root), study: () => this.workspace.study(root) };
  }

  /** The setups with a file, read once for one question. */
  setupsWith(place: Place): (path: string) => readonly Setup[] {
    const known = new Map<string, readonly Setup[]>();
    const read = new Map<string, Setup>();
    return (path) => {
      const before = known.get(path);
      if (before !== undefined) return before;
      const roots = this.workspace.setupsWith({ folder: place.folder, path });
      const setups = (roots.length > 0 ? roots : [path]).map((root) => {
        const setup = read.get(root) ?? this.workspace.setup({ folder: place.folder, path: root });
        read.set(root, setup);
        return setup;
      });
      known.set(path, setups);
      return setups;
    };
  }

  /** What is shown in an open document. */
  shown(document: OpenDocument): readonly Shown[] {
    const { place } = document;
    const study = this.studyFor(place);
    return study.isSetup && study.root === place.path ? diagnosticsOfSetup(study) : diagnosticsOfPart(study, place.path);
  }
}
