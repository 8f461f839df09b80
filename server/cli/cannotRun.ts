export { systemWords, wordsOf } from "../disk/system-words";

/** Thrown where a command cannot do what was asked: shown as it is, without a stack, and the exit status is 2. */
export class CannotRun extends Error {}
