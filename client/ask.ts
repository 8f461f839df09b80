/** Questions one after the other, with a way back; each is one input at the top of the window. */
import * as vscode from "vscode";

/** What came of a question: an answer, one step back, or the whole was left. */
export type Answer<T> = { readonly value: T } | "back" | "left";

interface Place {
  readonly title: string;
  /** Its number; none where it is no question of the row. */
  readonly step?: number;
  readonly of: number;
}

function run<T>(input: vscode.QuickInput & { buttons: readonly vscode.QuickInputButton[]; onDidTriggerButton: vscode.Event<vscode.QuickInputButton> }, place: Place, accept: (done: (value: T) => void) => void): Promise<Answer<T>> {
  return new Promise((resolve) => {
    let settled = false;
    const settle = (answer: Answer<T>): void => {
      if (settled) return;
      settled = true;
      resolve(answer);
      input.dispose();
    };
    input.title = place.title;
    if (place.step !== undefined) {
      input.step = place.step;
      input.totalSteps = place.of;
    }
    // A look into another window is no answer.
    input.ignoreFocusOut = true;
    if (place.step !== 1) input.buttons = [vscode.QuickInputButtons.Back];
    input.onDidTriggerButton(() => settle("back"));
    input.onDidHide(() => settle("left"));
    accept((value) => settle({ value }));
    input.show();
  });
}

/** A remark on an answer. `doubt`: a second Enter goes on all the same. */
export interface Remark {
  readonly words: string;
  readonly doubt: boolean;
}

export interface TextQuestion extends Place {
  readonly example: string;
  readonly help: string;
  readonly before: string | undefined;
  /** Looked at when the answer is given. */
  check(words: string): Promise<Remark | undefined>;
  /** Told at every change, so that nothing typed is lost. */
  typed(words: string): void;
}

/** Asks for words. */
export function askText(question: TextQuestion): Promise<Answer<string>> {
  const input = vscode.window.createInputBox();
  input.placeholder = question.example;
  input.prompt = question.help;
  input.value = question.before ?? "";
  let doubted: string | undefined;
  return run<string>(input, question, (done) => {
    input.onDidChangeValue((words) => {
      input.validationMessage = undefined;
      question.typed(words);
    });
    input.onDidAccept(async () => {
      const words = input.value;
      input.busy = true;
      const remark = await question.check(words);
      input.busy = false;
      if (input.value !== words) return;
      if (remark === undefined || (remark.doubt && doubted === words)) {
        done(words);
        return;
      }
      doubted = words;
      input.validationMessage = {
        message: remark.doubt ? `${remark.words} Enter again goes on without.` : remark.words,
        severity: remark.doubt ? vscode.InputBoxValidationSeverity.Warning : vscode.InputBoxValidationSeverity.Error,
      };
    });
  });
}

export interface Choice<T> {
  readonly value: T;
  readonly label: string;
  readonly detail: string;
}

/** Asks for one of a few. */
export function askChoice<T>(place: Place, choices: readonly Choice<T>[], before: T | undefined): Promise<Answer<T>> {
  const input = vscode.window.createQuickPick<vscode.QuickPickItem & Choice<T>>();
  input.items = choices.map((choice) => ({ ...choice }));
  const active = input.items.find((item) => item.value === before);
  if (active !== undefined) input.activeItems = [active];
  return run<T>(input, place, (done) => {
    input.onDidAccept(() => {
      const [item] = input.activeItems;
      if (item !== undefined) done(item.value);
    });
  });
}
