/** Runs tests with mocha and writes what came of them where the runner reads it: inside the extension host nothing else gets out. */
import { appendFileSync, writeFileSync } from "node:fs";
import Mocha from "mocha";

export interface Counts {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
}

export interface Written {
  /** Lines to read, as the tests go on. */
  readonly log: string;
  /** `Counts` as JSON, written at the end alone: where it is missing the tests did not come to their end. */
  readonly report: string;
}

/** Runs what `define` declares with `describe` and `it`. */
export function runCounted(define: () => void, written: Written, timeout: number): Promise<Counts> {
  const say = (line: string) => appendFileSync(written.log, `${line}\n`);
  class Told {
    constructor(runner: Mocha.Runner) {
      runner.on("suite", (suite) => { if (suite.title) say(`  ${suite.title}`); });
      runner.on("pass", (test) => say(`    ✓ ${test.title} (${test.duration ?? 0} ms)`));
      runner.on("pending", (test) => say(`    - ${test.title} (skipped)`));
      runner.on("fail", (test, error: unknown) => {
        say(`    ✗ ${test.title}\n${(error instanceof Error ? error.stack ?? error.message : String(error)).replace(/^/gm, "      ")}`);
      });
    }
  }
  const only = process.env.BOTHWAYS_VSCODE_ONLY;
  const mocha = new Mocha({ ui: "bdd", timeout, reporter: Told as unknown as Mocha.ReporterConstructor, ...(only ? { grep: only } : {}) });
  // The declarations are bundled with the runner instead of being files of their own.
  mocha.suite.emit("pre-require", globalThis, "", mocha);
  define();
  return new Promise((resolve) => {
    const runner = mocha.run((failures) => {
      const stats = runner.stats;
      // A failed hook counts among the failures, though not among the tests.
      const counts = { passed: stats?.passes ?? 0, failed: failures, skipped: stats?.pending ?? 0 };
      writeFileSync(written.report, JSON.stringify(counts));
      resolve(counts);
    });
  });
}
