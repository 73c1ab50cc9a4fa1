/** What torque-check found, in one word and one line: the gravest of its findings. */

import type { Answer } from "../../kernel/types";
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
