import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { element, path, write } from "../../server/views/svg/element";
import { clean, escape } from "../../server/views/svg/escape";
import { widthOf } from "../../server/views/svg/glyphs";
import { PALETTES, THEMES } from "../../server/views/svg/palette";
import { balance, shorten, wrap } from "../../server/views/svg/wrap";
import { parseXml } from "./xml";

describe("escaping", () => {
  it("lets any text through an element and an attribute unharmed but for what it cleans", () => {
    fc.assert(fc.property(fc.string({ unit: "binary", maxLength: 200 }), (text) => {
      const read = parseXml(write(element("g", { label: text }, element("text", {}, text))));
      expect(read.attributes["label"]).toBe(clean(text));
      expect(read.children[0]?.text).toBe(clean(text));
    }));
  });

  it("replaces what steers the reading direction, controls, and halves of pairs", () => {
    expect(clean("a\u202Eb\u2066c\u0007d\uD800e\uFFFF")).toBe("a\uFFFDb\uFFFDc\uFFFDd\uFFFDe\uFFFD");
    expect(clean(" two\n\tlines \u00A0 ")).toBe("two lines");
    expect(clean(`z${"\u0301".repeat(50)}`)).toBe("z\u0301\u0301");
    expect(escape(`<&>"'`)).toBe("&lt;&amp;&gt;&quot;&#39;");
  });

  it("bounds what one text may take", () => {
    expect(clean("x".repeat(1_000_000)).length).toBeLessThan(50_000);
  });
});

describe("writing", () => {
  it("leaves out what is undefined and keeps numbers short", () => {
    expect(write(element("rect", { x: 1 / 3, y: -0.0001, id: undefined }))).toBe(`<rect x="0.33" y="0"/>`);
    expect(path("M", 1.005, 2, "H", 10)).toBe("M 1 2 H 10");
  });
});

describe("widths of text", () => {
  it("advance widths of the Helvetica core metrics: digits 556, i 222, W 944, bold m 889 (recalled)", () => {
    const margin = 1.04;
    expect(widthOf("0123456789", 1000)).toBeCloseTo(5560 * margin);
    expect(widthOf("iW", 1000)).toBeCloseTo((222 + 944) * margin);
    expect(widthOf("m", 1000, true)).toBeCloseTo(889 * margin);
    expect(widthOf("é", 1000)).toBeCloseTo(widthOf("e", 1000));
  });

  it("full width for Han and Kana, none for combining marks", () => {
    expect(widthOf("会議", 10)).toBeCloseTo(20.8);
    expect(widthOf("e\u0302\u0301", 10)).toBeCloseTo(widthOf("e", 10));
  });
});

describe("wrapping", () => {
  it("never exceeds its width nor its lines, and says when something is left out", () => {
    fc.assert(fc.property(fc.string({ unit: "grapheme", maxLength: 300 }), fc.integer({ min: 60, max: 300 }), fc.integer({ min: 1, max: 4 }), (text, width, most) => {
      for (const fit of [wrap, balance]) {
        const { lines, shortened } = fit(text, 14, width, most);
        expect(lines.length).toBeLessThanOrEqual(most);
        for (const line of lines) expect(widthOf(line, 14)).toBeLessThanOrEqual(width + 1e-6);
        // A blank at the end of a line stands for the break.
        if (!shortened) expect(lines.join("").replaceAll(" ", "")).toBe(clean(text).replaceAll(" ", ""));
        else expect(lines.some((line) => line.includes("…"))).toBe(true);
      }
    }));
  });

  it("breaks at blanks and after hyphens, and shortens with an ellipsis", () => {
    expect(wrap("stage-camera at the back", 14, 80, 3).lines).toEqual(["stage-", "camera at", "the back"]);
    expect(shorten("a name that is too long", 14, 80)).toMatch(/^a name.*…$/);
    expect(balance("too small from row 2", 14, 110, 2).lines).toEqual(["too small", "from row 2"]);
  });
});

/** Relative luminance and contrast ratio as in WCAG 2.2. */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16) / 255).map((value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

describe.each(THEMES)("the colours of the theme %s", (theme) => {
  const palette = PALETTES[theme];
  it("text has at least 4.5 to 1 on page and band (WCAG 2.2, success criterion 1.4.3)", () => {
    for (const text of [palette.ink, palette.ink2]) for (const ground of [palette.page, palette.ground]) expect(contrast(text, ground)).toBeGreaterThanOrEqual(4.5);
  });
  it("lines and marks have at least 3 to 1 on page and band (WCAG 2.2, success criterion 1.4.11)", () => {
    for (const line of [palette.out, palette.in, palette.pale, palette.trouble]) {
      for (const ground of [palette.page, palette.ground]) expect(contrast(line, ground)).toBeGreaterThanOrEqual(3);
    }
    for (const mark of [palette.doubtful, palette.unknown]) expect(contrast(palette.sign, mark)).toBeGreaterThanOrEqual(3);
    expect(contrast(palette.page, palette.trouble)).toBeGreaterThanOrEqual(3);
    expect(contrast(palette.ink, palette.works)).toBeGreaterThanOrEqual(3);
    expect(contrast(palette.ink, palette.post)).toBeGreaterThanOrEqual(3);
  });
  it("hues are those of Okabe and Ito (2008), or none", () => {
    const set = ["#0072B2", "#56B4E9", "#009E73", "#D55E00", "#E69F00", "#F0E442", "#CC79A7"];
    for (const colour of [palette.out, palette.in, palette.trouble, palette.doubtful, palette.unknown]) {
      const [r, g, b] = [1, 3, 5].map((at) => colour.slice(at, at + 2));
      expect(set.includes(colour) || (r === g && g === b), colour).toBe(true);
    }
  });
});
