/** The connection to the language server: started when the extension is, started again when it dies, asked without ever throwing. */
import * as vscode from "vscode";
import type { BaseLanguageClient, CloseHandlerResult, LanguageClientOptions } from "vscode-languageclient";
import {
  METHODS, type Choose, type Explained, type FlowAsked, type FlowOf, type HandoutOf, type LookAsked, type LookOf, type MoveAsked, type MoveOf, type PlanAsked, type PlanOf, type StarterAsked, type StarterOf, type VerdictsOf,
} from "../server/protocol/messages";
import { LANGUAGE } from "./language";
import type { Launch, Launched } from "./launch";
import { lend } from "./lend";
import { Restarts } from "./restarts";

export class Connection implements vscode.Disposable {
  #launched: Launched | undefined;
  readonly #restarts = new Restarts();
  readonly #changed = new vscode.EventEmitter<VerdictsOf>();
  readonly #begun = new vscode.EventEmitter<void>();
  readonly #disposables: vscode.Disposable[] = [this.#changed, this.#begun];
  readonly #known = new Map<string, VerdictsOf>();
  /** Which setup was chosen for a room or a kit: told again to a server that was started again. */
  readonly #chosen = new Map<string, string>();

  /** The verdicts of a document have changed. */
  readonly onVerdicts = this.#changed.event;
  /** The server runs, for the first time or again. */
  readonly onBegun = this.#begun.event;
  /** Settles when the server has answered for the first time, or never will. */
  readonly ready: Promise<void>;

  constructor(context: vscode.ExtensionContext, launch: Launch) {
    this.#disposables.push(vscode.workspace.onDidCloseTextDocument((document) => this.#known.delete(document.uri.toString())));
    this.ready = this.#start(context, launch).catch((error: unknown) => this.#failed(error));
  }

  /** The protocol is most of the extension's code: it is read in when the editor has its commands and goes on. */
  async #start(context: vscode.ExtensionContext, launch: Launch): Promise<void> {
    await new Promise((done) => setTimeout(done, 0));
    const { CloseAction, ErrorAction, RevealOutputChannelOn, State } = await import("vscode-languageclient");
    const options: LanguageClientOptions = {
      documentSelector: [{ language: LANGUAGE }],
      revealOutputChannelOn: RevealOutputChannelOn.Never,
      initializationFailedHandler: () => false,
      errorHandler: {
        error: () => ({ action: ErrorAction.Continue, handled: true }),
        closed: (): CloseHandlerResult => ({ action: this.#mayStartAgain() ? CloseAction.Restart : CloseAction.DoNotRestart, handled: true }),
      },
    };
    this.#launched = await launch(context, options);
    const { client } = this.#launched;
    lend(client);
    this.#disposables.push(
      client.onNotification(METHODS.verdicts, (verdicts: VerdictsOf) => this.#hear(verdicts)),
      client.onDidChangeState(({ newState }) => {
        if (newState === State.Running) void this.#again();
      }),
    );
    await client.start();
  }

  get #client(): BaseLanguageClient | undefined {
    return this.#launched?.client;
  }

  /** What is known of a document without asking. */
  known(uri: vscode.Uri): VerdictsOf | undefined {
    return this.#known.get(uri.toString());
  }

  async verdicts(uri: vscode.Uri): Promise<VerdictsOf | undefined> {
    const answer = await this.#ask<VerdictsOf>(METHODS.verdicts, { uri: uri.toString() });
    if (answer !== undefined) this.#hear(answer);
    return answer;
  }

  async choose(uri: vscode.Uri, setup: string | undefined): Promise<VerdictsOf | undefined> {
    if (setup === undefined) this.#chosen.delete(uri.toString());
    else this.#chosen.set(uri.toString(), setup);
    const asked: Choose = { uri: uri.toString(), ...(setup === undefined ? {} : { setup }) };
    const answer = await this.#ask<VerdictsOf>(METHODS.choose, asked);
    if (answer !== undefined) this.#hear(answer);
    return answer;
  }

  flow(asked: FlowAsked): Promise<FlowOf | undefined> {
    return this.#ask<FlowOf>(METHODS.flow, asked);
  }

  plan(asked: PlanAsked): Promise<PlanOf | undefined> {
    return this.#ask<PlanOf>(METHODS.plan, asked);
  }

  look(asked: LookAsked): Promise<LookOf | undefined> {
    return this.#ask<LookOf>(METHODS.look, asked);
  }

  /** What has to be written so that something stands elsewhere. */
  move(asked: MoveAsked): Promise<MoveOf | undefined> {
    return this.#ask<MoveOf>(METHODS.move, asked);
  }

  handout(uri: vscode.Uri, item?: string): Promise<HandoutOf | undefined> {
    return this.#ask<HandoutOf>(METHODS.handout, { uri: uri.toString(), ...(item === undefined ? {} : { item }) });
  }

  explain(code: string): Promise<Explained | undefined> {
    return this.#ask<Explained>(METHODS.explain, { code });
  }

  starter(asked: StarterAsked): Promise<StarterOf | undefined> {
    return this.#ask<StarterOf>(METHODS.starter, asked);
  }

  /** An answer, or nothing where there is none: the server is away, or has nothing to say. */
  async #ask<Answer>(method: string, params: object): Promise<Answer | undefined> {
    await this.ready;
    try {
      return (await this.#client?.sendRequest<Answer | null>(method, params)) ?? undefined;
    } catch (error) {
      this.#log(method, error);
      return undefined;
    }
  }

  #hear(verdicts: VerdictsOf): void {
    this.#known.set(verdicts.uri, verdicts);
    this.#changed.fire(verdicts);
  }

  async #again(): Promise<void> {
    for (const [uri, setup] of this.#chosen) await this.choose(vscode.Uri.parse(uri), setup);
    this.#begun.fire();
  }

  #mayStartAgain(): boolean {
    if (this.#restarts.again(Date.now())) return true;
    void this.#offer("Bothways stopped working several times in a row and was not started again. Your texts are untouched.");
    return false;
  }

  #failed(error: unknown): void {
    this.#log("The server could not be started", error);
    void this.#offer("Bothways could not be started, so nothing is judged. Your texts are untouched.");
  }

  #log(what: string, error: unknown): void {
    this.#client?.outputChannel.appendLine(`${what}: ${error instanceof Error ? error.message : String(error)}`);
  }

  async #offer(words: string): Promise<void> {
    const again = "Start again";
    const log = "Show the log";
    const answer = await vscode.window.showErrorMessage(words, again, log);
    if (answer === log) this.#client?.outputChannel.show();
    if (answer !== again) return;
    this.#restarts.forget();
    await this.#client?.start().catch((error: unknown) => this.#failed(error));
  }

  /** Ends the server. */
  async stop(): Promise<void> {
    await this.#client?.dispose().catch(() => undefined);
    this.#launched?.dispose();
  }

  dispose(): void {
    for (const one of this.#disposables) one.dispose();
  }
}
