/** A draft made fit to be an entry: what the format of the record asks of text and numbers. */

import { beyond, MOST_BYTES } from "./limits";
import type { Draft } from "./types";

const SUBJECT = /^(workshop|(bike|event)\/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12})$/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out
const CONTROL = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/g;

/** An entry that must not be written: names the field, what was given, what is wanted. */
export class DraftProblem extends Error {
  constructor(
    readonly field: string,
    readonly given: string,
    readonly wanted: string,
  ) {
    super(`Not recorded. ${field.replaceAll("_", " ")}: ${given}, wanted ${wanted}`);
    this.name = "DraftProblem";
  }
}

function cleanText(text: string): string {
  return text.replaceAll("\r\n", "\n").replaceAll("\t", " ").replace(CONTROL, "").toWellFormed().normalize("NFC");
}

function clean(value: unknown, path: string): unknown {
  if (typeof value === "string") return cleanText(value);
  if (typeof value === "number") {
    if (!Number.isFinite(value)) throw new DraftProblem(path, String(value), "a finite number");
    return value;
  }
  if (value === null || typeof value === "boolean") return value;
  if (Array.isArray(value)) return value.map((item, i) => clean(item, `${path}[${i}]`));
  if (typeof value === "object") {
    const made: Record<string, unknown> = {};
    for (const [name, item] of Object.entries(value)) {
      // A field left undefined is a field left out.
      if (item !== undefined) made[cleanText(name)] = clean(item, `${path}.${name}`);
    }
    return made;
  }
  throw new DraftProblem(path, typeof value, "text, number, flag, list or object");
}

export function cleaned(draft: Draft): Draft {
  if (!SUBJECT.test(draft.subject)) throw new DraftProblem("subject", draft.subject, "bike/UUID, event/UUID or workshop");
  const body = clean(draft.body, "body") as Record<string, unknown>;
  // What the server would refuse is refused here, while whoever wrote it has it before them.
  const fault = beyond(draft.kind, body);
  if (fault !== null) throw new DraftProblem(fault.field, fault.given, fault.wanted);
  return { subject: draft.subject, kind: draft.kind, body };
}

export function checkSize(text: string, kind: string): void {
  const size = new TextEncoder().encode(text).length;
  if (size > MOST_BYTES) throw new DraftProblem(kind, `${size} bytes`, `an entry of at most ${MOST_BYTES} bytes`);
}
