// @vitest-environment happy-dom
import { expect, test, vi } from "vitest";
import { english } from "./en";
import { pseudo } from "./pseudo";

/** Stands for anything that is inserted: a word of its own that must not be marked. */
const INSERTED = "inserted";
const NUMBERS = [0, 1, 2];

/** Every text of a tree of words by its path, functions called with what they may be called with. */
function texts(words: unknown, path: string): [string, string][] {
  if (typeof words === "string") return [[path, words]];
  if (typeof words === "function") {
    const say = words as (...inserted: (string | number)[]) => string;
    // A number where one is asked for decides between the forms of a sentence.
    return [...NUMBERS, INSERTED].map((value, index) => [`${path}(${index})`, say(...Array.from({ length: say.length || 3 }, () => value))]);
  }
  return Object.entries(words as object).flatMap(([key, value]) => texts(value, `${path}.${key}`));
}

test("in the pseudo-locale every word of every text is marked, and nothing that is inserted", () => {
  const all = texts(pseudo(english), "words");
  expect(all.length).toBeGreaterThan(300);
  for (const [path, text] of all) {
    const own = text.replaceAll(INSERTED, "");
    expect(own.match(/(?<![·\p{L}])\p{L}+/gu), `${path}: ${text}`).toBeNull();
    expect(text, path).not.toContain(`·${INSERTED}`);
  }
});

test("without its marks the pseudo-locale is English", () => {
  expect(texts(pseudo(english), "words").map(([, text]) => text.replaceAll("·", ""))).toEqual(texts(english, "words").map(([, text]) => text.replaceAll("·", "")));
});

test("singular and plural stay apart", () => {
  const { top } = pseudo(english);
  expect(top.doNotBuild(1)).toBe("·Do ·not ·build ·yet: 1 ·cause ·stops ·it");
  expect(top.doNotBuild(2)).toBe("·Do ·not ·build ·yet: 2 ·causes ·stop ·it");
});

async function opened(address: string): Promise<typeof import(".")> {
  vi.resetModules();
  history.replaceState(null, "", address);
  return import(".");
}

test("the address chooses the language; English where it asks for none or for one that is not there", async () => {
  expect((await opened("/?language=en-XA")).words.title).toBe("·Brimful");
  expect((await opened("/")).words.title).toBe("Brimful");
  expect((await opened("/?language=toString")).language).toBe("en");
});

test("names of keys and options come from the words too; what has none is shown as it is", async () => {
  const { keyName, optionName } = await opened("/?language=en-XA");
  expect(keyName("inner[2].joint")).toBe("·Joint ·of ·inner ·panels");
  expect(keyName("inner[2].new_key")).toBe("new key");
  expect(optionName("opening.service", "draw")).toBe("·outlet");
  expect(optionName("opening.service", "vent")).toBe("vent");
});
