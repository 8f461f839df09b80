import { defineConfig } from "vitest/config";
import { readFileSync } from "node:fs";

/** The built-in equipment is a `.bothways` file that the bundler imports as text; so do the tests. */
const bothwaysAsText = {
  name: "bothways-as-text",
  load(id) {
    const file = id.split("?")[0];
    if (file.endsWith(".bothways")) return `export default ${JSON.stringify(readFileSync(file, "utf8"))};`;
    return undefined;
  },
};

export default defineConfig({
  plugins: [bothwaysAsText],
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["tests/**/*.test.ts"],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
  },
});
