/** The bike before, thin, and after another fork or tyre, heavy: turned by the tilt, drawn larger where it is too small to see. */

import { formatNumber, show } from "../units";
import type { FigureProps } from "./catalogue";
import { Moved } from "./dimension";
import { along, fitted, magnified, turned, way } from "./fit";
import { Datum, Drawing, type Plan, type Point, round, through } from "./plan";
import { num, or } from "./reading";
import { drawingWords as say } from "./words";

const RADIUS = 340;
/** Degrees of tilt that can be seen on a phone. */
const SEEN = 2;

export function TiltDrawing({ inputs, outputs }: FigureProps) {
  const given = (name: string) => num(inputs, name);
  const drop = or(given("bb_drop"), 70);
  const stay = or(given("chainstay"), 420);
  const rear = { x: -Math.sqrt(Math.max(0, stay ** 2 - drop ** 2)), y: drop };
  const front = { x: rear.x + or(given("wheelbase"), 1010), y: drop };
  const bar = { x: or(given("bar_x"), 474), y: or(given("bar_y"), 627) };
  const head = or(given("head_angle"), 72);
  const seat = or(given("seat_angle"), 73.5);
  const known = ["bb_drop", "wheelbase", "head_angle", "seat_angle", "bar_x", "bar_y"].every((name) => given(name) !== null);
  const tilt = num(outputs, "tilt");
  const factor = tilt === null || tilt === 0 ? 1 : magnified(tilt, SEEN, [1, 2, 5, 10]);
  const bike = { rear, front, bar, head, seat };
  const bottom = drop - RADIUS;
  const sheet = fitted(
    { left: rear.x - RADIUS, right: front.x + RADIUS, bottom, top: Math.max(bar.y, 700) + 40 },
    { left: 6, right: 6, bottom: 30, top: 34 },
    360,
  );
  const barNow = turned(bar, (tilt ?? 0) * factor);
  const [x, y] = [num(outputs, "bar_x_new"), num(outputs, "bar_y_new")];
  const at = (point: Point) => sheet.at(point.x, point.y);
  const signed = (value: number, digits: number) => `${value > 0 ? "+" : ""}${formatNumber(value, digits)}`;
  const angles = (before: number | null, name: string) => {
    const after = num(outputs, name);
    return before === null
      ? "?"
      : after === null
        ? `${formatNumber(before, 1)}°`
        : `${formatNumber(before, 1)}° → ${formatNumber(after, 1)}°`;
  };
  return (
    <Drawing plan={sheet} says={say.tilt(tilt === null ? null : show(tilt, "°", 2), factor)}>
      <path class="ground" d={`M0 ${round(sheet.at(0, bottom).y)} H${sheet.width}`} />
      <Bike sheet={sheet} bike={bike} by={0} style={tilt === null ? (known ? "member-ink" : "member-guess") : "member-thin"} />
      {tilt === null ? null : <Bike sheet={sheet} bike={bike} by={tilt * factor} style="member-ink" />}
      <Datum at={at({ x: 0, y: 0 })} />
      {x !== null && Math.abs(x - bar.x) >= 0.05 && (
        <Moved
          from={{ x: at(barNow).x + (x > bar.x ? 14 : -14), y: at(barNow).y }}
          way={{ x: x > bar.x ? 1 : -1, y: 0 }}
          text={signed(x - bar.x, 1)}
        />
      )}
      {y !== null && Math.abs(y - bar.y) >= 0.05 && (
        <Moved
          from={{ x: at(barNow).x, y: at(barNow).y + (y > bar.y ? -12 : 12) }}
          way={{ x: 0, y: y > bar.y ? -1 : 1 }}
          text={signed(y - bar.y, 1)}
        />
      )}
      <text
        x={round(at(along({ x: 0, y: 0 }, { x: -way(seat).x, y: way(seat).y }, 700)).x - 8)}
        y={round(at({ x: 0, y: 720 }).y)}
        text-anchor="middle"
      >
        {angles(given("seat_angle"), "seat_angle_new")}
      </text>
      <text x={sheet.width - 6} y={round(at({ x: 0, y: 490 }).y)} text-anchor="end">
        {angles(given("head_angle"), "head_angle_new")}
      </text>
      {tilt === null ? null : (
        <text class="words" x={sheet.width / 2} y={round(sheet.height - 8)} text-anchor="middle">
          {say.drawn(show(tilt, "°", 2), factor)}
        </text>
      )}
    </Drawing>
  );
}

interface BikeProps {
  sheet: Plan;
  bike: { rear: Point; front: Point; bar: Point; head: number; seat: number };
  by: number;
  style: string;
}

/** As a wire figure, turned about the bottom bracket. */
function Bike({ sheet, bike, by, style }: BikeProps) {
  const at = (point: Point) => {
    const moved = turned(point, by);
    return sheet.at(moved.x, moved.y);
  };
  const bb = { x: 0, y: 0 };
  const up = { x: -way(bike.head).x, y: way(bike.head).y };
  const seatTop = along(bb, { x: -way(bike.seat).x, y: way(bike.seat).y }, 660);
  // The head tube stands where the axis passes below the bar, a stem's length behind it.
  const headTop = { x: bike.bar.x - 90, y: bike.bar.y - 60 };
  const headBottom = along(headTop, up, -140);
  const wheel = (axle: Point) => (
    <circle class={`member ${style}`} cx={round(at(axle).x)} cy={round(at(axle).y)} r={round(RADIUS * sheet.scale)} />
  );
  const tubeTop = along(bb, { x: -way(bike.seat).x, y: way(bike.seat).y }, 500);
  return (
    <g>
      {wheel(bike.rear)}
      {wheel(bike.front)}
      <path
        class={`member ${style}`}
        d={`${through(at(headBottom), at(bb), at(bike.rear), at(tubeTop), at(headTop), at(bike.front))}`}
      />
      <path
        class={`member ${style}`}
        d={`${through(at(bb), at(seatTop))} ${through(at({ x: seatTop.x - 110, y: seatTop.y + 4 }), at({ x: seatTop.x + 140, y: seatTop.y }))}`}
      />
      <path class={`member ${style}`} d={through(at(headTop), at(bike.bar))} />
      <circle class={`member ${style} member-filled`} cx={round(at(bike.bar).x)} cy={round(at(bike.bar).y)} r="5" />
    </g>
  );
}
