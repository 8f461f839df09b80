import type { Where } from "./where";

/** Something wrong with a file as text or as statements, which no choice mends; shown like an error. */
export interface TextProblem {
  readonly code: string;
  readonly severity: "error" | "warning";
  /** One sentence or two: what is wrong, what was wanted, and one shown. */
  readonly message: string;
  readonly where: Where;
  readonly related: readonly { readonly where: Where; readonly message: string }[];
}
