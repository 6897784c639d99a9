// SI figures as text in the display units, with the reader's decimal mark.

import type { Quantity } from "../api/types";
import { inchParts, system, type System } from "../state/units";

const INCH = 0.0254;
const US_GALLON = 0.003785411784;
const POUND = 0.45359237;
const POUND_FORCE = 4.4482216152605;
const PSI = 6894.757293168;

/** Cached, since making a format takes a hundred times as long as using it. */
const formats = new Map<string, Intl.NumberFormat>();

/** A number with at most `digits` decimals, without grouping. */
export function number(value: number, digits = 1): string {
  const key = `${navigator.language} ${digits}`;
  let format = formats.get(key);
  if (!format) {
    format = new Intl.NumberFormat(navigator.language, { maximumFractionDigits: digits, useGrouping: false });
    formats.set(key, format);
  }
  return format.format(value);
}

function inches(metres: number): string {
  const inch = inchParts.value;
  const parts = Math.round((Math.abs(metres) / INCH) * inch);
  const whole = Math.floor(parts / inch);
  let [above, below] = [parts % inch, inch];
  while (above > 0 && above % 2 === 0) [above, below] = [above / 2, below / 2];
  const sign = metres < 0 && parts > 0 ? "-" : "";
  const text = above === 0 ? `${whole}` : whole === 0 ? `${above}/${below}` : `${whole} ${above}/${below}`;
  return sign + text;
}

/** A length without its unit. */
export function bareLength(metres: number, shown: System = system.value): string {
  return shown === "inch" ? inches(metres) : number(metres * 1000, 1);
}

export function length(metres: number): string {
  return unbroken(`${bareLength(metres)} ${lengthUnit()}`);
}

/** With no-break spaces in mixed numbers: `17 3/4` broken across lines reads as `3/4`. */
export function unbroken(text: string): string {
  return text.replace(/(\d) (?=\d+\/\d)/g, "$1\u00a0");
}

/** The thickness of sheet: finer than a tape, since 12 mm sheet is not half an inch. */
export function sheetThickness(metres: number): string {
  return movement(metres);
}

/** A small movement: decimals in inches too. */
export function movement(metres: number): string {
  return system.value === "inch" ? `${number(metres / INCH, 3)} in` : `${number(metres * 1000, 1)} mm`;
}

export function size(sides: readonly number[]): string {
  return unbroken(`${sides.map((side) => bareLength(side)).join(" × ")} ${lengthUnit()}`);
}

/** A long length: metres or feet. */
export function run(metres: number): string {
  return system.value === "inch" ? `${number(metres / (12 * INCH), 1)} ft` : `${number(metres, 1)} m`;
}

export function volume(cubic: number): string {
  return system.value === "inch" ? `${number(cubic / US_GALLON, 1)} US gal` : `${number(cubic * 1000, 1)} L`;
}

export function mass(kilograms: number): string {
  return system.value === "inch" ? `${number(kilograms / POUND, 1)} lb` : `${number(kilograms, 1)} kg`;
}

export function temperature(kelvin: number): string {
  const celsius = kelvin - 273.15;
  return system.value === "inch" ? `${number(celsius * 1.8 + 32, 0)} °F` : `${number(celsius, 0)} °C`;
}

export function pressure(pascals: number): string {
  if (system.value === "inch") return `${number(pascals / PSI, 1)} psi`;
  return pascals >= 1e5 ? `${number(pascals / 1e6, 2)} MPa` : `${number(pascals / 1e3, 2)} kPa`;
}

/** A setting of the gun as a range, in the server's unit. */
export function range(low: number, high: number, unit: string): string {
  const digits = unit === "in" || unit === "lbf" ? 2 : 1;
  return `${number(low, digits)}–${number(high, digits)} ${unit.replace(/^deg/, "°")}`;
}

export function area(square: number): string {
  return system.value === "inch" ? `${number(square / (12 * INCH) ** 2, 1)} sq ft` : `${number(square, 3)} m²`;
}

export function force(newtons: number): string {
  return system.value === "inch" ? `${number(newtons / POUND_FORCE, 1)} lbf` : `${number(newtons, 0)} N`;
}

/** The welding speed. */
export function speed(metresPerSecond: number): string {
  const perMinute = metresPerSecond * 60;
  return system.value === "inch" ? `${number(perMinute / INCH, 1)} in/min` : `${number(perMinute * 1000, 0)} mm/min`;
}

export function hours(seconds: number): string {
  if (seconds < 3600) return `${number(seconds / 60, 0)} min`;
  return `${number(seconds / 3600, 1)} h`;
}

export function degrees(radians: number): string {
  return `${number((radians * 180) / Math.PI, 1)}°`;
}

export function percent(ratio: number): string {
  return `${number(ratio * 100, 0)} %`;
}

export function bytes(count: number): string {
  return count < 1e6 ? `${number(count / 1e3, 0)} kB` : `${number(count / 1e6, 1)} MB`;
}

export function lengthUnit(shown: System = system.value): string {
  return shown === "inch" ? "in" : "mm";
}

/** A figure of a finding. */
export function quantity({ value, unit }: Quantity): string {
  const shown: Record<string, (value: number) => string> = {
    m: movement,
    m2: area,
    n: force,
    m_s: speed,
    m3: volume,
    kg: mass,
    pa: pressure,
    s: hours,
    rad: degrees,
    k: temperature,
    ratio: percent,
    count: (count) => number(count, 0),
  };
  return shown[unit]?.(value) ?? `${number(value, 3)} ${unit}`;
}
