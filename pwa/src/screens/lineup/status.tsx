/** How a starter stands in the line, by shape first. */

import { type MarkShape, Ring } from "../../controls/mark";
import type { LineupStatus } from "../../kernel/lineup-types";
import { words } from "../../words";

export const SHAPES: Record<LineupStatus, MarkShape> = {
  undecided: "not-fit",
  "not-cleared": "not-fit",
  open: "not-complete",
  "not-seen": "none",
  "cleared-with-care": "care",
  cleared: "fit",
};

/** What holds up the start comes first. */
export const PRESSING: LineupStatus[] = ["undecided", "not-cleared", "open", "not-seen", "cleared-with-care", "cleared"];

export function StatusMark({ status, size = 24 }: { status: LineupStatus; size?: number }) {
  return (
    <span class={`mark mark-${SHAPES[status]}`}>
      <Ring shape={SHAPES[status]} size={size} />
      <span>{words.lineup.status[status]}</span>
    </span>
  );
}
