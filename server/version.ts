/**
 * A setup as it is after an edit, beside what was judged of it before the edit. Of each check in each item it is known what of the
 * setup its cases read; where the edit changed nothing of that, what was judged holds still, and only its places in the text move.
 */
import type { Check } from "./checks/check";
import type { Judgement, Swing } from "./judge";
import type { Ranged } from "./model/ranged";
import type { Setup } from "./model/setup";
import { Cells } from "./model/watching/cells";
import { Moved } from "./model/watching/moved";
import { EVERYTHING, gathering, Ledger, type Footprint } from "./model/watching/reads";
import { watched } from "./model/watching/watched";
import type { Where } from "./model/where";
import type { Pieces } from "./pieces";

/** What came of a check in one item, case by case, and what all of it read. */
export interface Row {
  readonly judgements: readonly Judgement[];
  readonly read: Footprint;
}

export class Version {
  /** As read, noting what is read of it. */
  readonly setup: Setup;
  readonly ledger: Ledger;
  readonly #raw: Setup;
  readonly #rows = new Map<string, Row>();
  #cells: Cells | undefined;
  readonly #earlier: { readonly rows: ReadonlyMap<string, Row>; readonly changed: Footprint; readonly moved: Moved } | undefined;

  /** `before`: the version from which this one was edited; any other will do as well, and less of it will hold. */
  constructor(raw: Setup, before?: Version) {
    const known = before === undefined || before.ledger.full ? undefined : before;
    this.#raw = raw;
    this.ledger = known?.ledger ?? new Ledger();
    this.setup = watched(raw, this.ledger);
    if (known === undefined) return;
    const changed = known.cells.changed(this.cells, this.ledger.keys);
    this.#earlier = { rows: known.#rows, changed: this.ledger.union(changed, []), moved: new Moved(known.#raw.files, raw.files) };
  }

  /** What came of the check in the item before, where it holds still. */
  still(check: Check, item: string | undefined): Row | undefined {
    const key = keyOf(check, item);
    const row = this.#earlier?.rows.get(key);
    if (row === undefined || this.#earlier === undefined || this.ledger.meet(row.read, this.#earlier.changed)) return undefined;
    const { moved } = this.#earlier;
    if (moved.still) {
      this.#rows.set(key, row);
      return row;
    }
    const judgements: Judgement[] = [];
    for (const judgement of row.judgements) {
      const now = moving(judgement, moved);
      if (now === undefined) return undefined;
      judgements.push(now);
    }
    const now = { judgements, read: row.read };
    this.#rows.set(key, now);
    return now;
  }

  /** Keeps what came of a check in an item for the versions after this one. */
  keep(check: Check, item: string | undefined, row: Row): void {
    if (row.read !== EVERYTHING) this.#rows.set(keyOf(check, item), { read: row.read, judgements: row.judgements.map(plain) });
  }

  /** The setup as cells. */
  private get cells(): Cells {
    this.#cells ??= new Cells(this.#raw);
    return this.#cells;
  }
}

const keyOf = (check: Check, item: string | undefined): string => `${check.entry.code}\n${item ?? ""}`;

/** Without anything that holds on to the version that it was judged in. */
function plain(judgement: Judgement): Judgement {
  const { key, ways } = judgement.case;
  const { said } = judgement;
  return { ...judgement, case: { key, ways }, best: { ...judgement.best, say: () => said } };
}

/** With its places where they are now; nothing where one of them is no more. */
function moving(judgement: Judgement, moved: Moved): Judgement | undefined {
  let gone = false;
  const place = (where: Where): Where => {
    const now = moved.of(where);
    gone ||= now === undefined;
    return now ?? where;
  };
  const value = (of: Ranged): Ranged => {
    const { where, narrowed } = of.from;
    return where === undefined && narrowed === undefined ? of
      : { ...of, from: { ...of.from, where: where && place(where), narrowed: narrowed && { ...narrowed, where: place(narrowed.where) } } };
  };
  const swings = new Map(judgement.swings.map((swing): [Swing, Swing] => [swing, { ...swing, value: value(swing.value) }]));
  const again = (all: readonly Swing[]): readonly Swing[] => all.map((swing) => swings.get(swing) ?? { ...swing, value: value(swing.value) });
  const { best } = judgement;
  const said = judgement.said.related === undefined ? judgement.said : { ...judgement.said, related: judgement.said.related.map((one) => ({ ...one, where: place(one.where) })) };
  const out: Judgement = {
    ...judgement, said, best: { ...best, cause: { ...best.cause, where: place(best.cause.where) }, say: () => said },
    swings: again(judgement.swings), turnedBy: again(judgement.turnedBy), couldFail: again(judgement.couldFail),
  };
  return gone ? undefined : out;
}

/** The result of some work in pieces, and what all of them read. */
export function* gatheringPieces<R>(ledger: Ledger, work: Pieces<R>): Pieces<{ readonly result: R; readonly read: Footprint }> {
  const reads: Footprint[] = [];
  for (;;) {
    const { result: step, read } = gathering(ledger, () => work.next());
    reads.push(read);
    if (step.done === true) return { result: step.value, read: ledger.union([], reads) };
    yield;
  }
}
