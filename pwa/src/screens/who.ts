/** What whoever holds this phone does in the workshop. The server says it again; this only spares them what it would refuse. */

import rights from "../rights.json";
import { identity } from "../store/record";

export function runsWorkshop(): boolean {
  const role = identity.value?.person.role;
  return role === "owner" || role === "mechanic";
}

/** What a role writes; one that is not named here writes everything. */
const WRITES: Record<string, string[]> = rights;

/** Whether this phone's person records this kind of entry about a bike they see. */
export function writes(kind: string): boolean {
  const role = identity.value?.person.role;
  if (role === undefined) return false;
  return WRITES[role]?.includes(kind) ?? runsWorkshop();
}

/** Last-minute changes to a start list: the workshop's people, and the checkers of that event. */
export function changesStarts(event: string): boolean {
  const who = identity.value;
  if (who?.person.role !== "checker") return runsWorkshop();
  return who.device.event === null || who.device.event === undefined || who.device.event === event;
}

/** Whether this phone's person may strike an entry out: the workshop any, the others what this very phone wrote. */
export function strikesOut(entry: { device: string }): boolean {
  return runsWorkshop() || (writes("void") && entry.device === identity.value?.device.id);
}

/** Whether this phone's person answers a check: a rider those for riders, and a fall is cleared by no checker. */
export function answers(check: { check: string; who: string }): boolean {
  const role = identity.value?.person.role;
  if (role === "rider") return check.who === "rider";
  return role !== "checker" || check.check !== "after-fall";
}

export function isRider(): boolean {
  return identity.value?.person.role === "rider";
}
