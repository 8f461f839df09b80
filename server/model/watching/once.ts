/** What is worked out once for a graph or a setup: whoever asks for it later has read what it was made from. */
import { gathered, noteFootprint, type Footprint } from "./reads";

interface Made<T> {
  readonly value: T;
  readonly read: Footprint | undefined;
}

/**
 * @param make what is to be worked out once for each owner, from the owner alone
 * @returns `make`, called once for each owner for as long as it lives
 */
export function once<Owner extends object, T>(make: (owner: Owner) => T): (owner: Owner) => T {
  const known = new WeakMap<Owner, Made<T>>();
  return (owner) => {
    let made = known.get(owner);
    if (made === undefined) {
      const { result, read } = gathered(() => make(owner));
      made = { value: result, read };
      known.set(owner, made);
    } else noteFootprint(made.read);
    return made.value;
  };
}

/** The same for each owner and what is told of it: `keyOf` that names all that `make` takes besides the owner. */
export function onceFor<Owner extends object, T, First, Rest extends readonly unknown[] = []>(keyOf: (first: First) => string, make: (owner: Owner, first: First, ...rest: Rest) => T): (owner: Owner, first: First, ...rest: Rest) => T {
  const known = new WeakMap<Owner, Map<string, Made<T>>>();
  return (owner, first, ...rest) => {
    let of = known.get(owner);
    if (of === undefined) {
      of = new Map();
      known.set(owner, of);
    }
    const key = keyOf(first);
    let made = of.get(key);
    if (made === undefined) {
      const { result, read } = gathered(() => make(owner, first, ...rest));
      made = { value: result, read };
      of.set(key, made);
    } else noteFootprint(made.read);
    return made.value;
  };
}

/** The same for each pair. With many microphones and many tries, making the key of a pair anew is what takes long. */
export function oncePair<A extends object, B extends object, T>(make: (a: A, b: B) => T): (a: A, b: B) => T {
  const of = once((a: A) => once((b: B) => make(a, b)));
  return (a, b) => of(a)(b);
}
