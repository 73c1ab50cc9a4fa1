/** How a bike stands, told by shape first, then by colour, then in words. */

import type { VerdictWord } from "../kernel/types";
import { words } from "../words";
import "./mark.css";

export type MarkShape = VerdictWord | "none";

/** A closed ring; a ring open at the top; a ring with a bar across; a dashed ring; a dotted one for nothing at all. */
export function Ring({ shape, size = 28 }: { shape: MarkShape; size?: number }) {
  return (
    <svg class={`ring ring-${shape}`} width={size} height={size} viewBox="0 0 28 28" aria-hidden="true" focusable="false">
      {shape === "fit" && <circle cx="14" cy="14" r="10.5" />}
      {shape === "care" && <path d="M19.6 5.1 A10.5 10.5 0 1 1 8.4 5.1" />}
      {shape === "not-fit" && (
        <>
          <circle cx="14" cy="14" r="10.5" />
          <path d="M4 14 H24" />
        </>
      )}
      {shape === "not-complete" && <circle cx="14" cy="14" r="10.5" stroke-dasharray="5.5 5.5" />}
      {shape === "none" && <path d="M8 14 H20" />}
    </svg>
  );
}

export function Mark({ verdict, large = false }: { verdict: VerdictWord; large?: boolean }) {
  return (
    <span class={large ? `mark mark-large mark-${verdict}` : `mark mark-${verdict}`}>
      <Ring shape={verdict} size={large ? 56 : 24} />
      <span>{words.verdicts[verdict]}</span>
    </span>
  );
}
