/** What is chosen above the drawing: the item of the programme, the question that is put to a floor plan, and from where one looks. */
import type { Look } from "../../../server/protocol/messages";
import type { FromPage, Looking, Picture } from "../messages";
import { seatIn, standing } from "../standing";
import { byId, element } from "./parts";

interface Offer {
  readonly value: string;
  readonly title: string;
}

/** One choice with its label; it is hidden while there is nothing to choose. */
class Chooser {
  readonly #select: HTMLSelectElement;
  readonly #tools: HTMLElement;

  constructor(id: string, change: (value: string) => void) {
    this.#select = byId(id) as HTMLSelectElement;
    this.#tools = byId(`${id}-tools`);
    this.#select.addEventListener("change", () => change(this.#select.value));
  }

  get value(): string {
    return this.#select.value;
  }

  /** Options that are as they were are left alone: one may be about to choose. */
  show(offers: readonly Offer[], value: string | undefined, hidden: boolean): void {
    this.#tools.hidden = hidden;
    const now = [...this.#select.options];
    if (now.length !== offers.length || now.some((option, i) => option.value !== offers[i]?.value || option.text !== offers[i]?.title)) {
      this.#select.replaceChildren(...offers.map(({ value: of, title }) => {
        const option = element("option", "", title);
        option.value = of;
        return option;
      }));
    }
    if (value !== undefined && this.#select.value !== value) this.#select.value = value;
  }
}

export class Choosers {
  readonly #item: Chooser;
  readonly #ask: Chooser;
  readonly #view: Chooser;
  readonly #place: Chooser;
  readonly #seat: Chooser;
  #looking: Looking | undefined;
  /** Where one looked from last, by view: coming back to a view, one is there again. */
  readonly #last = new Map<Look, string>();

  constructor(post: (message: FromPage) => void) {
    const look = (view: Look, of: string | undefined): void => post({ kind: "look", view, ...(of === undefined ? {} : { of }) });
    this.#item = new Chooser("item", (item) => post({ kind: "item", item }));
    this.#ask = new Chooser("ask", (ask) => post({ kind: "ask", ask }));
    this.#view = new Chooser("view", (value) => {
      const view = this.#looking?.views.find((one) => one.view === value)?.view;
      if (view !== undefined) look(view, this.#last.get(view));
    });
    this.#place = new Chooser("place", (value) => {
      const place = this.#looking?.places.find((one) => one.of === value);
      if (this.#looking !== undefined && place !== undefined) look(this.#looking.view, seatIn(place, standing(this.#looking.places, this.#looking.of)?.seat));
    });
    this.#seat = new Chooser("seat", (value) => {
      if (this.#looking !== undefined) look(this.#looking.view, `${this.#place.value}.seat-${value}`);
    });
  }

  show({ items, item, asks, ask, looking }: Picture): void {
    this.#item.show(items.map((name) => ({ value: name, title: name })), item, items.length < 2);
    // The first question is none.
    this.#ask.show([{ value: "", title: "What stands where?" }, ...(asks ?? []).map((one) => ({ value: one.ask, title: one.title }))], ask ?? "", asks === undefined);
    this.#looking = looking;
    if (looking?.of !== undefined) this.#last.set(looking.view, looking.of);
    const at = standing(looking?.places ?? [], looking?.of);
    this.#view.show((looking?.views ?? []).map((one) => ({ value: one.view, title: one.title })), looking?.view, looking === undefined);
    this.#place.show((looking?.places ?? []).map((one) => ({ value: one.of, title: one.title })), at?.place.of, looking === undefined || looking.places.length === 0);
    const seats = at?.place.seats ?? 0;
    this.#seat.show(Array.from({ length: seats }, (_, i) => ({ value: String(i + 1), title: String(i + 1) })), at?.seat === undefined ? undefined : String(at.seat), seats < 2);
  }
}
