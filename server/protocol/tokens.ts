/** The marks of words as the protocol packs them: five numbers each, and what changed since the last answer. */
import { SemanticTokensBuilder, type SemanticTokens, type SemanticTokensDelta, type SemanticTokensLegend } from "vscode-languageserver";
import { TOKEN_KINDS, TOKEN_MARKS, type MarkedToken } from "../features/semantic-tokens";
import type { LineTable } from "../../grammar/lines";

export const LEGEND: SemanticTokensLegend = { tokenTypes: [...TOKEN_KINDS], tokenModifiers: [...TOKEN_MARKS] };

/** Documents whose last answer is remembered. */
const MOST_KEPT = 32;

export class PackedTokens {
  readonly #builders = new Map<string, SemanticTokensBuilder>();

  #fill(builder: SemanticTokensBuilder, lines: LineTable, tokens: readonly MarkedToken[]): void {
    for (const token of tokens) {
      const { line, character } = lines.at(token.start);
      builder.push(line, character, token.end - token.start, TOKEN_KINDS.indexOf(token.kind), token.marks.reduce((bits, mark) => bits | (1 << TOKEN_MARKS.indexOf(mark)), 0));
    }
  }

  #builder(uri: string): SemanticTokensBuilder {
    const known = this.#builders.get(uri) ?? new SemanticTokensBuilder();
    this.#builders.delete(uri);
    this.#builders.set(uri, known);
    const oldest = this.#builders.keys().next();
    if (this.#builders.size > MOST_KEPT && oldest.done !== true) this.#builders.delete(oldest.value);
    return known;
  }

  /** All marks of a document, to be told from the next by its id. */
  whole(uri: string, lines: LineTable, tokens: readonly MarkedToken[]): SemanticTokens {
    this.#builders.delete(uri);
    const builder = this.#builder(uri);
    this.#fill(builder, lines, tokens);
    return builder.build();
  }

  /** What changed since the answer of that id; all where it is not remembered. */
  since(uri: string, previous: string, lines: LineTable, tokens: readonly MarkedToken[]): SemanticTokens | SemanticTokensDelta {
    const builder = this.#builder(uri);
    builder.previousResult(previous);
    this.#fill(builder, lines, tokens);
    return builder.buildEdits();
  }

  /** Marks of a stretch, which no later answer refers to. */
  part(lines: LineTable, tokens: readonly MarkedToken[]): SemanticTokens {
    const builder = new SemanticTokensBuilder();
    this.#fill(builder, lines, tokens);
    return builder.build();
  }

  forget(uri: string): void {
    this.#builders.delete(uri);
  }
}
