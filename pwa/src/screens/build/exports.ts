/** What leaves the phone as files: docs/exports.md says what stands in each. */

import Papa from "papaparse";
import type { BikeState } from "../../kernel/types";
import type { Kept } from "../../store/types";

/** A cell that a spreadsheet would take for a formula gets an apostrophe before it; numbers stay numbers. */
export function defused(cell: unknown): unknown {
  return typeof cell === "string" && /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
}

function csv(fields: string[], rows: Record<string, unknown>[]): string {
  const data = rows.map((row) => fields.map((field) => defused(row[field] ?? "")));
  // The mark at the start tells spreadsheets that it is UTF-8.
  return `\ufeff${Papa.unparse({ fields: fields.map(defused) as string[], data }, { newline: "\r\n" })}\r\n`;
}

export function partsCsv(state: BikeState): string {
  const markings = [...new Set(state.parts.flatMap((part) => Object.keys(part.markings ?? {})))].sort();
  const dimensions = [
    ...new Set(
      state.parts.flatMap((part) =>
        (part.interfaces ?? []).flatMap((one) =>
          Object.keys(one)
            .filter((name) => name !== "kind")
            .map((name) => `${one.kind}.${name}`),
        ),
      ),
    ),
  ].sort();
  const rows = state.parts.map((part) => {
    const { slot, name, count, claimed, weighed, price } = part;
    const row: Record<string, unknown> = { ...part.markings, slot, name, count, claimed, weighed, price };
    for (const one of part.interfaces ?? [])
      for (const [field, value] of Object.entries(one)) if (field !== "kind") row[`${one.kind}.${field}`] = value;
    return row;
  });
  return csv(["slot", "name", "count", "claimed", "weighed", "price", ...markings, ...dimensions], rows);
}

export function torquesCsv(state: BikeState): string {
  const fields = ["joint", "applied", "low", "high", "usual", "accuracy", "condition", "tool", "painted", "note", "at"];
  const rows = Object.values(state.joints).map((joint) => ({ ...joint }) as Record<string, unknown>);
  return csv(fields, rows);
}

/** The entries as they were written, one a line, the server's place beside each: what `pinchbolt export` writes. */
export function entriesJsonLines(kept: Kept[]): string {
  return kept
    .map((one) => `{"seq":${one.seq ?? "null"},"received_at":${JSON.stringify(one.received_at)},"entry":${one.text}}\n`)
    .join("");
}

/** The printed sheet as one file that any browser opens: the sheet as drawn, with its styles. Nothing in it runs. */
export function sheetFile(sheet: Element, title: string): string {
  const styles = [...document.styleSheets]
    .flatMap((one) => [...one.cssRules])
    .map((rule) => rule.cssText)
    .filter((text) => !text.startsWith("@font-face"))
    .join("\n");
  const made = document.implementation.createHTMLDocument(title);
  const charset = made.createElement("meta");
  charset.setAttribute("charset", "utf-8");
  const style = made.createElement("style");
  style.textContent = styles;
  made.head.append(charset, style);
  made.documentElement.lang = "en";
  made.documentElement.dataset.theme = "sheet";
  made.body.append(made.importNode(sheet, true));
  return `<!doctype html>\n${made.documentElement.outerHTML}\n`;
}

/** Hand a file over by the phone's own sharing where there is one, else save it. False when the person turned away. */
export async function handOut(name: string, type: string, text: string): Promise<boolean> {
  const file = new File([text], name, { type });
  if (navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file], title: name });
      return true;
    } catch (problem) {
      if (problem instanceof DOMException && problem.name === "AbortError") return false;
    }
  }
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  return true;
}

export function fileName(bike: string, what: string, ending: string): string {
  const plain = bike
    .normalize("NFKD")
    .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
    .replaceAll(/^-|-$/g, "");
  return `${plain || "bike"}-${what}-${new Date().toISOString().slice(0, 10)}.${ending}`.toLowerCase();
}
