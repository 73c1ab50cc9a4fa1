/** Days and times as one says them, and people by their names. */

import { dates } from "../languages/dates";
import { askForName } from "../store/pairing";
import { people } from "../store/record";
import { words } from "../words";

const day = dates({ day: "numeric", month: "short" });
const dayAndYear = dates({ day: "numeric", month: "short", year: "numeric" });

export function dateOf(iso: string): string {
  const date = new Date(iso);
  const now = new Date();
  if (date.toDateString() === now.toDateString()) return words.today;
  const before = new Date(now);
  before.setDate(now.getDate() - 1);
  if (date.toDateString() === before.toDateString()) return words.yesterday;
  // A month cut short ends in a stop in some languages, and so would the sentence: one is enough.
  return (date.getFullYear() === now.getFullYear() ? day : dayAndYear)(date).replace(/\.$/, "");
}

export function timeOf(iso: string): string {
  const date = new Date(iso);
  return [date.getHours(), date.getMinutes()].map((part) => String(part).padStart(2, "0")).join(":");
}

export function whenOf(iso: string): string {
  return `${dateOf(iso)} ${timeOf(iso)}`;
}

/** Reads a signal: a screen showing it follows when names come in. */
export function nameOf(person: string | null | undefined): string {
  if (!person) return words.nobody;
  const name = people.value.find((one) => one.id === person)?.name;
  if (name === undefined) askForName(person);
  return name ?? words.somebody;
}
