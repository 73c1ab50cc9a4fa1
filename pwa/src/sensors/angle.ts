/**
 * The angle of the phone's long edge against the horizontal, from readings of how it lies.
 *
 * Of the angles a browser gives, only beta is needed: with the W3C's turning order (Z, X′, Y″) the long edge rises by
 * asin(sin beta), whichever way the screen looks. Angles in degrees throughout; top end up is positive.
 */

export interface Reading {
  value: number;
  /** Standard error of the mean. */
  error: number;
  still: boolean;
}

/** Browsers tell of changes beyond 0.1° only (from memory): what they told last is off by up to that, evenly spread. */
const ROUNDING = 0.2 / Math.sqrt(12);
/** More unrest than this and the phone is held, not laid. */
const STILL = 0.3;
const BLOCKS = 8;

export function rise(beta: number): number {
  return (Math.asin(Math.sin((beta * Math.PI) / 180)) * 180) / Math.PI;
}

/** The mean of a window. Neighbouring readings are not independent, so its error comes from the means of blocks. */
export function settled(rises: number[]): Reading | null {
  if (rises.length < 2 * BLOCKS) return null;
  const size = Math.floor(rises.length / BLOCKS);
  const used = rises.slice(rises.length - size * BLOCKS);
  const blocks = Array.from({ length: BLOCKS }, (_, at) => mean(used.slice(at * size, (at + 1) * size)));
  const error = Math.hypot(deviation(blocks) / Math.sqrt(BLOCKS), ROUNDING);
  return { value: mean(used), error, still: deviation(used) < STILL && range(blocks) < STILL };
}

/** Two readings in one place, the phone turned end for end between them: what is off in the phone itself falls out. */
export function twoWay(first: Reading, turned: Reading): Reading & { offset: number } {
  return {
    value: (first.value - turned.value) / 2,
    offset: (first.value + turned.value) / 2,
    error: Math.hypot(first.error, turned.error) / 2,
    still: first.still && turned.still,
  };
}

/** A reading against another taken before: from a level known to be true, or from the other side. */
export function against(reading: Reading, other: Reading): Reading {
  return {
    value: reading.value - other.value,
    error: Math.hypot(reading.error, other.error),
    still: reading.still && other.still,
  };
}

export function mean(values: number[]): number {
  return values.reduce((sum, one) => sum + one, 0) / values.length;
}

/** Standard deviation of a sample. */
export function deviation(values: number[]): number {
  const middle = mean(values);
  return Math.sqrt(values.reduce((sum, one) => sum + (one - middle) ** 2, 0) / (values.length - 1));
}

function range(values: number[]): number {
  return Math.max(...values) - Math.min(...values);
}
