/** The only script addresses this program ever hands to the browser: its own workers. */

interface Policy {
  createScriptURL(address: string): string;
}

interface Factory {
  createPolicy(name: string, rules: Policy): Policy;
}

function own(address: string): string {
  if (new URL(address, location.href).origin !== location.origin) throw new TypeError(`not a script of ours: ${address}`);
  return address;
}

const factory = (globalThis as { trustedTypes?: Factory }).trustedTypes;
const policy: Policy = factory?.createPolicy("pinchbolt", { createScriptURL: own }) ?? { createScriptURL: own };

/** `address` as the browser's Trusted Types want it. */
export function scriptAddress(address: string): string {
  return policy.createScriptURL(address);
}
