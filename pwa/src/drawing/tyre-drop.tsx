/** The tyre in section standing on the ground: unloaded thin, loaded heavy, with both heights and the drop. */

import { formatNumber, show } from "../units";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { fitted } from "./fit";
import { Axis, Drawing, type Plan, round } from "./plan";
import { num, or } from "./reading";
import { loadedTyrePath, rimPath, tyrePath } from "./tyre-section";
import { drawingWords as say } from "./words";

export function TyreDropDrawing({ inputs, outputs }: FigureProps) {
  const tall = num(inputs, "height_unloaded");
  const loaded = num(inputs, "height_loaded");
  const tyre = Math.max(12, or(num(inputs, "tyre_height"), 30));
  const drop = num(outputs, "drop");
  const target = num(inputs, "target_drop");
  // What the two heights differ by is what the tyre gives; without both, the share worked out.
  const fallen = tall !== null && loaded !== null ? tall - loaded : tyre * (drop ?? 0) * 0.01;
  const sunk = Math.max(0, Math.min(tyre * 0.6, fallen));
  const rim = tyre * 0.66;
  // The rim comes down to the ground: the unloaded tyre is drawn from the same rim, through the ground.
  const sheet = fitted(
    { left: -tyre * 1.3, right: tyre * 1.3, bottom: -tyre - 2, top: 26 },
    { left: 8, right: 8, bottom: 24, top: 8 },
    330,
  );
  const flipped: Plan = { ...sheet, at: (x, y) => sheet.at(x, -y) };
  const ground = sheet.at(0, -(tyre - sunk)).y;
  const foot = sheet.at(0, -tyre).y;
  const seat = sheet.at(0, 0).y;
  const known = num(inputs, "tyre_height") !== null;
  const [leftEdge, rightEdge] = [30, sheet.width - 34];
  return (
    <Drawing
      plan={sheet}
      says={say.tyreDrop(drop === null ? null : show(drop, "%", 1), target === null ? null : show(target, "%", 0))}
    >
      <path class="ground" d={`M0 ${round(ground)} H${sheet.width}`} />
      <Axis from={{ x: sheet.width / 2, y: 4 }} to={{ x: sheet.width / 2, y: foot + 12 }} />
      <path class="member member-thin" d={tyrePath(flipped, tyre, rim, tyre)} />
      <path
        class={known ? "member tyre-casing" : "member member-guess"}
        d={loadedTyrePath(flipped, tyre, rim, tyre - sunk, tyre)}
      />
      <path class="member member-filled rim-section" d={rimPath(flipped, rim, false)} />
      <path
        class="extension"
        d={`M${round(sheet.at(-rim / 2 - 4, 0).x)} ${round(seat)} H${leftEdge - 6} M${round(sheet.width / 2)} ${round(foot)} H${leftEdge - 6}`}
      />
      <Dimension from={{ x: leftEdge, y: seat }} to={{ x: leftEdge, y: foot }} text={known ? formatNumber(tyre, 1) : "?"} />
      <path class="extension" d={`M${round(sheet.width / 2)} ${round(foot)} H${rightEdge + 6}`} />
      <Dimension from={{ x: rightEdge, y: foot }} to={{ x: rightEdge, y: ground }} text="" tone="blue" />
      <text class="blue" x={rightEdge - 8} y={round(ground - 10)} text-anchor="end">
        {tall === null || loaded === null ? "?" : formatNumber(fallen, 1)}
      </text>
      <text class="blue" x={sheet.width / 2} y={round(sheet.height - 4)} text-anchor="middle">
        {drop === null ? "?" : `${show(drop, "%", 1)}${target === null ? "" : ` · ${say.wanted} ${show(target, "%", 0)}`}`}
      </text>
    </Drawing>
  );
}
