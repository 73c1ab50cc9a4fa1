/**
 * What the kernel says, in the person's language. The kernel and the record speak English; a text is put over only where it is
 * shown. A translation is of a template, `Both {0} {1}.`; what stands in its places is put over in its turn when the kernel says
 * it too, and is left alone when a person typed it.
 */

interface Template {
  /** Literal text before, between and after the places. */
  parts: string[];
  /** The translation: text, and the numbers of places. */
  into: (string | number)[];
  letters: number;
  size: number;
}

interface Fitted {
  template: Template;
  pieces: string[];
  /** How many pieces are none of the kernel's. */
  open: number;
}

const knownOf = ({ pieces, open }: Fitted) => pieces.length - open;

const HOLE = /\{(\d+)\}/;

/** With fewer letters of its own a template says too little to be known by: its pieces must then be known too. */
const TELLING = 4;
/** How deep pieces are looked into, and how many ways of cutting a text into pieces are tried. */
const DEEPEST = 5;
const MOST_WAYS = 60;
/** A figure, or figures, with a unit behind. */
const UNIT = "mm²?|cm|km/h|km|kg|g|N·m|N|bar|%|°C?|ml|l|MPa|m|h|s|W|Hz";
const FIGURES = new RegExp(`^[−+±<>≤≥~]?\\s?\\d(?:[\\d\\s.,×–−+±/]*\\d)?(?:\\s?(?:${UNIT}))?$`, "u");
const BARE_UNIT = new RegExp(`^(?:${UNIT})$`, "u");
const LED_BY_FIGURE = new RegExp(`^([−+]?\\d[\\d.,×–]*(?: (?:${UNIT}))?) (\\p{L}.*)$`, "su");
/** Where one thing said ends and another begins, the strongest first. */
const SENTENCES = /(?<=[.!?]) (?=\p{Lu})/gu;
const ENDED = /[.!?](?: \p{Lu}|$)/u;
const JOINTS = [SENTENCES.source, "(?<=:) ", "; ", ", ", " (?=\\()", " × ", " and "].map((one) => new RegExp(one, "gu"));

const ID = /^[a-z]+(?:[-_][a-z]+)+$/;

const lettersOf = (text: string) => text.replaceAll(/[^\p{L}]/gu, "").length;
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
const odd = (_: unknown, i: number) => i % 2 === 0;

function compiled(english: string, translation: string): Template {
  const parts = english.split(HOLE).filter(odd);
  const into = translation.split(HOLE).map((part, i) => (i % 2 === 0 ? part : Number(part)));
  return { parts, into, letters: lettersOf(parts.join("")), size: parts.join("").length };
}

/** Every way of cutting `text` at the literal parts, leftmost first. */
function* cuts(text: string, parts: string[], from = (parts[0] ?? "").length, at = 1): Generator<string[]> {
  const part = parts[at] ?? "";
  if (at === parts.length - 1) {
    const end = text.length - part.length;
    // What is put in last may be nothing.
    if (text.endsWith(part) && (end > from || (end === from && part === ""))) yield [text.slice(from, end)];
    return;
  }
  // In the middle a piece may be nothing, too: a clause that is not always said.
  const least = at === 1 || part === "" ? from + 1 : from;
  for (let found = text.indexOf(part, least); found !== -1; found = text.indexOf(part, found + 1)) {
    for (const rest of cuts(text, parts, found + part.length, at + 1)) yield [text.slice(from, found), ...rest];
  }
}

/** `mark` is the decimal mark that stands in figures instead of the kernel's point. */
export function speaker(told: Record<string, string>, mark: string): (text: string) => string {
  const exact = new Map<string, string>();
  const templates: Template[] = [];
  for (const [english, translation] of Object.entries(told)) {
    if (HOLE.test(english)) templates.push(compiled(english, translation));
    else exact.set(english, translation);
  }
  // What says the most of its own goes first: of two that would do it is the one that was meant.
  templates.sort((a, b) => b.letters - a.letters || b.size - a.size);
  const before = new Map<string, string | null>();

  /** Null when it is none of the kernel's. */
  function known(text: string, deep: number): string | null {
    if (text === "") return "";
    const bare = text.trim();
    if (bare !== text) {
      const told = bare === "" ? null : known(bare, deep);
      return told === null ? null : text.replace(bare, () => told);
    }
    const found = before.get(text) ?? word(text) ?? (deep > DEEPEST ? null : composed(text, deep));
    // Too deep is not the same as not known.
    if (found !== null || deep === 0) before.set(text, found);
    return found;
  }

  function composed(text: string, deep: number): string | null {
    const whole = templated(text, deep, true);
    if (whole !== null) return whole;
    // Several sentences: as many of them as are one template, then the rest. A name that is put in may hold a full stop, too.
    for (const { index } of [...text.matchAll(SENTENCES)].reverse()) {
      const head = text.slice(0, index);
      const first = word(head) ?? templated(head, deep, true);
      const rest = first === null ? null : known(text.slice(index + 1), deep + 1);
      if (rest !== null) return `${first} ${rest}`;
    }
    return templated(text, deep, false) ?? apart(text, deep);
  }

  function word(text: string): string | null {
    const whole = exact.get(text);
    if (whole !== undefined) return whole;
    if (FIGURES.test(text)) return figures(text);
    // At the start of a line a small word has a capital, and in the middle of one a capital may have gone.
    const small = exact.get(text.charAt(0).toLowerCase() + text.slice(1));
    if (small !== undefined) return capital(small);
    // An id is read as words.
    return exact.get(capital(text)) ?? (ID.test(text) ? word(text.replaceAll(/[-_]/g, " ")) : null);
  }

  /** A unit that is a word and a way to go: `turns in`. */
  function eachWord(text: string): string | null {
    const put = text.split(" ").map((one) => exact.get(one));
    return put.every((one) => one !== undefined) ? put.join(" ") : null;
  }

  function figures(text: string): string {
    return mark === "." ? text : text.replaceAll(/(?<![\d.])(\d+)\.(\d+)(?![\d.])/g, `$1${mark}$2`);
  }

  /** The cut of a text at a template's own words whose pieces are known best; null where it is not this template's. */
  function fitted(template: Template, text: string, deep: number, strict: boolean): Fitted | null {
    if (!text.startsWith(template.parts[0] ?? "") || !text.endsWith(template.parts.at(-1) ?? "")) return null;
    let best: Fitted | null = null;
    let ways = 0;
    for (const pieces of cuts(text, template.parts)) {
      if (strict && pieces.some((piece) => ENDED.test(piece))) continue;
      // Behind a figure `bar` is a unit, and anywhere else a handlebar.
      const isUnit = (at: number) =>
        at > 0 && template.parts[at] === " " && FIGURES.test(pieces[at - 1] ?? "") && BARE_UNIT.test(pieces[at] ?? "");
      const put = pieces.map((piece, at) => (isUnit(at) ? piece : known(piece, deep + 1)));
      const open = put.filter((one) => one === null).length;
      if (best === null || open < best.open) best = { template, pieces: put.map((one, i) => one ?? pieces[i] ?? ""), open };
      ways += 1;
      if (open === 0 || ways === MOST_WAYS) break;
    }
    return best === null || (template.letters < TELLING && best.open > 0) ? null : best;
  }

  /** `strict`: what is put in holds no end of a sentence. */
  function templated(text: string, deep: number, strict: boolean): string | null {
    let best: Fitted | null = null;
    for (const template of templates) {
      if (best !== null && template.letters < best.template.letters) break;
      const found = fitted(template, text, deep, strict);
      if (found !== null && (best === null || found.open === 0 || knownOf(found) > knownOf(best))) best = found;
      if (found?.open === 0) break;
    }
    if (best === null) return null;
    const { template, pieces } = best;
    return template.into.map((one) => (typeof one === "string" ? one : pieces[one])).join("");
  }

  /** Several sentences one after another, a title with what is said of it, a list: each by itself, when one of them is known. */
  function apart(text: string, deep: number): string | null {
    const bracketed = /^\((.+)\)$/su.exec(text)?.[1];
    if (bracketed !== undefined) {
      const inside = known(bracketed, deep + 1);
      return inside === null ? null : `(${inside})`;
    }
    const [, figure, rest] = LED_BY_FIGURE.exec(text) ?? [];
    if (figure !== undefined && rest !== undefined) {
      const told = known(rest, deep + 1) ?? eachWord(rest);
      if (told !== null) return `${figures(figure)} ${told}`;
    }
    if (text.endsWith(".")) {
      const told = known(text.slice(0, -1), deep + 1);
      if (told !== null) return `${told}.`;
    }
    for (const joint of JOINTS) {
      const told = parted(text, joint, deep);
      if (told !== null) return told;
    }
    return null;
  }

  /** The text put over piece by piece; null where there is one piece only, or none is known. */
  function parted(text: string, joint: RegExp, deep: number): string | null {
    const gaps = [...text.matchAll(joint)];
    if (gaps.length === 0) return null;
    const pieces: string[] = [];
    let from = 0;
    let any = false;
    for (const { index, 0: gap } of [...gaps, { index: text.length, 0: "" }]) {
      const piece = text.slice(from, index);
      const colon = piece.endsWith(":") ? ":" : "";
      const bare = colon === "" ? piece : piece.slice(0, -1);
      const put = known(bare, deep + 1);
      if (put !== null && !FIGURES.test(bare)) any = true;
      pieces.push((put ?? bare) + colon + gap);
      from = index + gap.length;
    }
    return any ? pieces.join("") : null;
  }

  return (text) => known(text, 0) ?? text;
}
