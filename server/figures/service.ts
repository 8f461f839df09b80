import { callLength } from "../checks/call-ends";
import type { Scene } from "../checks/check";
import { shopping } from "../checks/kit-of-the-day";
import { inTheCall } from "../checks/people";
import type { Figure } from "../finding";
import type { Trial } from "../model/trial";
import { given, input, round } from "./record";

/** What the service allows and the meeting wants of it; time to set up; what has to be bought. */
export function serviceFigures({ setup }: Scene, trial: Trial): Figure[] {
  const { service } = setup;
  const lasts = callLength(setup);
  const money = shopping(setup);
  const out: Figure[] = [];
  if (setup.joins.length > 0) {
    out.push({
      name: "people and devices in the call", of: [], value: round(inTheCall(setup, trial)), unit: "", formula: "people online + devices in rooms", source: "arithmetic",
      inputs: [input(setup.online, trial, "people"), given("devices in rooms", setup.joins.length + setup.remoteRooms.length, "")],
    }, { name: "what the call holds", of: [], value: round(trial.value(service.capacity)), unit: "", formula: "as stated, or as most services have it", inputs: [input(service.capacity, trial, "people")], source: service.capacity.from.source ?? "the text" });
  }
  if (lasts !== undefined && service.endsAfter !== undefined && setup.joins.length > 0) {
    out.push(
      { name: "longest time that the call is open", of: [], value: round(lasts.longest), unit: "min", formula: "between start, reopenings and end", inputs: [given("the meeting", lasts.meeting, "min"), given("opened anew", service.reopens.length, "times")], source: "arithmetic" },
      { name: "time limit of the call", of: [], value: round(trial.value(service.endsAfter) / 60), unit: "min", formula: "as stated", inputs: [input(service.endsAfter, trial, "min", 1 / 60)], source: "the text" },
    );
  }
  if (setup.access !== undefined && setup.start !== undefined) {
    out.push({ name: "time to set up", of: [], value: round(setup.start - setup.access), unit: "min", formula: "start − access", inputs: [given("access", setup.access, "min"), given("start", setup.start, "min")], source: "arithmetic" });
  }
  if (money.devices.length > 0) {
    out.push({ name: "cost of what has to be bought", of: money.devices.map((device) => device.name), value: round(money.cost), unit: "", formula: "Σ prices stated", inputs: money.devices.flatMap((d) => (d.toBuy?.price === undefined ? [] : [given(d.name, d.toBuy.price, "")])), source: "arithmetic" });
  }
  return out;
}
