/**
 * The angle of the phone's long edge against the horizontal, from readings of how it lies.
 *
 * Of the angles a browser gives, only beta is needed: with the W3C's turning order (Z, X′, Y″) the long edge rises by
 * asin(sin beta), whichever way the screen looks. Angles in degrees throughout; top end up is positive.
 */

import { deviation, doubt, mean } from "./spread";

export interface Reading {
  value: number;
  /** 95 % */
  plusMinus: number;
  still: boolean;
}

/**
 * Browsers tell of changes beyond 0.1° only (Chromium, device_orientation_event_pump.cc): what was told last is off by up to
 * that, evenly spread. Twice its standard deviation.
 */
const WITHHELD = (2 * 0.2) / Math.sqrt(12);
/** More unrest than this and the phone is held, not laid. */
const STILL = 0.3;
const BLOCKS = 8;
/** An edge laid by hand does not lie the same again: no angle is known better than this, common practice. */
const LAID = 0.2;

export function rise(beta: number): number {
  return (Math.asin(Math.sin((beta * Math.PI) / 180)) * 180) / Math.PI;
}

/** The mean of a window. Neighbouring readings are not independent, so its ± comes from the means of blocks. */
export function settled(rises: number[]): Reading | null {
  if (rises.length < 2 * BLOCKS) return null;
  const size = Math.floor(rises.length / BLOCKS);
  const used = rises.slice(rises.length - size * BLOCKS);
  const blocks = Array.from({ length: BLOCKS }, (_, at) => mean(used.slice(at * size, (at + 1) * size)));
  const range = Math.max(...blocks) - Math.min(...blocks);
  return {
    value: mean(used),
    plusMinus: Math.hypot(doubt(blocks), WITHHELD),
    still: deviation(used) < STILL && range < STILL,
  };
}

/** Two readings in one place, the phone turned end for end between them: what is off in the phone itself falls out. */
export function twoWay(first: Reading, turned: Reading): Reading & { offset: number } {
  return {
    value: (first.value - turned.value) / 2,
    offset: (first.value + turned.value) / 2,
    plusMinus: Math.max(LAID, Math.hypot(first.plusMinus, turned.plusMinus) / 2),
    still: first.still && turned.still,
  };
}

/** A reading against another taken before: from a level known to be true, or from the other side. */
export function against(reading: Reading, other: Reading): Reading {
  return {
    value: reading.value - other.value,
    plusMinus: Math.max(LAID, Math.hypot(reading.plusMinus, other.plusMinus)),
    still: reading.still && other.still,
  };
}
