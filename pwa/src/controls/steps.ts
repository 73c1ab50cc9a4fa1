/** Steps that suit the unit: what one touch of a stepper changes. */

import { fromBase, spanFromBase, toBase } from "../units";

/** 1, 2 or 5 times a power of ten, the one nearest below or at `span`. */
export function niceStep(span: number): number {
  const power = 10 ** Math.floor(Math.log10(span) + 1e-9);
  const head = span / power + 1e-9;
  return (head >= 5 ? 5 : head >= 2 ? 2 : 1) * power;
}

/** `value` (base unit) one step up or down, on the grid of the step in `unit`. */
export function stepped(value: number, way: 1 | -1, step: number, unit: string, base: string): number {
  const own = unit === base ? step : niceStep(spanFromBase(step, unit, base));
  const shown = fromBase(value, unit, base);
  const next = Math.round((shown + way * own) / own) * own;
  // A value off the grid first goes to the next line of it.
  const tidy = Math.abs(next - shown) > own * 1.001 ? next - way * own : next;
  return Number(toBase(Number(tidy.toFixed(6)), unit, base).toFixed(6));
}

/**
 * Whether more figures may yet bring it into `possible`: a 7 on its way to 731. Such a one is not called wrong while it is typed.
 */
export function onItsWay(value: number, [least, most]: [number, number]): boolean {
  return value >= 0 ? value < least : value > most;
}

export function within(value: number, possible?: [number, number]): number {
  if (possible === undefined) return value;
  return Math.min(possible[1], Math.max(possible[0], value));
}
