/** How far the check has come, as a ruler along the sheet's edge: a long line where one is, marks by shape. */

import type { CheckItem } from "../../kernel/types";
import { type HalfDone, markOf } from "./half-done";

const WIDTH = 26;
const STEP = 12;

export function Ruler({ items, half, at }: { items: CheckItem[]; half: HalfDone; at: number }) {
  const height = items.length * STEP;
  return (
    <svg class="ruler" viewBox={`0 0 ${WIDTH} ${height}`} preserveAspectRatio="none" aria-hidden="true" focusable="false">
      {items.map((item, i) => {
        const y = i * STEP + STEP / 2;
        const mark = markOf(item, half.answers[item.item]);
        const area = i === 0 || items[i - 1]?.area !== item.area;
        return (
          <g key={item.item} class={`tick tick-${mark ?? "open"}${i === at ? " tick-here" : ""}`}>
            <path d={`M0 ${y} H${i === at ? WIDTH : area ? 14 : 8}`} />
            {mark === null ? null : (
              <path class="tick-mark" d={mark === "pass" ? `M0 ${y} H8` : mark === "fail" ? `M0 ${y} H20` : `M0 ${y} H14`} />
            )}
          </g>
        );
      })}
    </svg>
  );
}
