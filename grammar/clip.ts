/** Most letters of one word of a text that a message quotes. */
const MOST = 40;

/** A word of the text as a message quotes it: what is longer is cut, and ends with `…`. No character is cut in two. */
export const clip = (text: string): string =>
  text.length <= MOST ? text : `${Array.from(text.slice(0, 2 * MOST)).slice(0, MOST - 1).join("")}…`;
