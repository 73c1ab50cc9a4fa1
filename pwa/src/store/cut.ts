/** Cutting the entries' exact text out of a page, as it stands: what is hashed must never be written a second time. */

/** The text of each `entry` in a pull's page `{"entries": [{"seq", "received_at", "entry": {...}}, ...], ...}`; `page` is valid JSON. */
export function entryTexts(page: string): string[] {
  const found: string[] = [];
  // Depth 3 is inside one item of the list, where `entry` is a name; its value is the object that opens depth 4.
  let depth = 0;
  let last = "";
  let name = "";
  let start = -1;
  for (let i = 0; i < page.length; i++) {
    switch (page[i]) {
      case '"': {
        const end = stringEnd(page, i);
        if (depth === 3) last = page.slice(i + 1, end);
        i = end;
        break;
      }
      case ":":
        if (depth === 3) name = last;
        break;
      case ",":
        if (depth === 3) name = "";
        break;
      case "{":
      case "[":
        depth += 1;
        if (depth === 4 && name === "entry") start = i;
        break;
      case "}":
      case "]":
        depth -= 1;
        if (depth === 3 && start >= 0) {
          found.push(page.slice(start, i + 1));
          start = -1;
          name = "";
        }
        break;
    }
  }
  return found;
}

/** Where the string that opens at `from` closes. */
function stringEnd(text: string, from: number): number {
  for (let end = text.indexOf('"', from + 1); end >= 0; end = text.indexOf('"', end + 1)) {
    let slashes = 0;
    while (text[end - 1 - slashes] === "\\") slashes += 1;
    if (slashes % 2 === 0) return end;
  }
  return text.length;
}
