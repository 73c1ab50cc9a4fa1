/** Which tones the kernel has nothing to say against for this spoke: the law from tone to tension stays there. */

import { kernel } from "../kernel/client";
import type { Quantity } from "../kernel/types";

const STEPS = 24;

export async function usualTone(tone: Quantity, inputs: Record<string, unknown>): Promise<[number, number] | undefined> {
  const declared = tone.plausible;
  if (declared === undefined) return undefined;
  const [low, high] = [declared[0] / 1.5, declared[1] * 1.5];
  const fits: number[] = [];
  for (let at = 0; at <= STEPS; at++) {
    const hz = low * (high / low) ** (at / STEPS);
    // Without length and diameter the kernel answers with what is missing: then the declaration's range has to do.
    const answer = await kernel.run("spoke-tension", { ...inputs, tone: hz }).catch(() => null);
    if (answer === null) return declared;
    if (!answer.findings.some((one) => one.field === "tone")) fits.push(hz);
  }
  const [first, last] = [fits[0], fits.at(-1)];
  return first === undefined || last === undefined ? declared : [first, last];
}
