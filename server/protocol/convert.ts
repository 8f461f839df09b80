/** Offsets, paths and what features give, as the protocol has them: nowhere else are the two translated. */
import {
  CodeActionKind, CompletionItemKind, DiagnosticSeverity, FoldingRangeKind, InsertTextFormat, MarkupKind, SymbolKind,
  type CodeAction, type CodeLens, type CompletionItem, type Diagnostic, type DocumentSymbol, type FoldingRange, type Hover as ShownHover,
  type Location, type MarkupContent, type Position, type Range, type CallHierarchyItem, type SignatureHelp, type SymbolInformation, type TextEdit, type WorkspaceEdit, type WorkspaceSymbol,
} from "vscode-languageserver";
import { lineTable, type LineTable } from "../../grammar/lines";
import type { Span } from "../features/asked";
import type { Action } from "../features/code-actions";
import type { Offer, OfferKind } from "../features/completion";
import type { Level, Shown } from "../features/diagnostics";
import type { Hover } from "../features/hover";
import type { Lens } from "../features/lenses";
import type { OutlineNode } from "../features/outline";
import type { Refactoring } from "../features/refactorings";
import type { Signature } from "../features/signature";
import type { Station } from "../features/signal-path";
import type { NamedSymbol } from "../features/workspace-symbols";
import type { Edit } from "../finding";
import type { Where } from "../model/where";
import type { Folder, Place, Workspace } from "../workspace/workspace";
import type { Abilities } from "./abilities";
import { COMMANDS, EXPLAIN_SCHEME } from "./messages";

const SEVERITIES: Readonly<Record<Level, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error, warning: DiagnosticSeverity.Warning, ask: DiagnosticSeverity.Information, hint: DiagnosticSeverity.Hint,
};

const OFFERS: Readonly<Record<OfferKind, CompletionItemKind>> = {
  statement: CompletionItemKind.Keyword, connector: CompletionItemKind.Operator, name: CompletionItemKind.Variable, word: CompletionItemKind.EnumMember,
  unit: CompletionItemKind.Unit, file: CompletionItemKind.File, value: CompletionItemKind.Value,
};

/** Heads that an outline tells apart; every other statement is a property. */
const SYMBOLS: ReadonlyMap<string, SymbolKind> = new Map([
  ["setup", SymbolKind.Module], ["use", SymbolKind.File], ["room", SymbolKind.Namespace], ["kind", SymbolKind.Class],
  ["device", SymbolKind.Object], ["devices", SymbolKind.Array], ["place", SymbolKind.Object], ["part", SymbolKind.Field], ["port", SymbolKind.Field],
  ["ports", SymbolKind.Array], ["cable", SymbolKind.Interface], ["radio", SymbolKind.Interface], ["mains", SymbolKind.Interface],
  ["mixer", SymbolKind.Struct], ["channel", SymbolKind.Field], ["bus", SymbolKind.Field], ["item", SymbolKind.Event], ["join", SymbolKind.Method],
  ["talker", SymbolKind.Variable], ["note", SymbolKind.String],
]);

/** Texts whose lines are remembered; more than one answer is about. */
const MOST_KEPT = 64;

export class Convert {
  readonly #workspace: Workspace;
  readonly #abilities: Abilities;
  /** By path; told from an older one by the text. */
  readonly #tables = new Map<string, { readonly text: string; readonly table: LineTable }>();

  constructor(workspace: Workspace, abilities: Abilities) {
    this.#workspace = workspace;
    this.#abilities = abilities;
  }

  lines(text: string, id = ""): LineTable {
    const known = this.#tables.get(id);
    if (known?.text === text) return known.table;
    const table = lineTable(text);
    if (this.#tables.size >= MOST_KEPT) this.#tables.clear();
    this.#tables.set(id, { text, table });
    return table;
  }

  #linesAt({ folder, path }: Place): LineTable | undefined {
    const text = this.#workspace.text({ folder, path });
    return text === undefined ? undefined : this.lines(text, `${folder.key}\n${path}`);
  }

  offset(text: string, { line, character }: Position): number {
    return this.lines(text).offset(line, character);
  }

  span(text: string, { start, end }: Range): Span {
    const [a, b] = [this.offset(text, start), this.offset(text, end)];
    return { start: Math.min(a, b), end: Math.max(a, b) };
  }

  range(text: string, { start, end }: Span): Range {
    const lines = this.lines(text);
    return { start: lines.at(start), end: lines.at(end) };
  }

  /** A place in a file of a folder; nothing where its text cannot be read, as that of the typical equipment. */
  location(folder: Folder, where: Where): Location | undefined {
    const place = { folder, path: where.path };
    const lines = this.#linesAt(place);
    return lines && { uri: this.#workspace.uri(place), range: { start: lines.at(where.start), end: lines.at(where.end) } };
  }

  locations(folder: Folder, wheres: readonly Where[]): Location[] {
    return wheres.flatMap((where) => this.location(folder, where) ?? []);
  }

  diagnostic(folder: Folder, text: string, shown: Shown): Diagnostic {
    const { relatedPlaces, linkedCodes, diagnosticData } = this.#abilities;
    const related = relatedPlaces ? shown.related.flatMap(({ where, message }) => {
      const location = this.location(folder, where);
      return location === undefined ? [] : [{ location, message }];
    }) : [];
    return {
      range: this.range(text, shown), severity: SEVERITIES[shown.level], code: shown.code, source: "bothways", message: shown.message,
      ...(shown.explained && linkedCodes ? { codeDescription: { href: `${EXPLAIN_SCHEME}:${shown.code}` } } : {}),
      ...(related.length > 0 ? { relatedInformation: related } : {}),
      ...(shown.identity !== undefined && diagnosticData ? { data: { identity: shown.identity } } : {}),
    };
  }

  /** Edits of files of a folder; those of open documents hold for the version that was read. */
  workspaceEdit(folder: Folder, edits: readonly Edit[]): WorkspaceEdit {
    const byPath = new Map<string, TextEdit[]>();
    for (const edit of edits) {
      const lines = this.#linesAt({ folder, path: edit.path });
      // Part of a set of edits would leave the texts as nobody wrote them.
      if (lines === undefined) throw new Error(`“${edit.path}” is to be changed, but cannot be read`);
      const own = byPath.get(edit.path) ?? [];
      own.push({ range: { start: lines.at(edit.start), end: lines.at(edit.end) }, newText: edit.newText });
      byPath.set(edit.path, own);
    }
    const files = [...byPath].map(([path, own]) => ({ place: { folder, path }, own }));
    if (!this.#abilities.versionedEdits) return { changes: Object.fromEntries(files.map(({ place, own }) => [this.#workspace.uri(place), own])) };
    return {
      documentChanges: files.map(({ place, own }) => ({
        textDocument: { uri: this.#workspace.uri(place), version: this.#workspace.documentAt(place)?.version ?? null }, edits: own,
      })),
    };
  }

  textEdits(text: string, edits: readonly Edit[]): TextEdit[] {
    return edits.map((edit) => ({ range: this.range(text, edit), newText: edit.newText }));
  }

  action(folder: Folder, text: string, action: Action): CodeAction {
    return {
      title: action.title, kind: CodeActionKind.QuickFix, diagnostics: [this.diagnostic(folder, text, action.of)], edit: this.workspaceEdit(folder, action.edits),
      ...(action.preferred && this.#abilities.preferredActions ? { isPreferred: true } : {}),
    };
  }

  /** A change that leaves the meaning, or takes a risk; nothing where the editor cannot make the file that it needs. */
  refactoring(folder: Folder, { title, sort, edits, creates }: Refactoring): CodeAction | undefined {
    if (creates.length > 0 && !this.#abilities.createsFiles) return undefined;
    const edit = this.workspaceEdit(folder, edits);
    const made = creates.flatMap(({ path, text }) => {
      const uri = this.#workspace.uri({ folder, path });
      return [{ kind: "create" as const, uri }, { textDocument: { uri, version: null }, edits: [{ range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }, newText: text }] }];
    });
    return { title, kind: sort === "extract" ? CodeActionKind.RefactorExtract : CodeActionKind.QuickFix, edit: made.length === 0 ? edit : { documentChanges: [...made, ...(edit.documentChanges ?? [])] } };
  }

  signature({ label, about, values, active }: Signature): SignatureHelp {
    return {
      activeSignature: 0, activeParameter: active ?? values.length,
      signatures: [{ label, documentation: about, parameters: values.map(({ start, end, about: meaning }) => ({ label: [start, end] as [number, number], documentation: meaning })) }],
    };
  }

  workspaceSymbol(uri: string, text: string, { name, head, within, start, end }: NamedSymbol): WorkspaceSymbol {
    return { name, kind: SYMBOLS.get(head) ?? SymbolKind.Property, location: { uri, range: this.range(text, { start, end }) }, ...(within === undefined ? {} : { containerName: within }) };
  }

  /** A station of the signal path. `of`: the document whose setup is followed, which the next question is asked of. */
  station(folder: Folder, of: string, { name, detail, where }: Station): CallHierarchyItem | undefined {
    const location = this.location(folder, where);
    return location && { name, kind: SymbolKind.Object, uri: location.uri, range: location.range, selectionRange: location.range, data: { name, of }, ...(detail === "" ? {} : { detail }) };
  }

  hover(text: string, hover: Hover): ShownHover {
    return { contents: this.#markup(hover.markdown, this.#abilities.markdownHover), range: this.range(text, hover) };
  }

  completion(text: string, offer: Offer, place: number): CompletionItem {
    return {
      label: offer.label, kind: OFFERS[offer.kind], insertTextFormat: InsertTextFormat.PlainText,
      // Offers stand in the order in which they were made, within their rank.
      sortText: `${String(offer.rank).padStart(2, "0")}${String(place).padStart(5, "0")}`,
      textEdit: { range: this.range(text, offer.replaces), newText: offer.insert },
      ...(offer.detail === "" ? {} : { detail: offer.detail }),
    };
  }

  documentation(markdown: string): MarkupContent {
    return this.#markup(markdown, this.#abilities.markdownCompletion);
  }

  #markup(markdown: string, rich: boolean): MarkupContent {
    return rich ? { kind: MarkupKind.Markdown, value: markdown } : { kind: MarkupKind.PlainText, value: markdown.replace(/\*\*|`|^#+ /gmu, "") };
  }

  symbols(uri: string, text: string, nodes: readonly OutlineNode[]): DocumentSymbol[] | SymbolInformation[] {
    const nested = (node: OutlineNode): DocumentSymbol => ({
      name: node.name, kind: SYMBOLS.get(node.head) ?? SymbolKind.Property, range: this.range(text, node.whole), selectionRange: this.range(text, node.words),
      children: node.children.map(nested),
    });
    const flat = (node: OutlineNode, within: string | undefined): SymbolInformation[] => [
      {
        name: node.name, kind: SYMBOLS.get(node.head) ?? SymbolKind.Property, location: { uri, range: this.range(text, node.whole) },
        ...(within === undefined ? {} : { containerName: within }),
      },
      ...node.children.flatMap((child) => flat(child, node.name)),
    ];
    return this.#abilities.nestedSymbols ? nodes.map(nested) : nodes.flatMap((node) => flat(node, undefined));
  }

  /** The line with the closing brace stays in sight. */
  fold(text: string, span: Span): FoldingRange[] {
    const { start, end } = this.range(text, span);
    const last = end.line - 1;
    return last > start.line ? [{ startLine: start.line, endLine: last, kind: FoldingRangeKind.Region }] : [];
  }

  lens(uri: string, text: string, lens: Lens): CodeLens {
    return { range: this.range(text, lens), command: { title: lens.title, tooltip: lens.tooltip, command: COMMANDS.showFlow, arguments: [uri] } };
  }
}
