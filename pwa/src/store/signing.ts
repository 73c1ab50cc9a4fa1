/** The phone's signature under its chain: a key the browser never gives out, made once, its public half known to the server. */

import { database, fact, setFact } from "./database";
import { ask, isObject, WireProblem } from "./wire";

const ALGORITHM = { name: "ECDSA", namedCurve: "P-256" } as const;

export interface SigningKey {
  pair: CryptoKeyPair;
  /** Whether the server knows the public half. */
  enrolled: boolean;
}

/** The head of this phone's chain, signed; travels with a push. */
export interface Head {
  n: number;
  hash: string;
  signature: string;
}

/** Bytes in base64url without padding (RFC 4648, 5). */
function base64url(bytes: ArrayBuffer): string {
  const text = btoa(String.fromCharCode(...new Uint8Array(bytes)));
  return text.replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

async function key(): Promise<SigningKey> {
  const known = await fact("key");
  if (known !== undefined) return known;
  const pair = await crypto.subtle.generateKey(ALGORITHM, false, ["sign", "verify"]);
  const db = await database();
  const tx = db.transaction("facts", "readwrite", { durability: "strict" });
  // Another tab may have made one meanwhile: the first one kept is the key.
  const meanwhile = (await tx.store.get("key")) as SigningKey | undefined;
  const made = meanwhile ?? { pair, enrolled: false };
  if (meanwhile === undefined) await tx.store.put(made, "key");
  await tx.done;
  return made;
}

/**
 * Make the key known to the server when it is not yet. A server that will not have it (an older one) changes nothing: entries go
 * unsigned. Throws WireProblem when there is no way to the server.
 */
export async function enrol(): Promise<void> {
  const mine = await key();
  if (mine.enrolled) return;
  const { kty, crv, x, y } = await crypto.subtle.exportKey("jwk", mine.pair.publicKey);
  try {
    await ask("/api/me/key", kidShape, JSON.stringify({ kty, crv, x, y }));
  } catch (problem) {
    if (problem instanceof WireProblem && problem.meaning === "declined") return;
    throw problem;
  }
  await setFact("key", { ...mine, enrolled: true });
}

function kidShape(json: unknown): string | null {
  return isObject(json) && typeof json.kid === "string" ? json.kid : null;
}

/** The signed head at entry `n` of this phone, or null while the server does not know the key. See docs/verify.md. */
export async function signedHead(device: string, n: number, hash: string): Promise<Head | null> {
  const mine = await fact("key");
  if (mine === undefined || !mine.enrolled) return null;
  const said = new TextEncoder().encode(`pinchbolt head\n${device}\n${n}\n${hash}\n`);
  const signature = await crypto.subtle.sign({ name: "ECDSA", hash: "SHA-256" }, mine.pair.privateKey, said);
  return { n, hash, signature: base64url(signature) };
}

/** The server did not keep a head: it may have lost the key with a restore. It is made known again. */
export async function forgetEnrolment(): Promise<void> {
  const mine = await fact("key");
  if (mine !== undefined) await setFact("key", { ...mine, enrolled: false });
}
