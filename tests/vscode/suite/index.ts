/** What VS Code loads into its extension host and runs. */
import { runCounted } from "../harness/counted";
import { editing } from "./editing";
import { naming } from "./naming";
import { preview } from "./preview";
import { server } from "./server";
import { setups } from "./setups";
import { shown } from "./shown";

export async function run(): Promise<void> {
  const { BOTHWAYS_VSCODE_LOG: log, BOTHWAYS_VSCODE_REPORT: report } = process.env;
  if (!log || !report) throw new Error("start these tests with `npm run test:vscode`");
  const counts = await runCounted(() => {
    for (const declare of [editing, naming, preview, setups, shown, server]) declare();
  }, { log, report }, 60_000);
  if (counts.failed > 0) throw new Error(`${counts.failed} failed`);
}
