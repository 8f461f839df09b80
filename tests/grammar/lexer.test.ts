import { describe, expect, it } from "vitest";
import { lex, quote, unquote } from "../../grammar/lexer";

/** Kind and text of each token, as `kind:text`. */
const kinds = (text: string): string[] => lex(text).tokens.map((token) => `${token.kind}:${token.text}`);

describe("words", () => {
  it.each([
    "lapel", "front-screen", "laptop.usb-1", "audience.row-2.seat-5", "Europe/London", "Mb/s", "m²", "m³", "no_echo",
    "Ελένη", "αίθουσα", "école", "e\u0301cole", "会場", "ماشین\u200cها", "d'Arc", "l’orgue", "O'Neil.mic", "क्षेत्र",
  ])("%s is one word", (word) => {
    expect(kinds(word)).toEqual([`word:${word}`]);
  });

  it("a full stop, stroke or apostrophe at a word's end stays apart", () => {
    expect(kinds("box.")).toEqual(["word:box", "unknown:."]);
    expect(kinds("box/ x")).toEqual(["word:box", "unknown:/", "word:x"]);
    expect(kinds("boys' x")).toEqual(["word:boys", "unknown:'", "word:x"]);
  });
});

describe("numbers and what begins like one", () => {
  it.each([
    ["12", "number"], ["3.2", "number"], ["-6", "number"], ["+3", "number"], ["−6", "number"],
    ["3,2", "decimal-comma"], ["1,000", "decimal-comma"], ["1,000,000.5", "decimal-comma"], ["-3,2", "decimal-comma"],
    ["2026-10-14", "date"], ["18:30", "clock"], ["16:9", "clock"], ["100:1", "clock"],
    ["720p30", "mode"], ["720p", "mode"], ["1080i", "mode"], ["1920x1080", "size"],
    ["%", "symbol"], ["°", "symbol"], ["′", "symbol"], ["″", "symbol"],
  ])("%s is one token of kind %s", (text, kind) => {
    expect(kinds(text)).toEqual([`${kind}:${text}`]);
  });

  it("a unit may touch its number", () => {
    expect(kinds("3.2m 50% 60° 12in 2p30x")).toEqual([
      "number:3.2", "word:m", "number:50", "symbol:%", "number:60", "symbol:°", "number:12", "word:in", "number:2", "word:p30x",
    ]);
  });

  it("a sign binds after a blank, a parenthesis, a comma or at a line's start, never after a number or word", () => {
    expect(kinds("(-1,-2 -3")).toEqual(["open-paren:(", "number:-1", "comma:,", "number:-2", "number:-3"]);
    expect(kinds("8-10")).toEqual(["number:8", "unknown:-", "number:10"]);
    expect(kinds("- 5")).toEqual(["unknown:-", "number:5"]);
  });

  it("a comma with a blank after it is a comma", () => {
    expect(kinds("3, 2")).toEqual(["number:3", "comma:,", "number:2"]);
  });

  it("a full stop after a number stays apart", () => {
    expect(kinds("3.")).toEqual(["number:3", "unknown:."]);
  });

  it("dates, times, modes and sizes end where a letter or digit follows", () => {
    expect(kinds("2026-10-14x")[0]).toBe("number:2026");
    expect(kinds("18:300")[0]).toBe("number:18");
    expect(kinds("1920x1080y")).toEqual(["number:1920", "word:x1080y"]);
  });
});

describe("texts", () => {
  it.each(['"a # b { } ,"', '"say \\"hello\\""', '"back \\\\"', "“curly”", "„low“", "„low”", '""'])("%s is one text", (text) => {
    expect(kinds(text)).toEqual([`text:${text}`]);
  });

  it("a quotation mark that is not closed runs to the end of its line, without the blanks there", () => {
    expect(kinds('note "door # 5 }  \nx')).toEqual(["word:note", 'open-text:"door # 5 }', "newline:\n", "word:x"]);
    expect(kinds('"a\\')).toEqual(['open-text:"a\\']);
    expect(kinds("“a\"")).toEqual(["open-text:“a\""]);
  });

  it("other characters of the same corner of Unicode are no quotation marks", () => {
    expect(kinds("€ 5")).toEqual(["unknown:€", "number:5"]);
  });

  it("says what it says, and says it again", () => {
    const [token] = lex('"say \\"hi\\" \\\\ there"').tokens;
    expect(token).toBeDefined();
    if (token === undefined) return;
    expect(unquote(token)).toBe('say "hi" \\ there');
    expect(quote(unquote(token))).toBe(token.text);
    expect(quote("two\nlines")).toBe('"two lines"');
  });

  it("an open text says all that follows its mark", () => {
    const [token] = lex('"say').tokens;
    expect(token && unquote(token)).toBe("say");
  });
});

describe("the rest", () => {
  it("braces, parentheses, commas", () => {
    expect(lex("{}(),").tokens.map((token) => token.kind)).toEqual([
      "open-brace", "close-brace", "open-paren", "close-paren", "comma",
    ]);
  });

  it("CR LF, LF and a lone CR end a line", () => {
    expect(kinds("a\r\nb\nc\rd")).toEqual([
      "word:a", "newline:\r\n", "word:b", "newline:\n", "word:c", "newline:\r", "word:d",
    ]);
  });

  it("a mark of byte order, tabs, hard and invisible blanks are blanks", () => {
    expect(kinds("\ufeffa\t\u00a0b\u2009\u3000c\u200bd")).toEqual(["word:a", "word:b", "word:c", "word:d"]);
  });

  it("comments run to the end of their line, without the blanks there", () => {
    const { comments, tokens } = lex("a # b \n#c");
    expect(comments.map((comment) => comment.text)).toEqual(["# b", "#c"]);
    expect(tokens.map((token) => token.text)).toEqual(["a", "\n"]);
  });

  it("what a merge leaves is known at a line's start, seven signs long", () => {
    expect(kinds("<<<<<<< HEAD\n=======\n>>>>>>> x\n||||||| y").filter((kind) => kind.startsWith("conflict"))).toEqual([
      "conflict:<<<<<<< HEAD", "conflict:=======", "conflict:>>>>>>> x", "conflict:||||||| y",
    ]);
    expect(kinds(" =======")[0]).toBe("unknown:=");
    expect(kinds("========")[0]).toBe("unknown:=");
    expect(kinds("======")[0]).toBe("unknown:=");
  });

  it("any other character is one token, and never half of one", () => {
    expect(kinds("🎤;€")).toEqual(["unknown:🎤", "unknown:;", "unknown:€"]);
    expect(lex("\ud83c").tokens).toHaveLength(1);
  });
});
