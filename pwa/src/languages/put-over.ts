/** The kernel's answers that are only ever shown, put over whole. What goes back to the kernel or onto the record stays as it is. */

import { language } from "./chosen";
import { said } from "./spoken";

/** A copy in the person's language: in every object at any depth, the texts under these names and in lists under them. */
export function putOver<Answer>(answer: Answer, names: readonly string[]): Answer {
  return language === "en" ? answer : (over(answer, new Set(names), false) as Answer);
}

function over(value: unknown, names: Set<string>, shown: boolean): unknown {
  if (typeof value === "string") return shown ? said(value) : value;
  if (Array.isArray(value)) return value.map((one) => over(one, names, shown));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, over(one, names, names.has(name))]));
}
