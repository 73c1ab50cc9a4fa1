/** Hybrid logical clock, as docs/record.md defines it: an entry sorts after everything its writer had seen. */

const MOST_COUNT = 0xffff;

export const FIRST_STAMP = "0000000000000-0000-00000000";
export const NO_PREV = "0".repeat(64);

/** The stamp of the next entry: `clock` is the device's time in ms, `highest` the highest stamp it has written or pulled. */
export function nextStamp(clock: number, highest: string, device: string): string {
  const keptMs = Number(highest.slice(0, 13));
  const keptCount = Number.parseInt(highest.slice(14, 18), 16);
  let ms = Math.max(0, Math.floor(clock));
  let count = 0;
  if (ms <= keptMs) {
    ms = keptMs;
    count = keptCount + 1;
    if (count > MOST_COUNT) {
      ms += 1;
      count = 0;
    }
  }
  return `${String(ms).padStart(13, "0")}-${count.toString(16).padStart(4, "0")}-${device.slice(0, 8)}`;
}

/** SHA-256 of the text's UTF-8 bytes, in hex. */
export async function sha256(text: string): Promise<string> {
  const sum = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return Array.from(new Uint8Array(sum), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
