import path from "node:path";

/** The project's folder. What runs is bundled into `out/vscode/`, two floors below it. */
export const ROOT = path.resolve(__dirname, "../..");
