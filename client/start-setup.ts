/** "Start a setup…": five questions, a first text, and its flow beside it. */
import * as vscode from "vscode";
import type { StarterAsked } from "../server/protocol/messages";
import { askChoice, askText, type Answer, type Remark } from "./ask";
import type { Connection } from "./connection";
import { LANGUAGE } from "./language";
import { askedOf, AUDIENCE_CHOICES, peopleOf, QUESTIONS, type Given } from "./questions";

const MEMORY = "bothways.start";
const WHERE = [
  { value: "new", label: "A new document", detail: "save it when you like it" },
  { value: "file", label: "A file …", detail: "choose where it lies" },
] as const;
type Where = (typeof WHERE)[number]["value"];
const STEPS = 5;

const NAMES: readonly (keyof StarterAsked)[] = ["title", "talkers", "audience", "seats", "online", "size", "own"];
/** Whether a command was given answers: menus give it other things. */
const isAsked = (value: unknown): value is StarterAsked => typeof value === "object" && value !== null && NAMES.some((name) => Object.hasOwn(value, name));

/** Asks, unless the answers are given with the command; writes the text; shows what becomes of it. */
export async function startSetup(context: vscode.ExtensionContext, connection: Connection, given?: unknown): Promise<vscode.Uri | undefined> {
  if (isAsked(given)) return write(connection, given, "new");
  const before = context.workspaceState.get<Given>(MEMORY, {});
  const answers = await askAll(context, connection, before);
  if (answers === undefined) {
    vscode.window.setStatusBarMessage("Bothways: your answers are kept; “Start a setup…” goes on with them.", 8000);
    return undefined;
  }
  const written = await write(connection, askedOf(answers.given), answers.where);
  if (written !== undefined) await context.workspaceState.update(MEMORY, undefined);
  return written;
}

async function askAll(context: vscode.ExtensionContext, connection: Connection, before: Given): Promise<{ given: Given; where: Where } | undefined> {
  let given = before;
  const put = (more: Given): void => {
    given = { ...given, ...more };
    void context.workspaceState.update(MEMORY, given);
  };
  // The server says whether it can write a setup from an answer; where it is away, the answer is taken as it is.
  const fits = async (asked: StarterAsked): Promise<Remark | undefined> => {
    const tried = await connection.starter(asked);
    if (tried?.problem !== undefined) return { words: tried.problem, doubt: false };
    const left = tried?.remarks.find((remark) => remark.startsWith("Left out"));
    return left === undefined ? undefined : { words: left, doubt: true };
  };
  const text = (key: "talkers" | "people" | "size" | "own", step: number, check: (words: string) => Promise<Remark | undefined>): Promise<Answer<unknown>> =>
    askText({ ...QUESTIONS[key], step, of: STEPS, before: given[key], check, typed: (words) => put({ [key]: words }) });
  let where: Where = "new";
  const steps: readonly (() => Promise<Answer<unknown>>)[] = [
    () => text("talkers", 1, (words) => fits(askedOf({ talkers: words }))),
    async () => {
      const answer = await askChoice<boolean>({ ...QUESTIONS.audience, step: 2, of: STEPS }, AUDIENCE_CHOICES, given.audience);
      if (typeof answer === "object") put({ audience: answer.value });
      return answer;
    },
    () => text("people", 3, (words) => {
      const people = peopleOf(words);
      return "problem" in people ? Promise.resolve({ words: people.problem, doubt: false }) : fits(askedOf({ people: words }));
    }),
    () => text("size", 4, (words) => fits(askedOf({ size: words }))),
    () => text("own", 5, (words) => fits(askedOf({ own: words }))),
    async () => {
      const answer = await askChoice<Where>({ title: "Where shall it be written?", of: STEPS }, WHERE, where);
      if (typeof answer === "object") where = answer.value;
      return answer;
    },
  ];
  for (let at = 0; at < steps.length;) {
    const answer = await steps[at]?.();
    if (answer === undefined || answer === "left") return undefined;
    at += answer === "back" ? -1 : 1;
  }
  return { given, where };
}

/** Writes the text and shows it, with the flow beside it. */
async function write(connection: Connection, asked: StarterAsked, where: Where): Promise<vscode.Uri | undefined> {
  const made = await connection.starter(asked);
  if (made === undefined) {
    void vscode.window.showErrorMessage("The setup could not be written: Bothways is not running. Your answers are kept.");
    return undefined;
  }
  if (made.problem !== undefined) {
    void vscode.window.showErrorMessage(`The setup could not be written: ${made.problem}`);
    return undefined;
  }
  const document = await (where === "new" ? vscode.workspace.openTextDocument({ language: LANGUAGE, content: made.text }) : inFile(made.text));
  if (document === undefined) return undefined;
  await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.One });
  await vscode.commands.executeCommand("bothways.showFlow", document.uri.toString());
  if (made.remarks.length > 0) void vscode.window.showInformationMessage(made.remarks.join(" "));
  return document.uri;
}

async function inFile(text: string): Promise<vscode.TextDocument | undefined> {
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  const target = await vscode.window.showSaveDialog({
    title: "Where shall the setup be written?", saveLabel: "Write the setup", filters: { Bothways: ["bothways"] },
    ...(folder === undefined ? {} : { defaultUri: vscode.Uri.joinPath(folder, "meeting.bothways") }),
  });
  if (target === undefined) return undefined;
  try {
    await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(text));
  } catch (error) {
    void vscode.window.showErrorMessage(`The setup could not be written: ${error instanceof Error ? error.message : String(error)}`);
    return undefined;
  }
  return vscode.workspace.openTextDocument(target);
}
