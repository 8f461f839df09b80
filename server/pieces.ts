/** Long work that is done a piece at a time: between two pieces whoever drives it may stop, or let others have their turn. */
export type Pieces<R> = Generator<undefined, R>;

/** All pieces, one after the other. */
export function atOnce<R>(work: Pieces<R>): R {
  for (let step = work.next(); ; step = work.next()) if (step.done === true) return step.value;
}
