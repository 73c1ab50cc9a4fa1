/** When to try again: exponential backoff with full jitter, so that a returning signal does not bring all phones at once. */

const FIRST = 2_000;
const MOST = 2 * 60_000;

/** Out of reach, a try costs the server nothing, and the browser need not notice when it is in reach again. */
export const MOST_OUT_OF_REACH = 20_000;

/** Milliseconds to wait before try number `failures` + 1, at most `most`. `asked` is what the server asked for, seconds. */
export function waitBefore(failures: number, asked: number | null, most: number = MOST): number {
  const span = Math.min(most, FIRST * 2 ** Math.max(0, failures - 1));
  const jitter = Math.random() * span;
  // What the server asked for is the least; the jitter comes on top.
  return asked === null ? Math.max(500, jitter) : asked * 1000 + Math.min(jitter, FIRST);
}
