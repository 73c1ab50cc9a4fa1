/** The kernel's Python without what only a reader needs: docstrings and comments, a third of its size on the phone. */

const QUOTES = '"""';
/** A line after which the next is no statement of its own. */
const GOES_ON = /[([{,+*=\\-]$/;

/**
 * `text` with docstrings and whole-line comments blanked. Lines stay where they are, so a traceback still names the right one.
 * Throws when triple quotes stand anywhere but in a docstring: then this could not be done line by line.
 */
export function lean(text: string, name: string): string {
  const lines = text.split("\n");
  const made: string[] = [];
  let inside = false;
  let before = ":";
  for (const [i, line] of lines.entries()) {
    const bare = line.trim();
    if (inside) {
      inside = !bare.endsWith(QUOTES);
      if (!inside || !bare.includes(QUOTES)) {
        made.push("");
        continue;
      }
      throw new SyntaxError(`${name}:${i + 1}: a docstring ends at the end of its line`);
    }
    if (bare.startsWith(QUOTES) && !GOES_ON.test(before)) {
      inside = bare.length < 2 * QUOTES.length || !bare.endsWith(QUOTES);
      // A body that is a docstring only still needs a statement.
      made.push(`${line.slice(0, line.indexOf(QUOTES))}0`);
      before = bare;
    } else if (bare.includes(QUOTES)) {
      throw new SyntaxError(`${name}:${i + 1}: triple quotes are for docstrings only in the kernel`);
    } else if (bare.startsWith("#")) {
      made.push("");
    } else {
      made.push(line.trimEnd());
      if (bare !== "") before = bare;
    }
  }
  if (inside) throw new SyntaxError(`${name}: a docstring that never ends`);
  return made.join("\n");
}
