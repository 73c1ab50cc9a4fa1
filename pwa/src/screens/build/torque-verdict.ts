/** What torque-check found, in one word and one line: the gravest of its findings. */

import type { TorqueCard } from "../../kernel/build-types";
import { InputProblems, kernel } from "../../kernel/client";
import type { Answer, JointState } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { words } from "../../words";
import { w } from "./words";

export interface TorqueVerdict {
  level: "fine" | "care" | "stop";
  word: string;
  text: string;
}

export function torqueVerdict(answer: Answer): TorqueVerdict {
  const word = String(answer.outputs.verdict);
  const gravest = (["stop", "care", "fine"] as const).flatMap((level) =>
    answer.findings.filter((one) => one.level === level),
  )[0];
  const level = gravest?.level ?? (word === "within" ? "fine" : "care");
  return { level, word, text: gravest?.text ?? w.torque.verdicts[word] ?? word };
}

interface Limits {
  low: number | null;
  high: number | null;
}

/**
 * What a tightened joint is held against: the stricter of the limits it was tightened to and of those that hold now. A part marked
 * afterwards, or swapped for a weaker one, counts at once.
 */
export function limitsOf(joint: JointState, card: Limits | undefined): Limits {
  const then = { low: joint.low ?? null, high: joint.high ?? null };
  const now = card ?? then;
  const [strict, wide] = (now.high ?? Infinity) <= (then.high ?? Infinity) ? [now, then] : [then, now];
  const { low, high } = strict;
  if (low === null || wide.low === null || high === null) return { low: low ?? wide.low, high };
  // The least of a wider range may leave nothing below the most: then it was none of this one's.
  return { low: wide.low < high ? Math.max(low, wide.low) : low, high };
}

/** ± per cent of a tool nothing is known of. */
const TOOL_ERROR = 4;

/** How a joint on record stands now; null where it has no limits. */
export async function judged(joint: JointState, card: TorqueCard | undefined): Promise<TorqueVerdict | null> {
  const { low, high } = limitsOf(joint, card);
  if (low === null || high === null) return null;
  const { applied, accuracy = TOOL_ERROR } = joint;
  try {
    return torqueVerdict(await kernel.run("torque-check", { applied, spec_low: low, spec_high: high, accuracy }));
  } catch (error) {
    if (!(error instanceof InputProblems)) throw error;
    // A figure on record that can be none is no torque anybody may trust.
    const [problem] = error.problems;
    const text = problem === undefined ? "" : words.device.refusal(w.torque.applied, problem.given, said(problem.wanted));
    return { level: "stop", word: "", text };
  }
}
