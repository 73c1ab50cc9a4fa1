/**
 * What stands in the QR code on a plate's label: a link, so that any phone's camera opens the right sheet, with two check letters,
 * so that a worn code or a label of another event is told from a good one.
 */

export type Scanned = { plate: string } | { problem: "not-a-label" | "another-event" | "damaged" };

const LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const LABEL = /\/lineup\/([0-9a-f-]{36})\/plate\/([^/?#]+)(?:\?c=([0-9A-Z]*))?/;

/** Two letters over event and plate (FNV-1a, folded to 10 bits). */
export function checkLetters(event: string, plate: string): string {
  let sum = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(`${event}/${plate}`)) sum = Math.imul(sum ^ byte, 0x01000193) >>> 0;
  const folded = (sum ^ (sum >>> 10) ^ (sum >>> 20)) & 0x3ff;
  return `${LETTERS[folded >> 5]}${LETTERS[folded & 31]}`;
}

export function labelText(origin: string, event: string, plate: string): string {
  return `${origin}/lineup/${event}/plate/${encodeURIComponent(plate)}?c=${checkLetters(event, plate)}`;
}

/** What a scanned text says at this event. Where the server stood when the label was printed does not matter. */
export function readLabel(text: string, event: string): Scanned {
  const found = LABEL.exec(text);
  if (found === null) return { problem: /\/lineup\//.test(text) ? "damaged" : "not-a-label" };
  const [, of = "", coded = "", check = ""] = found;
  let plate: string;
  try {
    plate = decodeURIComponent(coded);
  } catch {
    return { problem: "damaged" };
  }
  if (check !== checkLetters(of, plate)) return { problem: "damaged" };
  return of === event ? { plate } : { problem: "another-event" };
}
