/** In which order bikes are listed, wherever one is looked for. */

import type { Listed } from "../../folding";
import { words } from "../../words";
import { known } from "../loading";

/** What must not be ridden comes first, then what was last worked on. */
export function inOrder(bikes: Listed[]): Listed[] {
  const rank = (bike: Listed) => (bike.line?.summary.standing.verdict === "not-fit" ? 0 : 1);
  const last = (bike: Listed) => known(bike)?.last_at ?? "";
  return [...bikes].sort((a, b) => rank(a) - rank(b) || (last(a) < last(b) ? 1 : last(a) > last(b) ? -1 : 0));
}

/** The bikes to choose one of, in that order. */
export function choices(bikes: Listed[]): { value: string; label: string }[] {
  return inOrder(bikes).map((one) => ({ value: one.subject, label: known(one)?.name ?? words.bikes.unnamed }));
}
