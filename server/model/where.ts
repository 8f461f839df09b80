/** A stretch of one file's text. `path` is relative to the root folder, parts joined by `/`; offsets are UTF-16 units. */
export interface Where {
  readonly path: string;
  readonly start: number;
  readonly end: number;
}
