/** The page of the preview as it is first loaded: a frame for what its script shows. */

/** What may be loaded: the one script and the one style sheet with this load's nonce; nothing else, from nowhere. */
export const policy = (nonce: string): string =>
  `default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'; base-uri 'none'; form-action 'none'`;

/** A word that nobody can guess: 128 bits in hexadecimal. */
export function newNonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

const escaped = (text: string): string =>
  text.replace(/[&<>"']/gu, (sign) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" })[sign] ?? sign);

export interface PageParts {
  readonly nonce: string;
  /** URIs of the script and the style sheet, as the page may load them. */
  readonly script: string;
  readonly style: string;
  /** The document whose flow is shown. */
  readonly uri: string;
  /** What is shown of it. */
  readonly view?: "flow" | "plan" | "look";
}

const NAMES = { flow: "Signal flow", plan: "Floor plan", look: "What is seen" } as const;

/** Something to choose, with its label; hidden while there is nothing. */
const chooser = (id: string, label: string): string => `<div class="tools" id="${id}-tools" hidden><label for="${id}">${label}</label><select id="${id}"></select></div>`;

/** The whole page, without anything of anybody's text but the document's URI. */
export const pageOf = ({ nonce, script, style, uri, view = "flow" }: PageParts): string => `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy(nonce)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${NAMES[view]}</title>
<link rel="stylesheet" nonce="${nonce}" href="${escaped(style)}">
</head>
<body data-uri="${escaped(uri)}" data-view="${view}">
<header>
<div class="top">
<h1 id="title">${NAMES[view]}</h1>
${chooser("item", "Item of the programme")}
${chooser("ask", "What is asked")}
${chooser("view", "What is shown")}
${chooser("place", "From")}
${chooser("seat", "Seat")}
<div class="tools" role="group" aria-label="Size of the drawing">
<button type="button" id="zoom-out" title="Smaller (-)" aria-label="Smaller">−</button>
<span id="zoom-word">100 %</span>
<button type="button" id="zoom-in" title="Larger (+)" aria-label="Larger">+</button>
<button type="button" id="zoom-fit" title="As wide as the page (0)">Fit</button>
<button type="button" id="zoom-whole" title="Natural size (1)" aria-label="1:1, natural size">1:1</button>
</div>
</div>
<ul class="verdicts" id="verdicts" aria-label="Six verdicts"></ul>
</header>
<p id="note" hidden></p>
<main id="stage" tabindex="0" aria-label="Drawing; arrows move it, plus and minus make it larger and smaller${view === "plan" ? "; Alt and arrows move what is chosen by 0.1 m, with Shift by 0.5 m" : ""}"><div id="sheet"></div></main>
<div id="live" class="unseen" aria-live="polite"></div>
<script nonce="${nonce}" src="${escaped(script)}"></script>
</body>
</html>
`;
