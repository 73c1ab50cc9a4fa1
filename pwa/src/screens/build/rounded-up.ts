/** A length that leads to a cut is never rounded in the direction that takes material off: up, never to the nearest. */

import { digitsIn, formatNumber, fromBase, unitOf } from "../../units";

/** Noise in the last places of a sum of tenths is not a reason to go up one more. */
const NOISE = 1e-7;

export function roundedUp(value: number, digits: number): number {
  const power = 10 ** digits;
  return Math.ceil(value * power - NOISE) / power;
}

/** `value` in the person's unit, rounded up at the last figure shown. */
export function showUp(value: number, base: string, digits = 1): string {
  const unit = unitOf(base);
  const shown = digitsIn(unit, base, digits);
  return `${formatNumber(roundedUp(fromBase(value, unit, base), shown), shown)} ${unit}`;
}
