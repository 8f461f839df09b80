/** How strong the sound is that a port gives or expects, as far as it is stated or follows from what it belongs to. */
import { unsaid } from "../model/make-ranged";
import type { Device, Port, PortLevel } from "../model/device";
import type { Trial } from "../model/trial";

/** Nominal levels beside that of a line, dB. Common practice, no source. */
const NOMINAL: Readonly<Record<PortLevel, number>> = { microphone: -40, line: 0, loudspeaker: 30 };

const ANALOGUE: ReadonlySet<string> = new Set(["jack-3", "jack-4", "jack-6", "rca", "xlr"]);
export const isAnalogue = (port: Port): boolean => ANALOGUE.has(port.connector);

/** What a port gives; nothing where that cannot be told. */
export function givenLevel(device: Device, port: Port): PortLevel | undefined {
  if (port.level !== undefined) return port.level;
  if (device.type === "microphone") return "microphone";
  return device.type === "mixer" || device.type === "interface" || device.type === "computer" || device.type === "display" ? "line" : undefined;
}

/**
 * What a port expects, in this trial; nothing where it takes either. The inputs of mixers and interfaces are turned to what comes
 * in; the headset socket of a computer, telephone or tablet expects a microphone as a rule, which the text can deny with a `level`.
 */
export function expectedLevel(device: Device, port: Port, trial: Trial): PortLevel | undefined {
  if (port.level !== undefined) return port.level;
  if (device.type !== "computer" || port.connector !== "jack-4") return undefined;
  return trial.holds(unsaid(`${port.id}.level`, `whether ${port.id} expects a microphone`, true, "headset sockets; common practice, no source", `Does ${port.id} take a line as well, or a microphone only?`)) ? "microphone" : undefined;
}

/** How far what comes in lies above what is expected, dB; `loss` is taken off on the way. */
export const mismatch = (given: PortLevel, expected: PortLevel, loss: number): number => NOMINAL[given] - loss - NOMINAL[expected];
