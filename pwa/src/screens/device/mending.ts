/** A refused entry's body as fields a person can change, and back again. */

import type { Refused } from "../../store/types";
import { parseNumber } from "../../units";

type Fault = Refused["errors"][number];

export interface MendField {
  name: string;
  /** What stands in it, as it is typed; "" for nothing. */
  text: string;
  /** How what is typed is read. */
  as: "text" | "number" | "flag" | "json";
  /** What the server had against it, or against something inside it. */
  faults: Fault[];
}

/** What typing a field came to: its value, undefined for a field left out, or a problem. */
export type Typed = { value: unknown } | { problem: "number" | "flag" | "json" };

const BODY = "body.";

/** The top-level field of the body that a fault is about; null when it is about something else. */
export function nameOf(fault: Fault): string | null {
  return fault.field.startsWith(BODY) ? (fault.field.slice(BODY.length).split(/[.[]/, 1)[0] ?? null) : null;
}

/** Whether anything that was refused stands in what a person gave: only that can be mended by hand. */
export function canBeMended(refused: Refused): boolean {
  return refused.errors.some((fault) => nameOf(fault) !== null);
}

/** The refused fields first, one that is missing too; then the others as they were given. */
export function fieldsOf({ entry, errors }: Refused): MendField[] {
  const about = new Map<string, Fault[]>();
  for (const fault of errors) {
    const name = nameOf(fault);
    if (name !== null) about.set(name, [...(about.get(name) ?? []), fault]);
  }
  const names = [...about.keys(), ...Object.keys(entry.body).filter((name) => !about.has(name))];
  return names
    .filter((name) => name !== "instead_of")
    .map((name) => {
      const value = entry.body[name];
      const faults = about.get(name) ?? [];
      const as = readAs(value, faults.find((fault) => fault.field === BODY + name)?.wanted ?? "");
      return { name, text: shown(value), as, faults };
    });
}

/** By what was wanted where that names a type, else by what was given. */
function readAs(given: unknown, wanted: string): MendField["as"] {
  if (/\b(int|float|number)\b/.test(wanted)) return "number";
  if (/\bbool\b|true or false/.test(wanted)) return "flag";
  if (/\b(str|text)\b/.test(wanted)) return "text";
  if (/\b(array|list|object)\b/.test(wanted) || (typeof given === "object" && given !== null)) return "json";
  if (typeof given === "number") return "number";
  return typeof given === "boolean" ? "flag" : "text";
}

function shown(value: unknown): string {
  if (value === undefined || value === null) return "";
  return typeof value === "object" ? JSON.stringify(value, null, 1) : String(value);
}

/** Read what is typed into a field. Nothing typed is a field left out. */
export function typed(field: MendField, text: string): Typed {
  const trimmed = text.trim();
  if (trimmed === "") return { value: undefined };
  switch (field.as) {
    case "text":
      return { value: text };
    case "number": {
      const value = parseNumber(text);
      return value === null ? { problem: "number" } : { value };
    }
    case "flag":
      return trimmed === "true" || trimmed === "false" ? { value: trimmed === "true" } : { problem: "flag" };
    case "json":
      try {
        return { value: JSON.parse(text) as unknown };
      } catch {
        return { problem: "json" };
      }
  }
}
