/** One request to the server, and what its answer means. Anything that is not surely ours is not an answer. */

import { problems } from "./words";

export const PROTOCOL = "1";
const HEADER = "Pinchbolt-Protocol";
const UNSENT_HEADER = "Pinchbolt-Unsent";
const REVOKED_HEADER = "Pinchbolt-Revoked";
const PATIENCE = 30_000;

export type Meaning =
  /** No answer at all: no signal, server down, connection dropped. */
  | "unreachable"
  /** Something answered that is not a Pinchbolt server: a captive portal, a proxy's page. */
  | "stranger"
  /** Ours by its header, but cut short or not of the shape agreed. */
  | "garbled"
  | "signed-out"
  /** Somebody shut this phone out: pair again, or save what waits to a file. */
  | "revoked"
  | "forbidden"
  | "too-big"
  | "slow-down"
  | "server-trouble"
  /** The server speaks another version of the protocol: the app, or the server, has to be brought up to date. */
  | "other-version"
  /** Ours, and it says the request is wrong. */
  | "declined";

export class WireProblem extends Error {
  constructor(
    readonly meaning: Meaning,
    readonly said: string,
    /** Seconds the server asked to wait. */
    readonly wait: number | null = null,
    readonly errors: { field: string; given: string; wanted: string }[] = [],
  ) {
    super(said);
    this.name = "WireProblem";
  }
}

export interface Told<Answer> {
  answer: Answer;
  /** Server's clock minus this phone's, ms; null when the server did not say. */
  clockAhead: number | null;
}

/** How `shape` looks at parsed JSON (and its text) and gives it a type, or null when it is not of that shape. */
export type Shape<Answer> = (json: unknown, text: string) => Answer | null;

let unsent: number | null = null;

/** How many entries wait here: the server is told with each request, so that the owner sees what a phone still holds. */
export function tellUnsent(count: number): void {
  unsent = count;
}

/** Ask the server. Throws WireProblem, and nothing else. */
export async function ask<Answer>(
  path: string,
  shape: Shape<Answer>,
  body?: string | Blob,
  method: "GET" | "POST" | "PUT" = body === undefined ? "GET" : "POST",
): Promise<Told<Answer>> {
  const started = Date.now();
  let response: Response;
  try {
    response = await fetch(path, {
      method,
      headers: {
        [HEADER]: PROTOCOL,
        Accept: "application/json",
        ...(unsent === null ? {} : { [UNSENT_HEADER]: String(unsent) }),
        ...(body === undefined ? {} : { "Content-Type": body instanceof Blob ? body.type : "application/json" }),
      },
      ...(body === undefined ? {} : { body }),
      credentials: "same-origin",
      cache: "no-store",
      redirect: "manual",
      signal: AbortSignal.timeout(PATIENCE),
    });
  } catch {
    throw new WireProblem("unreachable", problems.noWay);
  }
  const ours = response.headers.has(HEADER);
  refuseStatus(response, ours);
  let text: string;
  try {
    text = await response.text();
  } catch {
    throw new WireProblem("unreachable", problems.brokeOff);
  }
  const json = parsed(text);
  if (!response.ok) throw declined(response.status, json);
  const answer = response.status === 204 ? shape(null, "") : json === undefined ? null : shape(json, text);
  if (answer === null) throw new WireProblem("garbled", problems.garbled);
  return { answer, clockAhead: ahead(response.headers.get("Date"), started, Date.now()) };
}

function refuseStatus(response: Response, ours: boolean): void {
  const { status } = response;
  if (response.type === "opaqueredirect") throw stranger();
  // These mean the same whoever in between says them: keep everything and come again.
  if (status === 413) throw new WireProblem("too-big", problems.tooMuch);
  if (status === 429) {
    throw new WireProblem("slow-down", problems.waitALittle, retryAfter(response.headers.get("Retry-After")));
  }
  if (status >= 500) {
    const wait = retryAfter(response.headers.get("Retry-After"));
    throw new WireProblem("server-trouble", problems.ownTrouble(status), wait);
  }
  if (!ours) throw stranger();
  const spoken = response.headers.get(HEADER) ?? "";
  if (spoken !== PROTOCOL) throw otherVersion(Number(spoken) > Number(PROTOCOL));
  if (status === 401 && response.headers.has(REVOKED_HEADER)) {
    throw new WireProblem("revoked", problems.shutOut);
  }
  if (status === 401) throw new WireProblem("signed-out", problems.signedOut);
  if (status === 403) throw new WireProblem("forbidden", problems.forbidden);
}

function otherVersion(newer: boolean): WireProblem {
  return new WireProblem("other-version", newer ? problems.newerServer : problems.olderServer);
}

function stranger(): WireProblem {
  return new WireProblem("stranger", problems.stranger);
}

function declined(status: number, json: unknown): WireProblem {
  const told = isObject(json) ? json : {};
  const detail = typeof told.detail === "string" ? told.detail : typeof told.title === "string" ? told.title : "";
  const errors = Array.isArray(told.errors) ? told.errors.filter(isFault) : [];
  return new WireProblem("declined", detail || problems.declined(status), null, errors);
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** Seconds from a Retry-After header: a number, or a date. */
function retryAfter(header: string | null): number | null {
  if (header === null) return null;
  const seconds = Number(header);
  if (Number.isFinite(seconds)) return Math.max(0, seconds);
  const at = Date.parse(header);
  return Number.isNaN(at) ? null : Math.max(0, (at - Date.now()) / 1000);
}

function ahead(date: string | null, started: number, ended: number): number | null {
  const at = date === null ? Number.NaN : Date.parse(date);
  return Number.isNaN(at) ? null : at - (started + ended) / 2;
}

export function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

export function isFault(value: unknown): value is { field: string; given: string; wanted: string } {
  return (
    isObject(value) && typeof value.field === "string" && typeof value.given === "string" && typeof value.wanted === "string"
  );
}
