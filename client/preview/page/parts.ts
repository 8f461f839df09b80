/** The page's own elements: those that it is loaded with, and new ones. */

/** Throws where the page has none of that name: it is loaded with all that is asked for. */
export function byId(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`the page has no ${id}`);
  return found;
}

export function element<K extends keyof HTMLElementTagNameMap>(tag: K, className: string, text = ""): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  if (className !== "") made.className = className;
  made.textContent = text;
  return made;
}
