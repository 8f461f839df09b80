/** A shelf that somebody else fills, by and by. */
import { describe, expect, it } from "vitest";
import { LentShelf, type Lender } from "../../server/workspace/lent-shelf";

/** A folder whose files can be changed, and whose answers can be held back. */
function lent(files: Record<string, string>) {
  const asked: string[] = [];
  let held: (() => void)[] | undefined;
  const lender: Lender = {
    list: () => Promise.resolve(Object.keys(files)),
    async read(path) {
      asked.push(path);
      const text = files[path];
      if (held !== undefined) await new Promise<void>((go) => held?.push(go));
      return text === undefined ? { problem: "there is no such file" } : { text };
    },
  };
  let changes = 0;
  const shelf = new LentShelf(lender, () => (changes += 1));
  return {
    shelf, files, asked,
    hold: () => (held = []),
    release: () => {
      const all = held ?? [];
      held = undefined;
      for (const go of all) go();
    },
    get changes() {
      return changes;
    },
  };
}

describe("a shelf that is filled from elsewhere", () => {
  it("says that it is waiting, then has every file, and tells once that there is more", async () => {
    const one = lent({ "b.bothways": "b", "rooms/a.bothways": "a", "rooms/c.bothways": "c" });
    expect(one.shelf.list()).toEqual([]);
    expect(one.shelf.pending).toBeDefined();
    await one.shelf.pending;
    expect(one.shelf.pending).toBeUndefined();
    expect(one.changes).toBe(1);
    expect(one.shelf.list()).toEqual(["b.bothways", "rooms/a.bothways", "rooms/c.bothways"]);
    expect(one.shelf.read("rooms/a.bothways")).toEqual({ text: "a" });
    expect(one.shelf.beside("rooms/a.bothways")).toEqual([{ path: "rooms/c.bothways", text: "c" }]);
    expect(one.shelf.beside("b.bothways")).toEqual([]);
  });

  it("sends once for a file that was not listed, and keeps what came of it", async () => {
    const one = lent({});
    await one.shelf.pending;
    expect(one.changes).toBe(0);
    for (let i = 0; i < 3; i += 1) expect(one.shelf.read("x.bothways")).toEqual({ problem: "it has not been read yet" });
    await one.shelf.pending;
    expect(one.shelf.read("x.bothways")).toEqual({ problem: "there is no such file" });
    expect(one.shelf.pending).toBeUndefined();
    expect(one.asked).toEqual(["x.bothways"]);
    expect(one.changes).toBe(1);
  });

  it("keeps the old text until the new one is there, and tells only of what differs", async () => {
    const one = lent({ "a.bothways": "old" });
    await one.shelf.pending;
    one.files["a.bothways"] = "new";
    one.shelf.forget("a.bothways");
    expect(one.shelf.read("a.bothways")).toEqual({ text: "old" });
    await one.shelf.pending;
    expect(one.shelf.read("a.bothways")).toEqual({ text: "new" });
    expect(one.changes).toBe(2);
    one.shelf.forget();
    await one.shelf.pending;
    expect(one.changes).toBe(2);
  });

  it("sends again for a file that changed while it was on its way", async () => {
    const one = lent({ "a.bothways": "first" });
    await one.shelf.pending;
    one.files["a.bothways"] = "second";
    one.hold();
    one.shelf.forget("a.bothways");
    one.files["a.bothways"] = "third";
    one.shelf.forget("a.bothways");
    one.release();
    await one.shelf.pending;
    expect(one.shelf.read("a.bothways")).toEqual({ text: "third" });
  });

  it("takes up files that were made and lets go of those that were deleted", async () => {
    const one = lent({ "a.bothways": "a" });
    await one.shelf.pending;
    one.files["b.bothways"] = "b";
    one.shelf.forget("b.bothways");
    await one.shelf.pending;
    expect(one.shelf.list()).toEqual(["a.bothways", "b.bothways"]);
    delete one.files["a.bothways"];
    one.shelf.forget();
    await one.shelf.pending;
    expect(one.shelf.list()).toEqual(["b.bothways"]);
  });

  it("lists no more than two thousand files, and reads sixteen at a time", async () => {
    const one = lent(Object.fromEntries(Array.from({ length: 2100 }, (_, i) => [`f${i}.bothways`, "x"])));
    one.hold();
    await new Promise((go) => setTimeout(go, 0));
    expect(one.asked).toHaveLength(16);
    one.release();
    await one.shelf.pending;
    expect(one.shelf.list()).toHaveLength(2000);
  });
});
