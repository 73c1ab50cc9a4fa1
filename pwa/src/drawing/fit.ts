/** Fitting what is drawn to the sheet, and small plane geometry in millimetres. */

import { type Extent, type Plan, type Point, plan, type Room, through } from "./plan";

/** A plan no taller than `tallest` sheet units: a tall thing gets air at its sides. */
export function fitted(extent: Extent, room: Room, tallest: number): Plan {
  const wide = plan(extent, room);
  const over = wide.height - room.top - room.bottom;
  const most = tallest - room.top - room.bottom;
  if (over <= most) return wide;
  const air = ((extent.right - extent.left) * (over / most - 1)) / 2;
  return plan({ ...extent, left: extent.left - air, right: extent.right + air }, room);
}

export function along(from: Point, way: Point, by: number): Point {
  return { x: from.x + way.x * by, y: from.y + way.y * by };
}

/** The way at an angle in degrees, measured from level, counter-clockwise with y up. */
export function way(degrees: number): Point {
  const angle = (degrees * Math.PI) / 180;
  return { x: Math.cos(angle), y: Math.sin(angle) };
}

/** `point` turned about `centre`, counter-clockwise with y up. */
export function turned(point: Point, degrees: number, centre: Point = { x: 0, y: 0 }): Point {
  const { x: c, y: s } = way(degrees);
  const x = point.x - centre.x;
  const y = point.y - centre.y;
  return { x: centre.x + x * c - y * s, y: centre.y + x * s + y * c };
}

/** The outline of a straight thing `half` to each side of the line between two points; it may taper. */
export function slab(sheet: Plan, from: Point, to: Point, half: number, halfEnd = half): string {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length === 0) return "";
  const square = { x: -(to.y - from.y) / length, y: (to.x - from.x) / length };
  const corners = [
    along(from, square, half),
    along(to, square, halfEnd),
    along(to, square, -halfEnd),
    along(from, square, -half),
  ];
  return `${through(...corners.map((corner) => sheet.at(corner.x, corner.y)))}Z`;
}

/** The first factor that makes `size` at least `least`: by how much a thing too small to see is drawn larger. */
export function magnified(size: number, least: number, factors = [1, 2, 5, 10, 20, 50, 100]): number {
  return factors.find((factor) => Math.abs(size) * factor >= least) ?? factors.at(-1) ?? 1;
}
