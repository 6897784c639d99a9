// Converts between the text of a field and the value in the file.
//
// A value is written as it was typed. Only a bare number in a field that shows another unit than the file's
// gets that unit, since otherwise the file would mean another size.

import type { Written } from "../api/types";
import { bareLength, lengthUnit, mass, number, sheetThickness, temperature } from "../show/figure";
import { written } from "./job";
import { words } from "../words";
import { system, type System } from "./units";

/** What a field accepts; a `name` is any text, a `text` may also be a list. */
export type Kind = "name" | "text" | "length" | "thickness" | "mass" | "temperature" | "years" | "number" | "count";

const BARE = /^-?[\d½¼¾⅛⅜⅝⅞][\d.,/ ½¼¾⅛⅜⅝⅞-]*$/;
const INCH_TEXT = /"|'|\b(in|ft|gal|lb|degF)\b/;

/** The unit shown behind the field. */
export function unit(kind: Kind): string {
  const inch = system.value === "inch";
  switch (kind) {
    case "length":
    case "thickness":
      return lengthUnit();
    case "mass":
      return inch ? "lb" : "kg";
    case "temperature":
      return inch ? "°F" : "°C";
    case "years":
      return words.units.years;
    default:
      return "";
  }
}

/** The value that is written for `typed`; null removes the key. */
export function toWrite(typed: string, kind: Kind): Written {
  const text = typed.trim();
  if (text === "") return null;
  const isNumber = /^-?\d+(\.\d+)?$/.test(text);
  const isBare = BARE.test(text);
  switch (kind) {
    case "number":
    case "count":
      // TOML has no decimal comma.
      return isNumber || /^-?\d+,\d+$/.test(text) ? Number(text.replace(",", ".")) : text;
    case "length":
    case "thickness":
      if (!isBare || lengthUnit() === lengthsOfJob()) return isNumber ? Number(text) : text;
      return `${text} ${lengthUnit()}`;
    case "mass":
      return isBare ? `${text} ${unit(kind)}` : text;
    case "temperature":
      return isBare ? `${text} ${system.value === "inch" ? "degF" : "degC"}` : text.replace("°", "deg");
    case "years":
      return isBare ? `${text} years` : text;
    default:
      return kind === "text" && text.startsWith("[") ? list(text) : text;
  }
}

/** A list is typed as in the file; one that cannot be parsed is written as text. */
function list(text: string): Written {
  try {
    return JSON.parse(text) as Written;
  } catch {
    return text;
  }
}

/** What the field shows for a value of the file, whose parsed figure is `si`. */
export function toShow(value: Written | undefined, kind: Kind, si: unknown): string {
  if (value === undefined || value === null) return "";
  const typed = typeof value === "object" ? JSON.stringify(value) : String(value);
  if (systemOf(typed, kind) === system.value) return withoutUnit(typed, kind);
  // Without a parsed figure it is shown with the unit that it was typed in.
  if (typeof si !== "number") return BARE.test(typed) && isLength(kind) ? `${typed} ${lengthsOfJob()}`.trim() : typed;
  switch (kind) {
    case "length":
      return bareLength(si);
    case "thickness":
      return sheetThickness(si).replace(/ .*/, "");
    case "mass":
      return mass(si).replace(/ .*/, "");
    case "temperature":
      return temperature(si).replace(/ .*/, "");
    default:
      return typed;
  }
}

/** A number is shown with the reader's decimal mark; the unit is shown beside the field. */
function withoutUnit(typed: string, kind: Kind): string {
  const ends = kind === "temperature" ? / ?deg[CF]$/ : kind === "years" ? / years?$/ : kind === "mass" ? / (kg|lb)$/ : / (mm|in)$/;
  if (isWords(kind)) return typed;
  const bare = typed.replace(ends, "");
  return /^-?\d+\.\d+$/.test(bare) ? number(Number(bare), 9) : bare;
}

export function isWords(kind: Kind): boolean {
  return kind === "name" || kind === "text";
}

function isLength(kind: Kind): boolean {
  return kind === "length" || kind === "thickness";
}

/** The default unit of lengths in the file; empty where there is none. */
function lengthsOfJob(): string {
  const lengths = written("job.lengths");
  return typeof lengths === "string" ? lengths : "";
}

function systemOf(typed: string, kind: Kind): System {
  if (BARE.test(typed)) {
    const lengths = isLength(kind) ? lengthsOfJob() : "";
    return lengths === "in" || lengths === "ft" ? "inch" : "metric";
  }
  return INCH_TEXT.test(typed) ? "inch" : "metric";
}
