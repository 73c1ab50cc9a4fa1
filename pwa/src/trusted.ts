/**
 * What the browser's Trusted Types would refuse from anybody else: the addresses of this program's own workers, and XML to be
 * read as data. Neither ever puts words of a file into a page.
 */

interface Rules {
  createScriptURL(address: string): string;
  createHTML(text: string): string;
}

interface Factory {
  createPolicy(name: string, rules: Rules): Rules;
}

function own(address: string): string {
  if (new URL(address, location.href).origin !== location.origin) throw new TypeError(`not a script of ours: ${address}`);
  return address;
}

const rules: Rules = { createScriptURL: own, createHTML: (text) => text };
const factory = (globalThis as { trustedTypes?: Factory }).trustedTypes;
const policy = factory?.createPolicy("pinchbolt", rules) ?? rules;

/** `address` as the browser's Trusted Types want it. */
export function scriptAddress(address: string): string {
  return policy.createScriptURL(address);
}

/** XML as a document of its own, in which nothing runs; what is made trusted for it does not leave this function. */
export function readXml(text: string): Document {
  return new DOMParser().parseFromString(policy.createHTML(text), "application/xml");
}
