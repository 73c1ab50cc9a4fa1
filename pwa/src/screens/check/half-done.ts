/** A check under way, kept after every touch, so that it goes on where it was whatever happens to the phone. */

import type { CheckAnswer, CheckDefinition, CheckItem } from "../../kernel/types";
import { keep } from "../../store/drafts";
import type { Photo } from "../../store/photos";

export interface Answered {
  mark?: "pass" | "attention" | "fail";
  value?: number;
  note?: string;
  photos?: Photo[];
}

export interface HalfDone {
  startedAt: string;
  version: number;
  /** Index of the item on the sheet. */
  at: number;
  answers: Record<string, Answered>;
  /** The check as it was made ready, so that it goes on with the same items and limits whatever comes in meanwhile. */
  asked?: CheckDefinition;
}

const PREFIX = "check ";

/** `plate` where the bike is not known: one event has many. */
export function keyOf(subject: string, check: string, plate?: string): string {
  return `${PREFIX}${subject} ${check}${plate === undefined ? "" : ` ${plate}`}`;
}

/** Checks begun on `subject`, by check. */
export async function draftsOf(subject: string): Promise<Record<string, HalfDone>> {
  const prefix = keyOf(subject, "");
  const found: Record<string, HalfDone> = {};
  for (const key of await keep.keys(prefix)) {
    const half = await keep.get<HalfDone>(key);
    if (half !== undefined) found[key.slice(prefix.length)] = half;
  }
  return found;
}

/** The mark an answer comes to, as the kernel judges it (`kernel/verdicts.py`): outside its limits a value fails. */
export function markOf(item: CheckItem, answer: Answered | undefined): "pass" | "attention" | "fail" | null {
  if (answer === undefined) return null;
  const { value } = answer;
  if (value !== undefined && (item.low !== null || item.high !== null)) {
    if ((item.low !== null && value < item.low) || (item.high !== null && value > item.high)) return "fail";
    if (answer.mark === undefined) return "pass";
  }
  return answer.mark ?? null;
}

/** Every item as it was asked, answered or not. */
export function answersOf(items: CheckItem[], answers: Record<string, Answered>): CheckAnswer[] {
  return items.map((item) => {
    const answer = answers[item.item] ?? {};
    const asked: CheckAnswer = { item: item.item, title: item.title, essential: item.essential };
    if (answer.mark !== undefined) asked.mark = answer.mark;
    if (answer.value !== undefined) {
      asked.value = answer.value;
      asked.unit = item.unit;
      if (item.low !== null) asked.low = item.low;
      if (item.high !== null) asked.high = item.high;
    }
    if (answer.note?.trim()) asked.note = answer.note.trim();
    return asked;
  });
}
