/** Bytes of a file as text, or why they are none, in a few words. */
export function decoded(bytes: Uint8Array): { readonly text: string } | { readonly problem: string } {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) {
    return { problem: "it is UTF-16 text: save it as UTF-8" };
  }
  try {
    // A mark at the start stays in the text, so that every offset counts what stands in the file.
    return { text: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch {
    return { problem: "it is not UTF-8 text: save it as UTF-8" };
  }
}
