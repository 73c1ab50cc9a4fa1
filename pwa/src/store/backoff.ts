/** When to try again: exponential backoff with full jitter, so that a returning signal does not bring all phones at once. */

const FIRST = 2_000;
const MOST = 2 * 60_000;

/** Milliseconds to wait before try number `failures` + 1. `asked` is what the server asked for, seconds. */
export function waitBefore(failures: number, asked: number | null, random: () => number = Math.random): number {
  const span = Math.min(MOST, FIRST * 2 ** Math.max(0, failures - 1));
  const jitter = random() * span;
  // What the server asked for is the least; the jitter comes on top.
  return asked === null ? Math.max(500, jitter) : asked * 1000 + Math.min(jitter, FIRST);
}
