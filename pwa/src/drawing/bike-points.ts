/** Where a bike's members meet, seen from the drive side: mm from the bottom bracket, x forward, y up. */

import type { BikeNumbers } from "./bike-numbers";
import type { Point } from "./plan";

/** What stands in for a number nobody measured, so that there is something to draw, dashed. */
const USUAL = {
  stack: 560,
  reach: 385,
  headAngle: 72,
  seatAngle: 73.5,
  chainstay: 425,
  frontCentre: 605,
  bbDrop: 72,
  wheelRadius: 342,
  headTube: 145,
  cover: 10,
  spacers: 15,
  stemHeight: 40,
  stemLength: 100,
  stemAngle: -6,
  crank: 170,
  saddleHeight: 720,
} as const;

export interface BikePoints {
  rear: Point;
  front: Point;
  ground: number;
  radius: number;
  headTop: Point;
  headBottom: Point;
  stemCentre: Point;
  bar: Point;
  seatTop: Point;
  saddle: Point;
  seatLine: Point;
  steering: Point;
  crankEnd: Point;
  target: Point | null;
  /** Which members are drawn from measured numbers only. */
  known: { frame: boolean; front: boolean; rear: boolean; bar: boolean; saddle: boolean; wheels: boolean };
}

export function bikePoints(n: BikeNumbers): BikePoints {
  const or = (name: keyof typeof USUAL): number => n[name] ?? USUAL[name];
  const has = (...names: (keyof BikeNumbers)[]) => names.every((name) => n[name] !== null);
  const rad = Math.PI / 180;
  const head = or("headAngle") * rad;
  const seat = or("seatAngle") * rad;
  const drop = or("bbDrop");
  const level = (length: number) => Math.sqrt(Math.max(0, length ** 2 - drop ** 2));
  const rear = { x: -level(or("chainstay")), y: drop };
  const fromWheelbase = n.frontCentre === null && n.wheelbase !== null;
  const front = { x: fromWheelbase ? rear.x + (n.wheelbase ?? 0) : level(or("frontCentre")), y: drop };
  const radius = or("wheelRadius");
  // Up along the steering axis, and forward, square to it.
  const up = { x: -Math.cos(head), y: Math.sin(head) };
  const ahead = { x: Math.sin(head), y: Math.cos(head) };
  const headTop = { x: or("reach"), y: or("stack") };
  const headBottom = along(headTop, up, -or("headTube"));
  const stemCentre = along(headTop, up, or("cover") + or("spacers") + or("stemHeight") / 2);
  const angle = or("stemAngle") * rad;
  const length = or("stemLength");
  const bar = along(along(stemCentre, ahead, length * Math.cos(angle)), up, length * Math.sin(angle));
  const seatLine = { x: -Math.cos(seat), y: Math.sin(seat) };
  const height = or("saddleHeight");
  const onLine = along({ x: 0, y: 0 }, seatLine, height);
  const saddle = { x: n.saddleSetback === null ? onLine.x : -n.saddleSetback, y: onLine.y };
  const seatTop = along({ x: 0, y: 0 }, seatLine, n.seatTube ?? Math.min(height - 130, headTop.y * 0.92));
  const target = n.targetBarX !== null && n.targetBarY !== null ? { x: n.targetBarX, y: n.targetBarY } : null;
  return {
    rear,
    front,
    ground: drop - radius,
    radius,
    headTop,
    headBottom,
    stemCentre,
    bar,
    seatTop,
    saddle,
    seatLine: onLine,
    steering: up,
    crankEnd: { x: or("crank") * Math.cos(0.35), y: -or("crank") * Math.sin(0.35) },
    target,
    known: {
      frame: has("stack", "reach", "headAngle", "seatAngle"),
      rear: has("chainstay", "bbDrop"),
      front: has("bbDrop", "headAngle") && (n.frontCentre !== null || (n.wheelbase !== null && n.chainstay !== null)),
      bar: has("stack", "reach", "headAngle", "cover", "spacers", "stemLength", "stemAngle"),
      saddle: has("saddleHeight", "seatAngle"),
      wheels: has("wheelRadius", "bbDrop"),
    },
  };
}

function along(from: Point, way: Point, by: number): Point {
  return { x: from.x + way.x * by, y: from.y + way.y * by };
}
