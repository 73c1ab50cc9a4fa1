/** The bike on the sheet, to scale from its own numbers; what nobody measured is dashed. */

import type { BikeState, Moved as MovedSetting } from "../kernel/types";
import { formatNumber, show } from "../units";
import { words } from "../words";
import { bikeNumbers } from "./bike-numbers";
import { bikePoints } from "./bike-points";
import { Dimension, Moved } from "./dimension";
import { figure } from "./figures";
import { Axis, Datum, Drawing, Member, type Point, plan, round, through } from "./plan";
import { Spots } from "./spots";

/** The saddle's outline from its reference point, mm: nose forward. */
const SADDLE = { nose: 135, tail: 125, drop: 12 };

/** What a touch on the drawing leads to. */
export const BIKE_SPOTS = [
  "saddle_height",
  "saddle_setback",
  "saddle_tilt",
  "bar_reach",
  "bar_height",
  "spacers_below",
] as const;
/** Those whose figure is in the drawing. */
const OPEN_SHOWN: BikeSpot[] = ["saddle_height", "saddle_setback", "bar_height"];

export type BikeSpot = (typeof BIKE_SPOTS)[number];

interface Props {
  state: BikeState;
  /** Where the drawing is a way to the settings: their names, and what opens one. */
  ways?: { named: (spot: BikeSpot) => string; open: (spot: BikeSpot) => void };
}

export function BikeDrawing({ state, ways }: Props) {
  const numbers = bikeNumbers(state);
  const p = bikePoints(numbers);
  const top = Math.max(p.saddle.y, p.bar.y, p.target?.y ?? 0, p.stemCentre.y);
  const sheet = plan(
    { left: p.rear.x - p.radius, right: p.front.x + p.radius, bottom: p.ground, top },
    { left: 2, right: 48, bottom: 30, top: 62 },
  );
  const at = (point: Point) => sheet.at(point.x, point.y);
  const bb = sheet.at(0, 0);
  const ground = sheet.at(0, p.ground).y;
  const wheel = (axle: Point, known: boolean) => {
    const c = at(axle);
    const r = p.radius * sheet.scale;
    return (
      <g>
        <circle class={`member member-${known ? "ink" : "guess member-ink"}`} cx={round(c.x)} cy={round(c.y)} r={round(r)} />
        <circle class="member member-thin" cx={round(c.x)} cy={round(c.y)} r={round(r * 0.93)} />
        <circle class="member member-thin" cx={round(c.x)} cy={round(c.y)} r="3" />
      </g>
    );
  };
  const tilt = ((numbers.saddleTilt ?? 0) * Math.PI) / 180;
  const onSaddle = (x: number, y: number): Point =>
    sheet.at(p.saddle.x + x * Math.cos(tilt) - y * Math.sin(tilt), p.saddle.y + x * Math.sin(tilt) + y * Math.cos(tilt));
  const nose = onSaddle(SADDLE.nose, -4);
  const tail = onSaddle(-SADDLE.tail, 6);
  const bar = at(p.bar);
  // Dimensions go to the bar as it is built, else to where it is wanted.
  const barAt = p.known.bar ? p.bar : p.target;
  const grips = at(barAt ?? p.bar);
  const edge = sheet.width - 20;
  const saddleTop = at(p.seatLine);
  const moved = state.moved;
  const drawing = (
    <Drawing plan={sheet} says={says(state)}>
      <path class="ground" d={`M0 ${round(ground)} H${sheet.width}`} />
      {wheel(p.rear, p.known.wheels && p.known.rear)}
      {wheel(p.front, p.known.wheels && p.known.front)}
      <Axis from={sheet.at(p.headTop.x + p.steering.x * 160, p.headTop.y + p.steering.y * 160)} to={axisFoot()} />
      <Axis from={bb} to={saddleTop} />
      {/* frame */}
      <Member known={p.known.frame && p.known.rear} d={through(bb, at(p.rear), at(p.seatTop))} />
      <Member
        known={p.known.frame}
        d={`${through(at(p.seatTop), bb, at(p.headBottom))} ${through(at(p.seatTop), at(between(p.headTop, p.headBottom, 0.2)))}`}
      />
      <Member known={p.known.frame && numbers.headTube !== null} d={through(at(p.headTop), at(p.headBottom))} />
      {/* fork */}
      <Member
        known={p.known.front && numbers.headTube !== null}
        d={`M${round(at(p.headBottom).x)} ${round(at(p.headBottom).y)} Q${round(at(forkKnee()).x)} ${round(at(forkKnee()).y)} ${round(at(p.front).x)} ${round(at(p.front).y)}`}
      />
      <Member tone="thin" d={through(bb, at(p.crankEnd))} known={numbers.crank !== null} />
      {/* post and saddle */}
      <Member known={p.known.saddle} d={through(at(p.seatTop), sheet.at(p.seatLine.x * 0.965, p.seatLine.y * 0.965))} />
      <Member
        known={p.known.saddle && numbers.saddleSetback !== null}
        d={`${through(tail, onSaddle(-SADDLE.tail * 0.4, 0), onSaddle(20, 0), nose, onSaddle(SADDLE.nose * 0.7, -SADDLE.drop), onSaddle(-SADDLE.tail * 0.55, -SADDLE.drop * 2.4))}Z`}
      />
      {/* stem and bar */}
      <Member known={p.known.bar} d={through(at(p.headTop), at(p.stemCentre), bar)} />
      <Member known={p.known.bar} d={hooks(bar, sheet.scale)} />
      {p.target === null ? null : <Target at={at(p.target)} />}
      <Datum at={bb} />
      {/* dimensions */}
      {numbers.saddleHeight === null ? null : (
        <Dimension
          from={saddleTop}
          to={bb}
          off={26}
          text={asked("saddle_height", numbers.saddleHeight)}
          tone={tone(moved, "saddle_height")}
        />
      )}
      <Dimension
        from={{ x: edge, y: bb.y }}
        to={{ x: edge, y: grips.y }}
        text={barAt === null ? "?" : asked("bar_height", barAt.y)}
        tone={p.known.bar ? tone(moved, "bar_height") : "blue"}
      />
      <path
        class="extension"
        d={`M${round(bb.x + 12)} ${round(bb.y)} H${edge + 4} M${round(grips.x + 6)} ${round(grips.y)} H${edge + 4}`}
      />
      <Dimension
        from={{ x: bb.x, y: 14 }}
        to={{ x: grips.x, y: 14 }}
        text={barAt === null ? "?" : figure(barAt.x)}
        tone={p.known.bar ? "ink" : "blue"}
      />
      <path class="extension" d={`M${round(bb.x)} ${round(bb.y - 12)} V10 M${round(grips.x)} ${round(grips.y - 6)} V10`} />
      {numbers.saddleSetback === null ? null : (
        <>
          <Dimension
            from={{ x: at(p.saddle).x, y: 14 }}
            to={{ x: bb.x, y: 14 }}
            text={asked("saddle_setback", numbers.saddleSetback)}
            tone={tone(moved, "saddle_setback")}
            aside="start"
          />
          <path class="extension" d={`M${round(at(p.saddle).x)} ${round(at(p.saddle).y - 6)} V10`} />
        </>
      )}
      <Dimension
        from={{ x: at(p.rear).x, y: ground + 18 }}
        to={{ x: at(p.front).x, y: ground + 18 }}
        text={p.known.front && p.known.rear ? figure(p.front.x - p.rear.x) : "?"}
      />
      <path
        class="extension"
        d={`M${round(at(p.rear).x)} ${round(at(p.rear).y + 8)} V${round(ground + 22)} M${round(at(p.front).x)} ${round(at(p.front).y + 8)} V${round(ground + 22)}`}
      />
      {moved.map((one) => moveArrow(one))}
    </Drawing>
  );
  if (ways === undefined) return drawing;
  const places: Record<BikeSpot, Point> = {
    saddle_height: at({ x: p.seatLine.x * 0.45, y: p.seatLine.y * 0.45 }),
    saddle_setback: { x: (at(p.saddle).x + bb.x) / 2, y: 14 },
    saddle_tilt: at(p.saddle),
    bar_reach: { x: (bb.x + grips.x) / 2, y: 14 },
    bar_height: { x: edge, y: (bb.y + grips.y) / 2 },
    spacers_below: at(p.headTop),
  };
  const spots = BIKE_SPOTS.map((key) => ({ key, at: places[key], name: ways.named(key), open: () => ways.open(key) }));
  return (
    <Spots plan={sheet} spots={spots}>
      {drawing}
    </Spots>
  );

  /** A figure that two people gave differently is not known until one of them holds. */
  function asked(setting: BikeSpot, value: number): string {
    return figure(value) + (isOpen(state, setting) ? "?" : "");
  }

  function axisFoot(): Point {
    const down = (p.headTop.y - p.ground) / p.steering.y;
    return sheet.at(p.headTop.x - p.steering.x * down, p.ground);
  }

  function forkKnee(): Point {
    const down = (p.headTop.y - p.front.y) * 0.72;
    return { x: p.headTop.x - (p.steering.x / p.steering.y) * down, y: p.headTop.y - down };
  }

  function moveArrow(one: MovedSetting) {
    if (one.by === null || one.by === 0) return null;
    const text = `${one.by > 0 ? "+" : ""}${formatNumber(one.by, 1)}`;
    const way = { x: 0, y: one.by > 0 ? -1 : 1 };
    if (one.setting === "saddle_height")
      return <Moved key={one.setting} from={{ x: tail.x + 6, y: tail.y - 6 * -way.y }} way={way} text={text} />;
    if (one.setting === "saddle_setback")
      return (
        <Moved
          key={one.setting}
          from={{ x: one.by > 0 ? tail.x - 4 : nose.x + 4, y: nose.y - 8 }}
          way={{ x: one.by > 0 ? -1 : 1, y: 0 }}
          text={text}
        />
      );
    if (one.setting === "bar_height" || one.setting === "spacers_below")
      return <Moved key={one.setting} from={{ x: bar.x + 16, y: bar.y }} way={way} text={text} side="end" />;
    return null;
  }
}

function isOpen(state: BikeState, setting: BikeSpot): boolean {
  return state.questions.some((one) => one.question === `setting.${setting}`);
}

function tone(moved: MovedSetting[], setting: string): "blue" | "ink" {
  return moved.some((one) => one.setting === setting) ? "blue" : "ink";
}

function between(a: Point, b: Point, share: number): Point {
  return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
}

/** A bar's side view: the clamp, the reach forward and the drop. */
function hooks(bar: Point, scale: number): string {
  const mm = (value: number) => round(value * scale);
  return `M${round(bar.x)} ${round(bar.y)} h${mm(35)} c${mm(55)} 0 ${mm(60)} ${mm(95)} 0 ${mm(118)} h${mm(-45)}`;
}

function Target({ at }: { at: Point }) {
  return (
    <g>
      <circle class="member member-blue" cx={round(at.x)} cy={round(at.y)} r="8" />
      <path class="member member-blue" d={`M${round(at.x - 14)} ${round(at.y)} h28 M${round(at.x)} ${round(at.y - 14)} v28`} />
      <text class="words blue" x={round(at.x + 17)} y={round(at.y - 10)}>
        {words.drawing.target}
      </text>
    </g>
  );
}

/** The drawing in words. */
function says(state: BikeState): string {
  const numbers = bikeNumbers(state);
  const p = bikePoints(numbers);
  const told: string[] = [words.drawing.sideView(state.described.name ?? "")];
  if (numbers.saddleHeight !== null) told.push(words.drawing.saddleHeight(show(numbers.saddleHeight, "mm", 1)));
  if (numbers.saddleSetback !== null) told.push(words.drawing.setback(show(numbers.saddleSetback, "mm", 1)));
  if (OPEN_SHOWN.some((setting) => isOpen(state, setting))) told.push(`${words.questions.title}.`);
  if (p.known.bar) told.push(words.drawing.bar(show(p.bar.x, "mm", 1), show(p.bar.y, "mm", 1)));
  if (p.target !== null) told.push(words.drawing.targetAt(show(p.target.x, "mm", 1), show(p.target.y, "mm", 1)));
  if (p.known.front && p.known.rear) told.push(words.drawing.wheelbase(show(p.front.x - p.rear.x, "mm", 0)));
  if (Object.values(p.known).includes(false)) told.push(words.drawing.dashed);
  return told.join(" ");
}
