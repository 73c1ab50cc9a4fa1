/** What whoever holds this phone does in the workshop. The server says it again; this only spares them what it would refuse. */

import { identity } from "../store/record";

export function runsWorkshop(): boolean {
  const role = identity.value?.person.role;
  return role === "owner" || role === "mechanic";
}

/** Last-minute changes to a start list: the workshop's people, and the checkers of that event. */
export function changesStarts(event: string): boolean {
  const who = identity.value;
  if (who?.person.role !== "checker") return runsWorkshop();
  return who.device.event === null || who.device.event === undefined || who.device.event === event;
}

export function isRider(): boolean {
  return identity.value?.person.role === "rider";
}
