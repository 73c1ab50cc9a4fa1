/** The bike with its joints marked by shape: where several rules meet at one place the gravest shows. */

import { bikeNumbers } from "../../drawing/bike-numbers";
import { bikePoints } from "../../drawing/bike-points";
import { Datum, Drawing, Member, type Point, plan, round, through } from "../../drawing/plan";
import { Spots } from "../../drawing/spots";
import type { FitReport } from "../../kernel/build-types";
import type { BikeState } from "../../kernel/types";
import { type FitResult, FitShape } from "./signs";
import { w } from "./words";

type Joint = FitReport["joints"][number];
type Place =
  | "bb"
  | "rear"
  | "front"
  | "stem"
  | "head-top"
  | "head-bottom"
  | "bar"
  | "seat-top"
  | "saddle"
  | "rim-front"
  | "rim-rear"
  | "caliper-front"
  | "caliper-rear"
  | "mech";

const PLACES: Record<string, Place> = {
  shell: "bb",
  spindle: "bb",
  chainring: "bb",
  pedal: "bb",
  freehub: "rear",
  "cassette-chain": "rear",
  "cassette-shifter": "bar",
  "shifter-mech": "mech",
  "largest-cog": "mech",
  capacity: "mech",
  "steerer-stem": "stem",
  "headset-frame": "head-top",
  "headset-fork": "head-bottom",
  bar: "bar",
  fluid: "bar",
  hose: "bar",
  seatpost: "seat-top",
  "post-insert": "seat-top",
  rails: "saddle",
  load: "saddle",
  ports: "seat-top",
  "front-mech": "bb",
};

/** Rules that hold at each end of the bike. */
const ENDS: Record<string, "hub" | "rim" | "caliper"> = {
  axle: "hub",
  hub: "hub",
  rotor: "hub",
  "rotor-size": "caliper",
  caliper: "caliper",
  "tyre-rim": "rim",
  "tyre-room": "rim",
  valve: "rim",
};

function placeOf(joint: Joint): Place {
  const at = ENDS[joint.rule];
  const end = joint.end === "front" ? "front" : "rear";
  if (at === "hub") return end;
  if (at !== undefined) return `${at}-${end}`;
  return PLACES[joint.rule] ?? "bb";
}

interface Props {
  state: BikeState;
  joints: Joint[];
  /** A place was touched: the numbers of its joints in the report. */
  onOpen: (numbers: number[]) => void;
}

export function FitDrawing({ state, joints, onOpen }: Props) {
  const p = bikePoints(bikeNumbers(state));
  const top = Math.max(p.saddle.y, p.bar.y);
  const sheet = plan(
    { left: p.rear.x - p.radius, right: p.front.x + p.radius, bottom: p.ground, top },
    { left: 8, right: 8, bottom: 10, top: 40 },
  );
  const at = (point: Point) => sheet.at(point.x, point.y);
  const rim = (axle: Point, out: number): Point => ({ x: axle.x + out * p.radius * 0.72, y: axle.y - p.radius * 0.69 });
  const spots: Record<Place, Point> = {
    bb: { x: 0, y: 0 },
    rear: p.rear,
    front: p.front,
    mech: { x: p.rear.x + 25, y: p.rear.y - 105 },
    stem: p.stemCentre,
    bar: p.bar,
    "head-top": p.headTop,
    "head-bottom": p.headBottom,
    "seat-top": p.seatTop,
    saddle: p.saddle,
    "rim-front": rim(p.front, 1),
    "rim-rear": rim(p.rear, -1),
    "caliper-front": { x: p.front.x - 70, y: p.front.y + 70 },
    "caliper-rear": { x: p.rear.x + 105, y: p.rear.y + 25 },
  };
  // The report is gravest first, so the first joint at a place is the one to show; its number leads into the list.
  const marks = new Map<Place, { result: FitResult; numbers: number[] }>();
  const places = new Map<Place, number[]>();
  joints.forEach((joint, i) => {
    const place = placeOf(joint);
    places.set(place, [...(places.get(place) ?? []), i + 1]);
    const mark = marks.get(place);
    if (mark === undefined) marks.set(place, { result: joint.result, numbers: [i + 1] });
    else if (mark.result === joint.result) mark.numbers.push(i + 1);
  });
  const wheel = (axle: Point) => {
    const c = at(axle);
    return <circle class="member member-thin" cx={round(c.x)} cy={round(c.y)} r={round(p.radius * sheet.scale)} />;
  };
  // Drawn away from one another where the head of the bike is crowded.
  const nudge: Partial<Record<Place, Point>> = {
    stem: { x: -12, y: -16 },
    "head-top": { x: -22, y: 8 },
    bar: { x: 20, y: -8 },
    saddle: { x: 0, y: -14 },
  };
  const spotOf = (place: Place) => {
    const off = nudge[place] ?? { x: 0, y: 0 };
    const spot = at(spots[place]);
    return { x: spot.x + off.x, y: spot.y + off.y };
  };
  const ways = [...places].map(([place, numbers]) => ({
    key: place,
    at: spotOf(place),
    name: w.fits.at(numbers.map((number) => joints[number - 1]?.title ?? "")),
    open: () => onOpen(numbers),
  }));
  return (
    <Spots plan={sheet} spots={ways}>
      <Drawing
        plan={sheet}
        says={w.fits.drawing(joints.filter((joint) => joint.result === "does-not-fit").map((joint) => joint.title))}
      >
        <path class="ground" d={`M0 ${round(sheet.at(0, p.ground).y)} H${sheet.width}`} />
        {wheel(p.rear)}
        {wheel(p.front)}
        <g class="fit-bike">
          <Member
            tone="thin"
            d={through(
              at({ x: 0, y: 0 }),
              at(p.rear),
              at(p.seatTop),
              at({ x: 0, y: 0 }),
              at(p.headBottom),
              at(p.headTop),
              at(p.seatTop),
            )}
          />
          <Member tone="thin" d={through(at(p.headBottom), at(p.front))} />
          <Member tone="thin" d={through(at(p.seatTop), at(p.saddle))} />
          <Member tone="thin" d={through(at(p.headTop), at(p.stemCentre), at(p.bar))} />
        </g>
        <Datum at={at({ x: 0, y: 0 })} size={6} />
        {[...marks].map(([place, mark]) => {
          const spot = at(spots[place]);
          const marked = spotOf(place);
          const x = round(marked.x);
          const y = round(marked.y);
          return (
            <g key={place}>
              {nudge[place] === undefined ? null : (
                <path class="extension" d={`M${round(spot.x)} ${round(spot.y)} L${x} ${y}`} />
              )}
              <circle class="member-filled" cx={x} cy={y} r="12" />
              <FitShape result={mark.result} x={x} y={y} />
              {mark.result === "fits" ? null : (
                <text class={mark.result === "does-not-fit" ? "fit-number-stop" : ""} x={x + 15} y={y + 5}>
                  {mark.numbers.slice(0, 2).join(",")}
                  {mark.numbers.length > 2 ? "…" : ""}
                </text>
              )}
            </g>
          );
        })}
      </Drawing>
    </Spots>
  );
}
