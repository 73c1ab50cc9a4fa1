/** What a cell means that holds a word: in English, or as the app says it to this person. */

/** Capitals, and marks over letters, make no difference. */
const plain = (text: string) => text.trim().toLowerCase().normalize("NFD").replaceAll(/\p{M}/gu, "");

const FLAGS: Record<string, boolean> = {
  yes: true,
  true: true,
  y: true,
  "1": true,
  x: true,
  no: false,
  false: false,
  n: false,
  "0": false,
};

/** Yes or no; undefined where it says neither. `yes` and `no` are the person's own words for them. */
export function flagIn(cell: string, yes: string, no: string): boolean | undefined {
  const word = plain(cell);
  if (word === plain(yes)) return true;
  return word === plain(no) ? false : FLAGS[word];
}

/** The word the rules know, where the cell is that word or `said` makes it what the cell says; else the cell as it stands. */
export function knownIn(cell: string, known: readonly string[] | undefined, said: (word: string) => string): string {
  const word = plain(cell);
  return known?.find((one) => plain(one) === word || plain(said(one)) === word) ?? cell;
}
