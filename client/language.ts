/** How an editor calls the language. */
export const LANGUAGE = "bothways";
