/** A strict little reader of XML, for tests: throws at whatever is not well formed, gives the elements otherwise. */
export interface XmlElement {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: XmlElement[];
  text: string;
}

const ENTITIES: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: "\"", "#39": "'" };
// XML 1.0, production Char.
const FORBIDDEN = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]|\p{Cs}/u;

function decode(raw: string): string {
  if (raw.includes("<")) throw new Error(`bare < in ${raw.slice(0, 60)}`);
  return raw.replace(/&([^;&]{0,8});?/g, (whole, name: string) => {
    const value = ENTITIES[name];
    if (value === undefined || !whole.endsWith(";")) throw new Error(`unknown entity ${whole}`);
    return value;
  });
}

export function parseXml(source: string): XmlElement {
  if (FORBIDDEN.test(source)) throw new Error("a character that XML does not allow");
  const root: XmlElement = { tag: "", attributes: {}, children: [], text: "" };
  const open: XmlElement[] = [root];
  let at = 0;
  const top = (): XmlElement => open.at(-1) ?? root;
  while (at < source.length) {
    if (source[at] !== "<") {
      const next = source.indexOf("<", at);
      const end = next < 0 ? source.length : next;
      top().text += decode(source.slice(at, end));
      at = end;
      continue;
    }
    const close = /^<\/([a-z][\w-]*)>/.exec(source.slice(at, at + 60));
    if (close !== null) {
      const last = open.pop();
      if (last?.tag !== close[1]) throw new Error(`</${close[1] ?? ""}> closes <${last?.tag ?? ""}>`);
      at += close[0].length;
      continue;
    }
    const start = /<([a-zA-Z][\w-]*)((?:\s+[a-zA-Z][\w:-]*="[^"<]*")*)\s*(\/?)>/y;
    start.lastIndex = at;
    const found = start.exec(source);
    if (found === null) throw new Error(`not well formed at ${source.slice(at, at + 80)}`);
    const attributes: Record<string, string> = {};
    for (const [, name = "", value = ""] of (found[2] ?? "").matchAll(/([a-zA-Z][\w:-]*)="([^"]*)"/g)) {
      if (name in attributes) throw new Error(`attribute ${name} twice`);
      attributes[name] = decode(value);
    }
    const child: XmlElement = { tag: found[1] ?? "", attributes, children: [], text: "" };
    top().children.push(child);
    if (found[3] !== "/") open.push(child);
    at += found[0].length;
  }
  const [only] = root.children;
  if (open.length !== 1 || root.children.length !== 1 || only === undefined || root.text.trim() !== "") throw new Error("not one closed element");
  return only;
}

/** The element and all inside it. */
export function all(element: XmlElement): XmlElement[] {
  return [element, ...element.children.flatMap(all)];
}
