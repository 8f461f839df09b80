/** The part of the page's style sheet that comes from the drawing: its palettes by the editor's theme classes, and its rules. */
import { SIDE_RULES } from "../../server/views/elevation/render";
import { FLOW_RULES } from "../../server/views/flow/render";
import { PERSPECTIVE_RULES } from "../../server/views/perspective/rules";
import { PLAN_RULES } from "../../server/views/plan/render";
import { rulesFor } from "../../server/views/svg/document";
import { paletteSheet, type Theme } from "../../server/views/svg/palette";

/** Classes that the editor gives the body of a page, later ones over earlier ones: the light theme of high contrast has two of them. */
const CLASSES: readonly (readonly [string, Theme])[] = [
  ["vscode-light", "light"], ["vscode-dark", "dark"], ["vscode-high-contrast", "contrast"], ["vscode-high-contrast-light", "light"],
];

/** The generated part; the build writes it before the page's own sheet. */
export const drawingSheet = (): string =>
  [...CLASSES.map(([name, theme]) => paletteSheet(`body.${name}`, theme)), rulesFor(".bothways-flow", FLOW_RULES), rulesFor(".bothways-plan", PLAN_RULES),
    rulesFor(".bothways-perspective", PERSPECTIVE_RULES), rulesFor(".bothways-side", SIDE_RULES)].join("\n");
