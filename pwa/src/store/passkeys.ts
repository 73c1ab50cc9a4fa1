/** Passkeys: the browser makes and shows them, the server keeps the public half. For owners. */

import { enter } from "./pairing";
import type { Identity } from "./types";
import { ask, isObject } from "./wire";

/** The browser has no passkeys here, or the person put the browser's question away. */
export class NoPasskey extends Error {
  override name = "NoPasskey";
}

/** Whether a passkey can be had here: browsers bind them to a name, never to an address of figures. */
export function canPasskey(): boolean {
  return (
    "PublicKeyCredential" in globalThis &&
    "parseCreationOptionsFromJSON" in PublicKeyCredential &&
    !/^[\d.]+$|^\[/.test(location.hostname)
  );
}

/** Make a passkey for the owner who holds this machine. Throws WireProblem, NoPasskey. */
export async function addPasskey(): Promise<void> {
  const { answer } = await ask("/api/passkeys/begin", object, "{}");
  const publicKey = PublicKeyCredential.parseCreationOptionsFromJSON(
    answer as unknown as PublicKeyCredentialCreationOptionsJSON,
  );
  const made = await asked(navigator.credentials.create({ publicKey }));
  await ask("/api/passkeys", () => true, JSON.stringify({ credential: made }));
}

/** Pair this machine by an owner's passkey. Throws PairingProblem, WireProblem, NoPasskey. */
export async function loginByPasskey(name: string): Promise<Identity> {
  const { answer } = await ask("/api/login/passkey/begin", object, "{}");
  const publicKey = PublicKeyCredential.parseRequestOptionsFromJSON(answer as unknown as PublicKeyCredentialRequestOptionsJSON);
  const credential = await asked(navigator.credentials.get({ publicKey }));
  return enter("/api/login/passkey", { credential }, name);
}

async function asked(question: Promise<Credential | null>): Promise<unknown> {
  try {
    const given = await question;
    if (given instanceof PublicKeyCredential) return given.toJSON();
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
  }
  throw new NoPasskey();
}

function object(json: unknown): Record<string, unknown> | null {
  return isObject(json) ? json : null;
}
