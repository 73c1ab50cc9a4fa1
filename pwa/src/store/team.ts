/** The owner's work with the server: people added and let in, devices looked at and shut out. */

import type { Person, Role } from "./types";
import { ask, isObject } from "./wire";

export interface TeamDevice {
  id: string;
  name: string;
  person: string;
  state: "paired" | "revoked" | "unpaired";
  /** Seconds since 1970. */
  seenAt: number;
  /** What the device last said waits on it; null when it never said. */
  unsent: number | null;
  until: number | null;
  /** The one event a checker's device sees. */
  event: string | null;
}

export interface Invited {
  code: string;
  seconds: number;
  link: string;
  /** A picture of the link as a QR code: a data: address. */
  qr: string;
}

/** Each of these throws WireProblem. */
export async function listDevices(): Promise<TeamDevice[]> {
  return (await ask("/api/devices", devicesShape)).answer;
}

export async function addPerson(name: string, role: Role): Promise<Person> {
  return (await ask("/api/people", personShape, JSON.stringify({ name: name.trim(), role }))).answer;
}

/**
 * `minutes`: how long the code is good; `days`: after how many the device is shut out by itself, null for never; `event`: the
 * id of the one event a checker is to see, null for all.
 */
export async function invite(
  person: string,
  minutes: number,
  days: number | null,
  event: string | null = null,
): Promise<Invited> {
  const path = `/api/people/${encodeURIComponent(person)}/invite`;
  return (await ask(path, invitedShape, JSON.stringify({ minutes, days, event }))).answer;
}

export async function revoke(device: string): Promise<void> {
  await ask(`/api/devices/${encodeURIComponent(device)}/revoke`, () => true, "");
}

function devicesShape(json: unknown): TeamDevice[] | null {
  if (!Array.isArray(json)) return null;
  const found: TeamDevice[] = [];
  for (const one of json) {
    if (!isObject(one) || typeof one.id !== "string" || typeof one.name !== "string") return null;
    if (typeof one.person !== "string" || typeof one.seen_at !== "number") return null;
    if (one.state !== "paired" && one.state !== "revoked" && one.state !== "unpaired") return null;
    found.push({
      id: one.id,
      name: one.name,
      person: one.person,
      state: one.state,
      seenAt: one.seen_at,
      unsent: typeof one.unsent === "number" ? one.unsent : null,
      until: typeof one.until === "number" ? one.until : null,
      event: typeof one.event === "string" ? one.event : null,
    });
  }
  return found;
}

function personShape(json: unknown): Person | null {
  if (!isObject(json) || typeof json.id !== "string" || typeof json.name !== "string") return null;
  return { id: json.id, name: json.name, role: json.role as Role };
}

function invitedShape(json: unknown): Invited | null {
  if (!isObject(json) || typeof json.code !== "string" || typeof json.link !== "string") return null;
  if (typeof json.seconds !== "number" || typeof json.qr !== "string" || !json.qr.startsWith("data:image/svg+xml")) return null;
  return { code: json.code, seconds: json.seconds, link: json.link, qr: json.qr };
}
