/**
 * Colours for drawings, in four themes. Hues are those of Okabe and Ito, "Color Universal Design" (2008), a set that people with any
 * kind of colour vision can tell apart; every meaning also has a pattern, a shape or a word.
 */
export const THEMES = ["light", "dark", "contrast", "print"] as const;
export type Theme = (typeof THEMES)[number];

/**
 * Five steps of a scale, from too little to plenty: dark blue to light yellow in equal steps of lightness (0.34 to 0.90 in OKLab), so
 * that they keep their order for any kind of colour vision and in grey; and the ink of a number on each.
 */
const STEPS = { step1: "#1E3663", step2: "#465F7F", step3: "#7D8C70", step4: "#BCB37B", step5: "#F5DE87" } as const;
const GREY_STEPS = { step1: "#383838", step2: "#5D5D5D", step3: "#868686", step4: "#B1B1B1", step5: "#DEDEDE" } as const;
const ON_STEPS = { on1: "#FFFFFF", on2: "#FFFFFF", on3: "#000000", on4: "#000000", on5: "#000000" } as const;

/** Okabe & Ito (2008). */
const BLUE = "#0072B2";
const SKY_BLUE = "#56B4E9";
const GREEN = "#009E73";
const VERMILION = "#D55E00";
const ORANGE = "#E69F00";
const YELLOW = "#F0E442";

export interface Palette {
  readonly page: string;
  /** The ground of a band. */
  readonly ground: string;
  /** The edge of a band. */
  readonly edge: string;
  readonly ink: string;
  /** Text of the second rank. */
  readonly ink2: string;
  /** The body of a post. */
  readonly post: string;
  /** From the room to the people online, and back. */
  readonly out: string;
  readonly in: string;
  /** What is behind a gap. */
  readonly pale: string;
  /** Gaps, echoes, devices that are ailing. */
  readonly trouble: string;
  readonly works: string;
  readonly doubtful: string;
  readonly unknown: string;
  /** The sign inside a mark that has one of the two colours above. */
  readonly sign: string;
  /** A scale from too little to plenty, and the ink of a number on each of its steps. */
  readonly step1: string;
  readonly step2: string;
  readonly step3: string;
  readonly step4: string;
  readonly step5: string;
  readonly on1: string;
  readonly on2: string;
  readonly on3: string;
  readonly on4: string;
  readonly on5: string;
}

export const PALETTES: Readonly<Record<Theme, Palette>> = {
  light: {
    page: "#FFFFFF", ground: "#F4F6F8", edge: "#F4F6F8", ink: "#17202A", ink2: "#4A5663", post: "#DCE2E8",
    out: BLUE, in: GREEN, pale: "#7C8894", trouble: VERMILION, works: "#FFFFFF", doubtful: ORANGE, unknown: SKY_BLUE, sign: "#000000", ...STEPS, ...ON_STEPS,
  },
  dark: {
    page: "#14181D", ground: "#1D232A", edge: "#1D232A", ink: "#F3F5F7", ink2: "#B6C0CA", post: "#3C4752",
    out: SKY_BLUE, in: GREEN, pale: "#8794A1", trouble: VERMILION, works: "#14181D", doubtful: ORANGE, unknown: SKY_BLUE, sign: "#000000", ...STEPS, ...ON_STEPS,
  },
  contrast: {
    page: "#000000", ground: "#000000", edge: "#FFFFFF", ink: "#FFFFFF", ink2: "#FFFFFF", post: "#000000",
    out: SKY_BLUE, in: YELLOW, pale: "#C8C8C8", trouble: ORANGE, works: "#000000", doubtful: ORANGE, unknown: SKY_BLUE, sign: "#000000", ...STEPS, ...ON_STEPS,
  },
  print: {
    page: "#FFFFFF", ground: "#FFFFFF", edge: "#8A8A8A", ink: "#000000", ink2: "#333333", post: "#E4E4E4",
    out: "#000000", in: "#000000", pale: "#777777", trouble: "#000000", works: "#FFFFFF", doubtful: "#C4C4C4", unknown: "#FFFFFF", sign: "#000000", ...GREY_STEPS, ...ON_STEPS,
  },
};

/** Where the reader's system forces colours, its own are taken. */
const FORCED: Palette = {
  page: "Canvas", ground: "Canvas", edge: "CanvasText", ink: "CanvasText", ink2: "CanvasText", post: "Canvas",
  out: "CanvasText", in: "CanvasText", pale: "GrayText", trouble: "CanvasText", works: "Canvas", doubtful: "Canvas", unknown: "Canvas",
  sign: "CanvasText", step1: "Canvas", step2: "Canvas", step3: "Canvas", step4: "Canvas", step5: "Canvas",
  on1: "CanvasText", on2: "CanvasText", on3: "CanvasText", on4: "CanvasText", on5: "CanvasText",
};

function properties(selector: string, palette: Palette): string {
  const list = Object.entries(palette).map(([name, value]) => `--${name}:${String(value)}`);
  return `${selector}{${list.join(";")}}`;
}

/**
 * The custom properties of a theme for everything inside `selector`; without a theme the drawing follows what the reader's system
 * prefers, and paper is white.
 */
export function paletteSheet(selector: string, theme: Theme | undefined): string {
  if (theme !== undefined) return properties(selector, PALETTES[theme]);
  const light = PALETTES.light;
  return [
    properties(selector, light),
    `@media (prefers-color-scheme:dark){${properties(selector, PALETTES.dark)}}`,
    `@media (prefers-contrast:more){${properties(selector, { ...light, ground: "#FFFFFF", edge: "#17202A", ink: "#000000", ink2: "#000000" })}}`,
    `@media (prefers-contrast:more) and (prefers-color-scheme:dark){${properties(selector, PALETTES.contrast)}}`,
    `@media (forced-colors:active){${properties(selector, FORCED)}}`,
    `@media print{${properties(selector, { ...light, ...GREY_STEPS, ground: "#FFFFFF", edge: "#8A8A8A" })}}`,
  ].join("\n");
}
