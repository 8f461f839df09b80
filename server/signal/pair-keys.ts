/**
 * Keys of what hangs on two things, for `Trial.keep`: the same string each time a pair is asked for. With many microphones and
 * many tries, making it anew is what takes long.
 *
 * @param make the key of a pair; it must name all that the result hangs on
 * @returns `make`, called once for each pair of objects for as long as they live
 */
export function pairKeys<A extends object, B extends object>(make: (a: A, b: B) => string): (a: A, b: B) => string {
  const known = new WeakMap<A, WeakMap<B, string>>();
  return (a, b) => {
    let keys = known.get(a);
    if (keys === undefined) {
      keys = new WeakMap();
      known.set(a, keys);
    }
    let key = keys.get(b);
    if (key === undefined) {
      key = make(a, b);
      keys.set(b, key);
    }
    return key;
  };
}
