/** What is said or typed at the trackside, put word by word into the English that the kernel reads (`kernel/spoken.py`). */

/** A language's words in small letters, one to six of them, and what they are in English; "" for those that say nothing. */
export type HeardWords = Record<string, string>;

const LONGEST = 6;
/** From here on it is a person's own reason, which stays as it was said. */
const WHY = "because";

/** A language's words, and what settings are called in it: "Sattelhöhe 720" goes on as the setting's name on the record. */
export function withLabels(words: HeardWords, settings: { setting: string; label: string }[]): HeardWords {
  const labels = settings.map(({ setting, label }) => {
    const pieces = piecesOf(label).said;
    return [phrase(pieces, 0, pieces.length), setting];
  });
  return { ...words, ...Object.fromEntries(labels) };
}

function piecesOf(text: string): { whole: string[]; said: Pieces } {
  const whole = text.normalize("NFC").split(/\s+/).filter(Boolean);
  // "l'avant" is two words; `of` is where in the whole each belongs.
  return { whole, said: whole.flatMap((word, of) => word.split(/(?<=['’])/).map((piece) => ({ piece, of }))) };
}

/** A word that the language does not know goes on as it is: a figure, a unit, English. */
export function inEnglish(text: string, words: HeardWords): string {
  const { whole, said } = piecesOf(text);
  const english: string[] = [];
  for (let at = 0; at < said.length; ) {
    const size = sizeOf(said, at, words);
    const word = words[phrase(said, at, size)] ?? said[at]?.piece ?? "";
    at += size;
    if (word !== "") english.push(word);
    if (word !== WHY) continue;
    const last = said[at - 1]?.of ?? 0;
    const rest = said.slice(at).filter(({ of }) => of === last);
    english.push(...rest.map(({ piece }) => piece), ...whole.slice(last + 1));
    break;
  }
  return english.join(" ");
}

type Pieces = { piece: string; of: number }[];

/** How many words from here are one that is known; the longest counts. */
function sizeOf(said: Pieces, at: number, words: HeardWords): number {
  for (let size = LONGEST; size > 1; size -= 1) {
    if (at + size <= said.length && words[phrase(said, at, size)] !== undefined) return size;
  }
  return 1;
}

function phrase(said: Pieces, at: number, size: number): string {
  return said
    .slice(at, at + size)
    .map(({ piece }) =>
      piece
        .toLowerCase()
        .replace("’", "'")
        .replace(/[.,;:!?]+$/, ""),
    )
    .join(" ");
}
