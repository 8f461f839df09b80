/** What a finding means, as a page to read. */
import { CATALOGUE } from "../checks/catalogue";

export interface Page {
  readonly code: string;
  readonly title: string;
  readonly markdown: string;
}

/** The page of a code, or nothing where there is no such finding. */
export function explain(code: string): Page | undefined {
  const entry = CATALOGUE.find((one) => one.code === code.toLowerCase());
  if (entry === undefined) return undefined;
  const part = (title: string, text: string): string[] => (text === "" ? [] : ["", `## ${title}`, "", text]);
  const markdown = [
    `# ${entry.title}`, "", `\`${entry.code}\` · at worst ${entry.severity === "error" ? "an error" : `a ${entry.severity}`} · ${entry.group}`,
    ...part("What one notices", entry.notice), ...part("Why", entry.why), ...part("What to do", entry.todo.map((line) => `- ${line}`).join("\n")),
    ...part("The limit", entry.limit), ...part("Where it comes from", entry.source),
    "", `A known risk is kept quiet with a line such as \`accept ${entry.code} because "…"\`.`, "",
  ].join("\n");
  return { code: entry.code, title: entry.title, markdown };
}
