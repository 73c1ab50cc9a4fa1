/** A plain bike from the drive side with the one dimension that is asked for. Its shape is a usual one: only the place counts. */

import { bikePoints } from "../bike-points";
import { Dimension } from "../dimension";
import { Axis, Datum, Drawing, Member, type Plan, type Point, plan, round, through } from "../plan";
import { Angle } from "./angle-mark";

/** From a measure's name to the place it has on the bike. */
export type Place =
  | "saddle-height"
  | "saddle-setback"
  | "saddle-tilt"
  | "bar-ahead"
  | "bar-above"
  | "stack"
  | "reach"
  | "head-angle"
  | "seat-angle"
  | "seat-tube"
  | "head-tube"
  | "chainstay"
  | "front-centre"
  | "wheelbase"
  | "bb-drop"
  | "wheel-radius"
  | "crank";

const NOTHING = {
  stack: null,
  reach: null,
  headAngle: null,
  seatAngle: null,
  chainstay: null,
  frontCentre: null,
  wheelbase: null,
  bbDrop: null,
  wheelRadius: null,
  headTube: null,
  seatTube: null,
  cover: null,
  spacers: null,
  stemHeight: null,
  stemLength: null,
  stemAngle: null,
  crank: null,
  saddleHeight: null,
  saddleSetback: null,
  saddleTilt: null,
  targetBarX: null,
  targetBarY: null,
} as const;

const p = bikePoints(NOTHING);
const TOP = Math.max(p.saddle.y, p.bar.y) + 40;
const sheet: Plan = plan(
  { left: p.rear.x - p.radius, right: p.front.x + p.radius, bottom: p.ground, top: TOP },
  { left: 4, right: 44, bottom: 12, top: 30 },
);
const at = (point: Point) => sheet.at(point.x, point.y);

export function SideHow({ place, says }: { place: Place; says: string }) {
  const bb = at({ x: 0, y: 0 });
  const ground = sheet.at(0, p.ground).y;
  return (
    <Drawing plan={sheet} says={says}>
      <path class="ground" d={`M0 ${round(ground)} H${sheet.width}`} />
      {[p.rear, p.front].map((axle) => (
        <circle
          key={axle.x}
          class="member member-thin"
          cx={round(at(axle).x)}
          cy={round(at(axle).y)}
          r={round(p.radius * sheet.scale)}
        />
      ))}
      <Member tone="thin" d={through(bb, at(p.rear), at(p.seatTop))} />
      <Member tone="thin" d={`${through(at(p.seatTop), bb, at(p.headBottom))} ${through(at(p.seatTop), at(p.headTop))}`} />
      <Member tone="thin" d={through(at(p.headTop), at(p.headBottom), at(p.front))} />
      <Member tone="thin" d={through(at(p.seatTop), at(p.saddle))} />
      <Member tone="thin" d={through(at(p.headTop), at(p.stemCentre), at(p.bar))} />
      <Member tone="thin" d={through(bb, at(p.crankEnd))} />
      <path class="member member-thin" d={`${through(onSaddle(-125, 6), onSaddle(20, 0), onSaddle(135, -4))}`} />
      <Datum at={bb} />
      {dimension(place, bb, ground)}
    </Drawing>
  );
}

function onSaddle(x: number, y: number): Point {
  return sheet.at(p.saddle.x + x, p.saddle.y + y);
}

function dimension(place: Place, bb: Point, ground: number) {
  const bar = at(p.bar);
  const high = 16;
  const edge = sheet.width - 16;
  const blue = { text: "", tone: "blue" } as const;
  const level = (a: Point, b: Point) => (
    <>
      <path class="extension" d={`M${round(a.x)} ${round(a.y)} V${high - 4} M${round(b.x)} ${round(b.y)} V${high - 4}`} />
      <Dimension from={{ x: a.x, y: high }} to={{ x: b.x, y: high }} {...blue} />
    </>
  );
  const upright = (a: Point, b: Point) => (
    <>
      <path class="extension" d={`M${round(a.x)} ${round(a.y)} H${edge + 4} M${round(b.x)} ${round(b.y)} H${edge + 4}`} />
      <Dimension from={{ x: edge, y: a.y }} to={{ x: edge, y: b.y }} {...blue} />
    </>
  );
  const between = (a: Point, b: Point, off = 0) => <Dimension from={a} to={b} off={off} {...blue} />;
  switch (place) {
    case "saddle-height":
      return (
        <>
          <Axis from={bb} to={at(p.seatLine)} />
          {between(at(p.seatLine), bb, 22)}
        </>
      );
    case "saddle-setback":
      return level(at(p.saddle), bb);
    case "saddle-tilt":
      return (
        <>
          <path class="member member-blue" d={through(onSaddle(-150, 14), onSaddle(160, 14))} />
          <Axis from={onSaddle(-150, 14)} to={onSaddle(280, 14)} />
          <Angle at={onSaddle(-150, 14)} radius={100} from={0} to={-9} />
        </>
      );
    case "bar-ahead":
      return level(bb, bar);
    case "bar-above":
      return upright(bb, bar);
    case "stack":
      return upright(bb, at(p.headTop));
    case "reach":
      return level(bb, at(p.headTop));
    case "head-angle":
      return <AngleToFloor foot={axisFoot()} ground={ground} up={at(p.headTop)} degrees={72} />;
    case "seat-angle":
      return <AngleToFloor foot={bb} ground={bb.y} up={at(p.seatLine)} degrees={73.5} />;
    case "seat-tube":
      return between(at(p.seatTop), bb, 22);
    case "head-tube":
      return between(at(p.headBottom), at(p.headTop), 22);
    case "chainstay":
      return between(bb, at(p.rear), 18);
    case "front-centre":
      return between(at(p.front), bb, 18);
    case "wheelbase":
      return (
        <>
          <path class="extension" d={`M${round(at(p.rear).x)} ${round(at(p.rear).y)} V${high - 4}`} />
          {level(at(p.rear), at(p.front))}
        </>
      );
    case "bb-drop":
      return (
        <>
          <Axis from={at(p.rear)} to={at(p.front)} />
          {upright({ x: bb.x, y: at(p.rear).y }, bb)}
        </>
      );
    case "wheel-radius":
      return between(at(p.front), { x: at(p.front).x, y: ground });
    case "crank":
      return between(bb, at(p.crankEnd), 18);
  }
}

/** Where the steering axis meets the floor. */
function axisFoot(): Point {
  const down = (p.headTop.y - p.ground) / p.steering.y;
  return sheet.at(p.headTop.x - p.steering.x * down, p.ground);
}

function AngleToFloor({ foot, ground, up, degrees }: { foot: Point; ground: number; up: Point; degrees: number }) {
  return (
    <>
      <Axis from={{ x: foot.x, y: ground }} to={up} />
      <Axis from={{ x: foot.x - 84, y: ground }} to={{ x: foot.x, y: ground }} />
      <Angle at={{ x: foot.x, y: ground }} radius={58} from={180} to={180 + degrees} />
    </>
  );
}
