/** The bar from above, straight and turned to both ends, and the line the hose has to reach. */

import { formatNumber, show } from "../units";
import type { FigureProps } from "./catalogue";
import { fitted, turned } from "./fit";
import { Axis, Datum, Drawing, type Point, round, through } from "./plan";
import { num, or } from "./reading";
import { drawingWords as say } from "./words";

/** For the drawing only, mm. */
const BAR = { half: 200, forward: 95 };

export function HoseDrawing({ inputs, outputs }: FigureProps) {
  const given = (name: string) => num(inputs, name);
  // From above with forward up the sheet: the bike's left is the sheet's left.
  const plane = (forward: number, side: number): Point => ({ x: -side, y: forward });
  const port = plane(or(given("port_forward"), -45), or(given("port_side"), 0));
  const tie = plane(or(given("anchor_forward"), 70), or(given("anchor_side"), 40));
  const known = ["port_forward", "port_side", "anchor_forward", "anchor_side"].every((name) => given(name) !== null);
  const turn = or(given("turn"), 90);
  const worst = num(outputs, "worst_turn");
  const needed = num(outputs, "slack_needed");
  const slack = given("current_slack");
  const short = needed !== null && slack !== null && slack < needed;
  const sheet = fitted(
    { left: -BAR.half - 20, right: BAR.half + 20, bottom: Math.min(-BAR.half - 10, port.y - 20), top: BAR.half + 10 },
    { left: 6, right: 6, bottom: 30, top: 8 },
    390,
  );
  const at = (point: Point) => sheet.at(point.x, point.y);
  const turns = [...new Set([0, turn, -turn, ...(worst === null ? [] : [worst])])];
  const bar = (angle: number) => {
    const p = (x: number, y: number) => at(turned({ x, y }, angle));
    return `${through(p(-BAR.half, BAR.forward - 20), p(-BAR.half, BAR.forward), p(BAR.half, BAR.forward), p(BAR.half, BAR.forward - 20))} ${through(p(0, 0), p(0, BAR.forward))}`;
  };
  const side = worst === null || worst === 0 ? null : worst > 0 ? say.left : say.right;
  return (
    <Drawing plan={sheet} says={say.hose(needed === null ? null : show(needed, "mm", 0), side)}>
      <Axis from={at({ x: 0, y: BAR.half })} to={at({ x: 0, y: -BAR.half })} />
      {/* the top tube, running back */}
      <path
        class="member member-thin"
        d={`${through(at({ x: -18, y: -24 }), at({ x: -14, y: -BAR.half }))} ${through(at({ x: 18, y: -24 }), at({ x: 14, y: -BAR.half }))}`}
      />
      <circle
        class="member member-thin member-filled"
        cx={round(at({ x: 0, y: 0 }).x)}
        cy={round(at({ x: 0, y: 0 }).y)}
        r={round(26 * sheet.scale)}
      />
      {turns.map((angle) => (
        <path
          key={`bar ${angle}`}
          class={
            angle === 0 && known ? "member member-ink" : angle === worst || angle === 0 ? "member member-guess" : "extension"
          }
          d={bar(angle)}
        />
      ))}
      <Datum at={at({ x: 0, y: 0 })} size={7} />
      {turns.map((angle) => (
        <path
          key={`hose ${angle}`}
          class={angle === worst ? `member ${short ? "hose-short" : "member-blue"}` : "member member-thin"}
          d={through(at(port), at(turned(tie, angle)))}
        />
      ))}
      {turns.map((angle) => (
        <circle
          key={`tie ${angle}`}
          class="member member-thin member-filled"
          cx={round(at(turned(tie, angle)).x)}
          cy={round(at(turned(tie, angle)).y)}
          r="4"
        />
      ))}
      <circle
        class={known ? "member member-filled" : "member member-guess"}
        cx={round(at(port).x)}
        cy={round(at(port).y)}
        r="5"
      />
      <text class="words" x={round(at(port).x + 12)} y={round(at(port).y + 14)}>
        {say.port}
      </text>
      <text class="words" x={round(at(tie).x - 8)} y={round(at(tie).y - 8)} text-anchor="end">
        {say.tie}
      </text>
      <text x={sheet.width / 2} y={round(sheet.height - 8)} text-anchor="middle" class={short ? "stop" : "blue"}>
        {needed === null
          ? "?"
          : `${say.needs(show(needed, "mm", 0))}${slack === null ? "" : ` · ${say.has(show(slack, "mm", 0))}`}`}
      </text>
      {worst === null || worst === 0 ? null : (
        <text
          class={short ? "stop" : "blue"}
          x={round(at(turned(tie, worst)).x + (worst > 0 ? -10 : 10))}
          y={round(at(turned(tie, worst)).y + 22)}
          text-anchor={worst > 0 ? "end" : "start"}
        >
          {formatNumber(Math.abs(worst), 0)}°
        </text>
      )}
    </Drawing>
  );
}
