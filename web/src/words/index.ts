// The words of the page in the language that its address asks for: `?language=en-XA`, English where it asks for
// none. Another language is another file of the type `Words`, and a line in `LANGUAGES`.

import { english } from "./en";
import { pseudo } from "./pseudo";

export type Words = typeof english;

const LANGUAGES = {
  en: () => english,
  /** The standard tag of a pseudo-localised English, which shows whether every word comes from here. */
  "en-XA": () => pseudo(english),
} satisfies Record<string, () => Words>;

export type Language = keyof typeof LANGUAGES;

const DEFAULT_LANGUAGE: Language = "en";

function asked(): Language {
  const tag = new URLSearchParams(location.search).get("language") ?? "";
  return Object.hasOwn(LANGUAGES, tag) ? (tag as Language) : DEFAULT_LANGUAGE;
}

export const language = asked();
export const words: Words = LANGUAGES[language]();

/** The name of a key of the job file, without the numbers of its blocks. */
export function keyName(key: string): string {
  const plain = key.replace(/\[\d+\]/g, "");
  return words.keys[plain] ?? plain.split(".").at(-1)!.replaceAll("_", " ");
}

/** An option of the job file as it is shown: some have another name than their value. */
export function optionName(key: string, value: string): string {
  return words.options[key]?.[value] ?? value;
}

/** An address of the page or of the API that asks for the same language. */
export function withLanguage(address: string): string {
  if (language === DEFAULT_LANGUAGE) return address;
  return `${address}${address.includes("?") ? "&" : "?"}language=${language}`;
}
