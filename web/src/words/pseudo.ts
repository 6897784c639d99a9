// A pseudo-localised copy of a language: a mark before each of its words, and none before what is inserted into
// them. A word without a mark on the page does not come from here.

const MARK = "·";
/** Stand for inserted texts while a sentence is marked; from the private use area, so that no word has them. */
const [OPEN, CLOSE] = ["\uE000", "\uE001"];
const INSERTED = new RegExp(`${OPEN}(\\d+)${CLOSE}`, "g");

type Sentence = (...inserted: (string | number)[]) => string;

/** A copy in which every string, and every string that a function returns, is marked. */
export function pseudo<T>(words: T): T {
  return marked(words) as T;
}

function marked(words: unknown): unknown {
  if (typeof words === "string") return mark(words);
  if (typeof words === "function") return sentence(words as Sentence);
  return Object.fromEntries(Object.entries(words as object).map(([key, value]) => [key, marked(value)]));
}

function mark(text: string): string {
  return text.replace(/\p{L}+/gu, `${MARK}$&`);
}

function sentence(say: Sentence): Sentence {
  return (...inserted) => {
    // Numbers decide between singular and plural, and have no letters to mark.
    const placeholders = inserted.map((value, place) => (typeof value === "string" ? `${OPEN}${place}${CLOSE}` : value));
    return mark(say(...placeholders)).replace(INSERTED, (_, place: string) => String(inserted[Number(place)]));
  };
}
