/**
 * What the kernel says, in the person's language. The kernel and the record speak English; a text is put over only where it is
 * shown. A translation is of a template, `Both {0} {1}.`; what stands in its places is put over in its turn when the kernel says
 * it too, and is left alone when a person typed it.
 */

interface Template {
  /** Literal text before, between and after the places. */
  parts: string[];
  /** The same of the translation, with the place that follows each. */
  into: (string | number)[];
  letters: number;
  pattern: RegExp;
}

const HOLE = /\{(\d+)\}/;
const HOLES = /\{(\d+)\}/g;

/** Below so many letters of its own a template says too little to be known by: its pieces must then be known too. */
const TELLING = 7;
/** How deep pieces are looked into. */
const DEEPEST = 5;
const FIGURES = /^[−+±×<>≤≥~]?\s?\d[\d\s.,×–−+±/]*(?:\s?[^\s\d]{1,5})?$/u;

const escaped = (text: string) => text.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&");
const lettersOf = (text: string) => text.replaceAll(/[^\p{L}]/gu, "").length;
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

function compiled(english: string, translation: string): Template {
  const parts = english.split(HOLE).filter((_, i) => i % 2 === 0);
  const into = translation.split(HOLE).map((part, i) => (i % 2 === 0 ? part : Number(part)));
  const letters = lettersOf(english.replaceAll(HOLES, ""));
  return { parts, into, letters, pattern: new RegExp(`^${parts.map(escaped).join("(.+?)")}$`, "su") };
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
  templates.sort((a, b) => b.letters - a.letters || b.parts.join("").length - a.parts.join("").length);
  const found = new Map<string, string>();

  const figures = (text: string) => (mark === "." ? text : text.replaceAll(/(?<=\d)\.(?=\d)/g, mark));

  /** Null when it is none of the kernel's. */
  function known(text: string, deep: number): string | null {
    const whole = exact.get(text);
    if (whole !== undefined) return whole;
    if (FIGURES.test(text)) return figures(text);
    // At the start of a line a small word has a capital, and in the middle of one a capital may have gone.
    const small = exact.get(text.charAt(0).toLowerCase() + text.slice(1));
    if (small !== undefined) return capital(small);
    const large = exact.get(capital(text));
    if (large !== undefined) return large;
    if (deep > DEEPEST) return null;
    for (const template of templates) {
      if (!text.startsWith(template.parts[0] ?? "") || !text.endsWith(template.parts.at(-1) ?? "")) continue;
      const pieces = template.pattern.exec(text)?.slice(1);
      if (pieces === undefined) continue;
      const put = pieces.map((piece) => known(piece, deep + 1));
      if (template.letters < TELLING && put.some((one) => one === null)) continue;
      return template.into.map((one) => (typeof one === "string" ? one : (put[one] ?? pieces[one] ?? ""))).join("");
    }
    return apart(text, deep);
  }

  /** Several sentences one after another, a title with what is said of it, a list: each by itself, when one of them is known. */
  function apart(text: string, deep: number): string | null {
    for (const between of [/(?<=[.!?]) (?=\p{Lu})/u, /(?<=:) /, /; /, /, /, / (?=\()/, /(?<=^\() ?|(?=\)$)/, / × /, / and /]) {
      const at = [...text.matchAll(new RegExp(between, "gu"))].filter((one) => one.index > 0 || one[0] !== "");
      if (at.length === 0) continue;
      const told: string[] = [];
      let from = 0;
      let any = false;
      for (const { index, 0: gap } of [...at, { index: text.length, 0: "" }]) {
        const piece = text.slice(from, index);
        const bare = piece.replace(/:$/, "");
        const put = bare === "" ? null : known(bare, deep + 1);
        if (put !== null && !FIGURES.test(bare)) any = true;
        told.push((put ?? bare) + piece.slice(bare.length) + gap);
        from = index + gap.length;
      }
      if (any) return told.join("");
    }
    return null;
  }

  return (text) => {
    const before = found.get(text);
    if (before !== undefined) return before;
    const told = known(text, 0) ?? text;
    found.set(text, told);
    return told;
  };
}
