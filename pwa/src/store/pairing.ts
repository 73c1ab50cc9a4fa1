/** Making this phone known to a workshop, with a code from its screen. */

import { database, fact, setFact } from "./database";
import { dropRecord } from "./leaving";
import { withLock } from "./locks";
import { refreshPeople } from "./record";
import { syncNow } from "./sync";
import type { Identity, Person, Role } from "./types";
import { ask, isObject, WireProblem } from "./wire";
import { problems } from "./words";

/** Why pairing did not work, in words for the person. */
export class PairingProblem extends Error {
  override name = "PairingProblem";
}

/** This device's id: made once, kept for good, also through signing out and pairing again. */
export function deviceId(): Promise<string> {
  return withLock("pinchbolt-device", async () => {
    const db = await database();
    const fresh = crypto.randomUUID();
    const tx = db.transaction("facts", "readwrite", { durability: "strict" });
    const known = (await tx.store.get("device")) as string | undefined;
    if (known === undefined) await tx.store.put(fresh, "device");
    await tx.done;
    return known ?? fresh;
  });
}

/** Pair with the one-time `code`; `name` is what people call this phone. Throws PairingProblem. */
export function pair(code: string, name: string): Promise<Identity> {
  return enter("/api/pair", { code: code.trim() }, name);
}

/** Pair by an owner's passphrase, where one is set. Throws PairingProblem. */
export function login(person: string, passphrase: string, name: string): Promise<Identity> {
  return enter("/api/login", { person: person.trim(), passphrase }, name);
}

export async function enter(path: string, proof: Record<string, unknown>, name: string): Promise<Identity> {
  const device = await deviceId();
  try {
    const { answer } = await ask(path, meShape, JSON.stringify({ ...proof, device, name: name.trim() }));
    await known(answer);
    await fetchPeople();
    await refreshPeople();
    void syncNow();
    return answer;
  } catch (problem) {
    if (!(problem instanceof WireProblem)) throw problem;
    throw new PairingProblem(pairingSaid(problem));
  }
}

/** Who sees something else than before begins with nothing: neither keeps what is not theirs now, nor misses what came before. */
async function known(now: Identity): Promise<void> {
  const before = await fact("identity");
  const same =
    before === undefined ||
    (before.person.id === now.person.id &&
      before.person.role === now.person.role &&
      (before.device.event ?? null) === now.device.event);
  if (!same) await dropRecord();
  await setFact("identity", now);
  await setFact("shutOut", false);
}

function pairingSaid(problem: WireProblem): string {
  switch (problem.meaning) {
    case "signed-out":
    case "revoked":
    case "forbidden":
      return problems.badCode;
    case "slow-down":
      return problems.tooManyTries;
    case "unreachable":
      return problems.pairingNeedsServer;
    default:
      return problem.said;
  }
}

/** Ask the server who this phone and the others are. Quietly keeps what is known when that fails. */
export async function refreshIdentity(): Promise<void> {
  if ((await fact("identity")) === undefined) return;
  try {
    const { answer } = await ask("/api/me", meShape);
    await known(answer);
    await fetchPeople();
  } catch (problem) {
    if (!(problem instanceof WireProblem)) throw problem;
  }
  await refreshPeople();
}

async function fetchPeople(): Promise<void> {
  const { answer } = await ask("/api/people", peopleShape);
  await setFact("people", answer);
}

/** People whose names the server was asked for and would not, or could not, tell. */
const untold = new Set<string>();
const ASK_AGAIN = 10_000;
let lastAsked = 0;

/** An entry came in from somebody whose name is not known here, as of a checker let in this morning: ask who they are. */
export function askForName(person: string): void {
  if (untold.has(person) || Date.now() - lastAsked < ASK_AGAIN) return;
  lastAsked = Date.now();
  fetchPeople().then(
    () => {
      untold.add(person);
      return refreshPeople();
    },
    () => undefined, // No way to the server: it is asked again when the name is next to be shown.
  );
}

const ROLES: readonly string[] = ["owner", "mechanic", "checker", "rider"] satisfies Role[];

function isPerson(value: unknown): value is Person {
  return (
    isObject(value) &&
    typeof value.id === "string" &&
    typeof value.name === "string" &&
    typeof value.role === "string" &&
    ROLES.includes(value.role)
  );
}

function peopleShape(json: unknown): Person[] | null {
  return Array.isArray(json) && json.every(isPerson) ? json : null;
}

function meShape(json: unknown): Identity | null {
  if (!isObject(json) || !isObject(json.device) || !isPerson(json.person) || !isObject(json.server)) return null;
  const { id, name, event } = json.device;
  if (typeof id !== "string" || typeof name !== "string") return null;
  const { workshop } = json.server;
  return {
    device: { id, name, event: typeof event === "string" ? event : null },
    person: json.person,
    workshop: typeof workshop === "string" ? workshop : "",
  };
}
