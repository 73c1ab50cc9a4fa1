/** Outlines of a tyre on its rim in section: mm, x across, y out from the bead seat. */

import type { Plan } from "./plan";
import { round } from "./plan";

/** Rim walls, for the drawing only, mm. */
const RIM = { wall: 2.5, hook: 6, depth: 22 };

/** The tyre round and closed onto the rim's two seats: a circle flattened to `height` at the ground. */
export function tyrePath(sheet: Plan, width: number, rim: number, height: number): string {
  const p = (x: number, y: number) => {
    const at = sheet.at(x, y);
    return `${round(at.x)} ${round(at.y)}`;
  };
  const [half, seat] = [width / 2, rim / 2];
  const belly = Math.max(height * 0.52, 4);
  return `M${p(-seat, 0)} C${p(-half * 1.02, 2)} ${p(-half, belly * 0.6)} ${p(-half, belly)} C${p(-half, height * 0.84)} ${p(-half * 0.55, height)} ${p(0, height)} C${p(half * 0.55, height)} ${p(half, height * 0.84)} ${p(half, belly)} C${p(half, belly * 0.6)} ${p(half * 1.02, 2)} ${p(seat, 0)}`;
}

/** The tyre pressed against the ground: flat where it stands, wider at the belly. */
export function loadedTyrePath(sheet: Plan, width: number, rim: number, height: number, unloaded: number): string {
  const p = (x: number, y: number) => {
    const at = sheet.at(x, y);
    return `${round(at.x)} ${round(at.y)}`;
  };
  const drop = Math.max(0, unloaded - height);
  const half = width / 2 + drop * 0.35;
  const flat = Math.min(half * 0.8, Math.sqrt(drop * width) * 0.55);
  const seat = rim / 2;
  const belly = height * 0.55;
  return `M${p(-seat, 0)} C${p(-half * 1.02, 1)} ${p(-half, belly * 0.6)} ${p(-half, belly)} C${p(-half, height * 0.85)} ${p(-flat - (half - flat) * 0.4, height)} ${p(-flat, height)} L${p(flat, height)} C${p(flat + (half - flat) * 0.4, height)} ${p(half, height * 0.85)} ${p(half, belly)} C${p(half, belly * 0.6)} ${p(half * 1.02, 1)} ${p(seat, 0)}`;
}

/** The rim's section; straight walls where it is hookless, turned in where it is hooked. */
export function rimPath(sheet: Plan, inner: number, hookless: boolean): string {
  const p = (x: number, y: number) => {
    const at = sheet.at(x, y);
    return `${round(at.x)} ${round(at.y)}`;
  };
  const half = inner / 2;
  const out = half + RIM.wall;
  const lip = hookless ? 0 : 1.4;
  return `M${p(-half + lip, RIM.hook)} L${p(-out, RIM.hook)} L${p(-out, -2)} Q${p(-half * 0.7, -RIM.depth * 0.9)} ${p(0, -RIM.depth)} Q${p(half * 0.7, -RIM.depth * 0.9)} ${p(out, -2)} L${p(out, RIM.hook)} L${p(half - lip, RIM.hook)} L${p(half - lip, RIM.hook - 2)} L${p(half, RIM.hook - 2.6)} L${p(half, 0)} L${p(half * 0.6, 0)} L${p(half * 0.5, -3)} L${p(-half * 0.5, -3)} L${p(-half * 0.6, 0)} L${p(-half, 0)} L${p(-half, RIM.hook - 2.6)} L${p(-half + lip, RIM.hook - 2)} Z`;
}
