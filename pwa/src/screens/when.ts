/** Days and times as one says them, and people by their names. */

import { locale } from "../languages/chosen";
import { askForName } from "../store/pairing";
import { people } from "../store/record";
import { words } from "../words";

const day = new Intl.DateTimeFormat(locale, { day: "numeric", month: "short" });
const dayAndYear = new Intl.DateTimeFormat(locale, { day: "numeric", month: "short", year: "numeric" });
const clock = new Intl.DateTimeFormat(locale, { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });

export function dateOf(iso: string): string {
  const date = new Date(iso);
  const now = new Date();
  if (date.toDateString() === now.toDateString()) return words.today;
  const before = new Date(now);
  before.setDate(now.getDate() - 1);
  if (date.toDateString() === before.toDateString()) return words.yesterday;
  // A month cut short ends in a stop in some languages, and so would the sentence: one is enough.
  return (date.getFullYear() === now.getFullYear() ? day : dayAndYear).format(date).replace(/\.$/, "");
}

export function timeOf(iso: string): string {
  return clock.format(new Date(iso));
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
