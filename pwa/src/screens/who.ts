/** What whoever holds this phone does in the workshop. The server says it again; this only spares them what it would refuse. */

import { identity } from "../store/record";

export function runsWorkshop(): boolean {
  const role = identity.value?.person.role;
  return role === "owner" || role === "mechanic";
}

export function isRider(): boolean {
  return identity.value?.person.role === "rider";
}
