// From what a person typed in a field to what is written in the file, and back.
//
// Nothing is converted: a value goes as it was typed. A bare number of a field that shows a unit
// other than the file's gets that unit behind it, since otherwise the file would read another size.

import type { Written } from "../api/types";
import { bareLength, lengthUnit, mass, number, sheetThickness, temperature } from "../show/figure";
import { written } from "./job";
import { system, type System } from "./units";

/** What a field takes; a `name` is any words at all, a `text` may be a list too. */
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
      return "years";
    default:
      return "";
  }
}

/** What is written in the file for `typed`; null takes the key out. */
export function toWrite(typed: string, kind: Kind): Written {
  const text = typed.trim();
  if (text === "") return null;
  const isNumber = /^-?\d+(\.\d+)?$/.test(text);
  const isBare = BARE.test(text);
  switch (kind) {
    case "number":
    case "count":
      // The file knows no comma in a plain number.
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

/** A list is typed as the file has it; one that cannot be read goes as it was typed. */
function list(text: string): Written {
  try {
    return JSON.parse(text) as Written;
  } catch {
    return text;
  }
}

/** What the field shows for the value in the file, whose figure is `si` where it could be read. */
export function toShow(value: Written | undefined, kind: Kind, si: unknown): string {
  if (value === undefined || value === null) return "";
  const typed = typeof value === "object" ? JSON.stringify(value) : String(value);
  if (systemOf(typed, kind) === system.value) return withoutUnit(typed, kind);
  // Its figure is not known, so it stands with the unit that it was typed in.
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

/** A number typed into the file is shown with the reader's decimal mark; the unit stands beside. */
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

/** The unit that the file gives bare lengths; empty where it gives none. */
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
