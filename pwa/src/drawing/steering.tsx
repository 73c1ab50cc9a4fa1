/** Fork and front wheel on the ground with the steering axis drawn down to it: trail, and the toe's room behind the tyre. */

import { formatNumber, show } from "../units";
import { Angle } from "./angle";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { along, fitted, slab, way } from "./fit";
import { Axis, Datum, Drawing, type Point, round, through } from "./plan";
import { num, or } from "./reading";
import { drawingWords as say } from "./words";

/** From the tyre to the crown and the length of the head tube, mm, for the drawing only. */
const CROWN = 35;
const HEAD_TUBE = 140;

export function SteeringDrawing({ inputs, outputs }: FigureProps) {
  const given = (name: string) => num(inputs, name);
  const angle = Math.max(30, Math.min(90, or(given("head_angle"), 72)));
  const offset = or(given("fork_offset"), 45);
  const radius = or(given("wheel_radius"), 340);
  const known = given("head_angle") !== null && given("fork_offset") !== null && given("wheel_radius") !== null;
  const trail = num(outputs, "trail");
  const gap = num(outputs, "toe_gap");
  const [front, crank, overhang] = [given("front_centre"), given("crank_length"), given("toe_overhang")];
  const up = { x: -way(angle).x, y: way(angle).y };
  // The axis stands `offset` behind the axle, square to itself.
  const axle = { x: 0, y: radius };
  const nearest = along(axle, { x: up.y, y: -up.x }, -offset);
  const foot = along(nearest, up, -nearest.y / up.y);
  const crown = along(nearest, up, radius + CROWN);
  const headTop = along(crown, up, HEAD_TUBE);
  const bb = front === null ? null : { x: -front, y: radius };
  const toe = bb === null ? null : { x: bb.x + (crank ?? 170) + (overhang ?? 105), y: radius };
  const sheet = fitted(
    {
      left: Math.min(-radius - 10, headTop.x - 40, (bb?.x ?? 0) - 30),
      right: Math.max(radius + 10, foot.x + 20),
      bottom: 0,
      top: Math.max(2 * radius, headTop.y + 30),
    },
    { left: 10, right: 10, bottom: 34, top: 8 },
    400,
  );
  const at = (point: Point) => sheet.at(point.x, point.y);
  const ground = sheet.at(0, 0).y;
  const line = ground + 19;
  const hub = at(axle);
  const style = known ? "member member-filled" : "member member-guess";
  return (
    <Drawing
      plan={sheet}
      says={say.steering(trail === null ? null : show(trail, "mm", 1), gap === null ? null : show(gap, "mm", 0))}
    >
      <path class="ground" d={`M0 ${round(ground)} H${sheet.width}`} />
      <circle
        class={known ? "member member-ink" : "member member-guess"}
        cx={round(hub.x)}
        cy={round(hub.y)}
        r={round(radius * sheet.scale)}
      />
      <circle class="member member-thin" cx={round(hub.x)} cy={round(hub.y)} r={round((radius - 30) * sheet.scale)} />
      <path class={style} d={slab(sheet, crown, headTop, 20)} />
      <path class={style} d={slab(sheet, along(crown, up, 4), along(nearest, up, radius * 0.35), 14, 10)} />
      <path class={style} d={slab(sheet, along(nearest, up, radius * 0.35), axle, 10, 6)} />
      <Datum at={hub} size={8} />
      <Axis from={at(along(headTop, up, 28))} to={at(foot)} />
      <Axis from={hub} to={{ x: hub.x, y: ground }} />
      <path class="extension" d={through(at(crown), at({ x: crown.x - 60, y: crown.y }))} />
      <Angle
        at={at(crown)}
        from={180 - angle}
        to={180}
        radius={30}
        text={given("head_angle") === null ? "?" : `${formatNumber(angle, 1)}°`}
      />
      <path
        class="extension"
        d={`M${round(hub.x)} ${round(ground + 3)} V${line + 5} M${round(at(foot).x)} ${round(ground + 3)} V${line + 5}`}
      />
      <Dimension
        from={{ x: hub.x, y: line }}
        to={{ x: at(foot).x, y: line }}
        text={trail === null ? "?" : formatNumber(trail, 1)}
        tone="blue"
      />
      <text class="words" x={round(hub.x - 10)} y={line + 5} text-anchor="end">
        {say.trail}
      </text>
      <Dimension
        from={hub}
        to={at(nearest)}
        text={given("fork_offset") === null ? "?" : formatNumber(offset, 0)}
        aside="start"
      />
      {bb === null || toe === null ? null : <Toe bb={at(bb)} toe={at(toe)} tyre={at({ x: -radius, y: radius })} gap={gap} />}
    </Drawing>
  );
}

/** Crank level and forward, the toe before it, and the room to the tyre; a figure below nought is an overlap. */
function Toe({ bb, toe, tyre, gap }: { bb: Point; toe: Point; tyre: Point; gap: number | null }) {
  const y = bb.y + 34;
  return (
    <g>
      <Datum at={bb} size={8} />
      <path class="member member-thin" d={through(bb, { x: toe.x - 26, y: toe.y })} />
      <path
        class="member member-thin"
        d={`M${round(toe.x - 40)} ${round(toe.y + 5)} H${round(toe.x)} q0 -12 -14 -12 l-14 -4`}
      />
      {gap === null ? null : (
        <>
          <path
            class="extension"
            d={`M${round(toe.x)} ${round(toe.y + 8)} V${round(y + 4)} M${round(tyre.x)} ${round(tyre.y + 4)} V${round(y + 4)}`}
          />
          <Dimension
            from={{ x: Math.max(toe.x, tyre.x), y }}
            to={{ x: Math.min(toe.x, tyre.x), y }}
            text={`${say.toe} ${formatNumber(gap, 0)}`}
            tone={gap < 0 ? "stop" : "ink"}
          />
        </>
      )}
    </g>
  );
}
