/** How a bike stands, and what a check came to, told by shape first, then by colour, then in words. */

import type { CheckState, VerdictWord } from "../kernel/types";
import { words } from "../words";
import "./mark.css";

export type MarkShape = VerdictWord | "nothing-found" | "none";

/** Who looked at a part of a bike cannot say of the bike that it is fit. */
export function shapeOf({ verdict, scope }: Pick<CheckState, "verdict" | "scope">): Exclude<MarkShape, "none"> {
  return verdict === "fit" && scope === "part" ? "nothing-found" : verdict;
}

/** What a check came to, in words. */
export function cameTo(check: Pick<CheckState, "verdict" | "scope">): string {
  return words.verdicts[shapeOf(check)];
}

/**
 * A closed ring; a ring open at the top; a ring with a bar across; a dashed ring; a quarter of a ring for a part that was
 * looked at; a stroke for nothing at all.
 */
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
      {shape === "nothing-found" && (
        <>
          <circle cx="14" cy="14" r="10.5" class="ring-rest" />
          <path d="M14 3.5 A10.5 10.5 0 0 1 24.5 14" />
        </>
      )}
      {shape === "none" && <path d="M8 14 H20" />}
    </svg>
  );
}

interface Props {
  verdict: VerdictWord;
  /** Of a check: whether it looked at the whole bike. A bike's standing is of the whole. */
  scope?: "whole" | "part";
  large?: boolean;
  /** In place of the verdict's own words. */
  says?: string | undefined;
}

export function Mark({ verdict, scope = "whole", large = false, says }: Props) {
  const shape = shapeOf({ verdict, scope });
  return (
    <span class={large ? `mark mark-large mark-${shape}` : `mark mark-${shape}`}>
      <Ring shape={shape} size={large ? 56 : 24} />
      <span>{says ?? words.verdicts[shape]}</span>
    </span>
  );
}
