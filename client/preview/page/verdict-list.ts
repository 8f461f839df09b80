/** The six verdicts above the drawing: each with its mark, its words, and a reason of which a click shows all. */
import type { ShownVerdict } from "../../../server/protocol/messages";
import { verdictMark } from "../../../server/views/flow/marks";
import { element as drawn, write } from "../../../server/views/svg/element";
import { reason } from "../../verdict-words";
import { newMorph, parsed } from "./drawing";
import { element } from "./parts";
import { SVG } from "../shape";

const morph = newMorph();

function showMark(place: Element, verdict: ShownVerdict["verdict"]): void {
  const shape = parsed(write(drawn("svg", { xmlns: SVG, class: "bothways-flow", viewBox: "-13 -13 26 26" }, verdictMark(verdict, 0, 0))));
  if (shape !== undefined) place.replaceChildren(morph.show(shape, undefined));
}

function newRow(): HTMLElement {
  const row = element("li", "");
  const button = element("button", "verdict");
  button.type = "button";
  button.setAttribute("aria-expanded", "false");
  const sign = element("span", "sign");
  sign.setAttribute("aria-hidden", "true");
  const words = element("span", "words");
  words.append(element("span", "way"), " ", element("strong", "word"), element("span", "reason"));
  button.append(sign, words);
  button.addEventListener("click", () => button.setAttribute("aria-expanded", String(button.getAttribute("aria-expanded") !== "true")));
  row.append(button);
  return row;
}

/** `item`: the one that is drawn; of another one its name stands with the word. */
export function showVerdicts(list: HTMLElement, six: readonly ShownVerdict[], item: string | undefined): void {
  six.forEach((one, index) => {
    const row = list.children[index] ?? list.appendChild(newRow());
    const part = (name: string): Element => row.querySelector(`.${name}`) ?? row;
    const put = (name: string, text: string): void => {
      const at = part(name);
      if (at.textContent !== text) at.textContent = text;
    };
    if (row.getAttribute("data-verdict") !== one.verdict) {
      row.setAttribute("data-verdict", one.verdict);
      showMark(part("sign"), one.verdict);
    }
    put("way", `${one.title}:`);
    put("word", one.item === undefined || one.item === item ? one.word : `${one.word} (${one.item})`);
    put("reason", reason(one));
  });
  while (list.children.length > six.length) list.lastElementChild?.remove();
}
