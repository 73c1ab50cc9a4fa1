/** Units on the phone: the same factors as the server's (`python -m pinchbolt.units` makes units.json), and how numbers are written. */

import { decimalMark } from "./languages/chosen";
import { said } from "./languages/spoken";
import { keep } from "./store/drafts";
import table from "./units.json";

interface Other {
  unit: string;
  factor: number;
  offset: number;
}

const OTHERS: Record<string, Other[]> = table;

const SYMBOLS = new Set(Object.entries(OTHERS).flatMap(([base, others]) => [base, ...others.map((one) => one.unit)]));

/** A unit where it is shown. Symbols are the same in every language: `bar` is no handlebar, `in` no direction. Words are put over. */
export function unitSaid(unit: string): string {
  return SYMBOLS.has(unit) ? unit : said(unit);
}

/** Which unit this person reads each base unit in. Base units chosen as they are are left out. */
const chosen = keep.kept<Record<string, string>>("units", {});

/** The units a quantity declared in `base` may be shown and typed in, the base itself first. */
export function unitsFor(base: string): string[] {
  return [base, ...(OTHERS[base] ?? []).map((other) => other.unit)];
}

/** The unit this person has chosen for `base`. Reads a signal: a screen showing it follows the choice. */
export function unitOf(base: string): string {
  const unit = chosen.value[base];
  return unit !== undefined && unitsFor(base).includes(unit) ? unit : base;
}

export function chooseUnit(base: string, unit: string): void {
  chosen.value = { ...chosen.value, [base]: unit };
}

/** What one of the chosen unit is in the base unit, where they differ and nought is nought in both. Reads a signal. */
export function chosenFactors(): Record<string, number> {
  const found = Object.keys(chosen.value).map((base) => [base, other(base, unitOf(base))] as const);
  return Object.fromEntries(
    found.flatMap(([base, { factor, offset }]) => (factor === 1 || offset !== 0 ? [] : [[base, factor]])),
  );
}

function other(base: string, unit: string): Other {
  if (unit === base) return { unit, factor: 1, offset: 0 };
  const found = OTHERS[base]?.find((one) => one.unit === unit);
  if (found === undefined) throw new RangeError(`unit: ${unit}, wanted one of ${unitsFor(base).join(", ")}`);
  return found;
}

export function toBase(value: number, unit: string, base: string): number {
  const { factor, offset } = other(base, unit);
  return value * factor + offset;
}

export function fromBase(value: number, unit: string, base: string): number {
  const { factor, offset } = other(base, unit);
  return (value - offset) / factor;
}

/** A difference (a ±, a step, a tolerance) takes the factor and not the offset. */
export function spanFromBase(span: number, unit: string, base: string): number {
  return span / other(base, unit).factor;
}

export function spanToBase(span: number, unit: string, base: string): number {
  return span * other(base, unit).factor;
}

const NUMBER = /^[+\-−]?(\d+([.,]\d*)?|[.,]\d+)$/;

/** A typed number, point or comma; null when it is none. "1.234,5" is none: whoever wrote it meant a thousand, or did not. */
export function parseNumber(text: string): number | null {
  const tight = text.trim().replaceAll(" ", "");
  if (!NUMBER.test(tight)) return null;
  const value = Number(tight.replace(",", ".").replace("−", "-"));
  return Number.isFinite(value) ? value : null;
}

/** The same with the unit it is shown in written after it: "731 mm", "5 Nm". */
export function parseFigure(text: string, unit: string): number | null {
  const figures = text.match(/^[\d\s.,+−-]*/)?.[0] ?? "";
  const after = text.slice(figures.length);
  const bare = (one: string) => one.toLowerCase().replace(/[\s·]/g, "");
  return ["", unit, unitSaid(unit)].some((one) => bare(one) === bare(after)) ? parseNumber(figures) : null;
}

export type Rounds = "up" | "down" | undefined;

/** `value` to `digits`, to nearest or one way only. A millionth of a step is the noise of decimal sums, not a length. */
function rounded(value: number, digits: number, rounds: Rounds): number {
  if (rounds === undefined) return value;
  const steps = value * 10 ** digits;
  return (rounds === "up" ? Math.ceil(steps - 1e-6) : Math.floor(steps + 1e-6)) / 10 ** digits;
}

/** `value` in figures with this person's decimal mark and a true minus; at most `digits` behind the mark, no trailing noughts. */
export function formatNumber(value: number, digits = 2, rounds?: Rounds): string {
  const fixed = rounded(value, digits, rounds).toFixed(digits);
  const short = digits > 0 ? fixed.replace(/\.?0+$/, "") : fixed;
  const text = short === "-0" ? "0" : short;
  return text.replace("-", "−").replace(".", decimalMark);
}

/** No more digits than the base unit was shown with, carried over to `unit`: a tenth of a millimetre is a hundredth of an inch. */
export function digitsIn(unit: string, base: string, baseDigits: number): number {
  const finer = Math.log10(other(base, unit).factor);
  return Math.min(6, Math.max(0, baseDigits + Math.round(finer)));
}

/** A value of the record or of the kernel, in the person's unit, with the unit: "16.5 in". */
export function show(value: number, base: string, digits = 2, rounds?: Rounds): string {
  const unit = unitOf(base);
  const figures = formatNumber(fromBase(value, unit, base), digitsIn(unit, base, digits), rounds);
  if (unit === "") return figures;
  return unit === "°" || unit === "%" ? `${figures}${unit === "%" ? " " : ""}${unit}` : `${figures} ${unitSaid(unit)}`;
}
