/** The rim with the gauge's four gaps, and the hanger's lean as seen from above and from behind, drawn larger. */

import { formatNumber, show } from "../units";
import type { FigureProps } from "./catalogue";
import { magnified, turned } from "./fit";
import { Axis, Datum, Drawing, round, through } from "./plan";
import { num } from "./reading";
import { drawingWords as say } from "./words";

const RIM = { x: 112, y: 122, r: 74 };

export function HangerDrawing({ inputs, outputs }: FigureProps) {
  const toe = num(outputs, "toe");
  const camber = num(outputs, "camber");
  const tolerance = num(inputs, "tolerance");
  const spread = num(outputs, "spread");
  const bent = spread !== null && tolerance !== null && spread > tolerance;
  const off = (a: string, b: string) => {
    const [one, other] = [num(inputs, a), num(inputs, b)];
    return one !== null && other !== null && tolerance !== null && Math.abs(one - other) > tolerance;
  };
  const most = Math.max(Math.abs(toe ?? 0), Math.abs(camber ?? 0));
  const factor = most === 0 ? 1 : magnified(most, 8, [1, 2, 5, 10, 20]);
  const sheet = { width: 360, height: 262, scale: 1, at: (x: number, y: number) => ({ x, y: -y }) };
  const gaps = (
    [
      ["gap_12", 0, -1],
      ["gap_3", 1, 0],
      ["gap_6", 0, 1],
      ["gap_9", -1, 0],
    ] as const
  ).map(([name, x, y]) => ({ name, x, y, value: num(inputs, name) }));
  const values = gaps.flatMap((gap) => (gap.value === null ? [] : [gap.value]));
  const [least, largest] = [Math.min(...values), Math.max(...values)];
  const shown = (value: number | null) => (value === null ? null : show(value, "°", 2));
  return (
    <Drawing plan={sheet} says={say.hanger(shown(toe), shown(camber))}>
      <circle class={values.length === 4 ? "member member-ink" : "member member-guess"} cx={RIM.x} cy={RIM.y} r={RIM.r} />
      <circle class="member member-thin" cx={RIM.x} cy={RIM.y} r={RIM.r - 8} />
      <Axis from={{ x: RIM.x - RIM.r - 6, y: RIM.y }} to={{ x: RIM.x + RIM.r + 6, y: RIM.y }} />
      <Axis from={{ x: RIM.x, y: RIM.y - RIM.r - 6 }} to={{ x: RIM.x, y: RIM.y + RIM.r + 6 }} />
      <Datum at={{ x: RIM.x, y: RIM.y }} />
      {gaps.map((gap) => {
        const extreme = values.length === 4 && spread !== null && spread > 0 && (gap.value === least || gap.value === largest);
        return (
          <g key={gap.name}>
            <circle
              class={`member ${extreme ? (bent ? "hose-short" : "member-blue") : "member-ink"} member-filled`}
              cx={RIM.x + gap.x * RIM.r}
              cy={RIM.y + gap.y * RIM.r}
              r="6"
            />
            <text
              class={extreme ? (bent ? "stop" : "blue") : undefined}
              x={RIM.x + gap.x * (RIM.r + 12)}
              y={RIM.y + gap.y * (RIM.r + 18) + 5}
              text-anchor={gap.x === 0 ? "middle" : gap.x > 0 ? "start" : "end"}
            >
              {gap.value === null ? "?" : formatNumber(gap.value, 1)}
            </text>
          </g>
        );
      })}
      <Lean x={292} y={76} angle={toe} factor={factor} title={say.fromAbove} level bent={off("gap_3", "gap_9")} />
      <Lean x={292} y={186} angle={camber} factor={factor} title={say.fromBehind} bent={off("gap_12", "gap_6")} />
      <text class="words" x="180" y="254" text-anchor="middle">
        {[
          spread === null ? null : say.spread(show(spread, "mm", 1), tolerance === null ? null : show(tolerance, "mm", 1)),
          most === 0 ? null : say.leanDrawn(factor),
        ]
          .filter((part) => part !== null)
          .join(" · ")}
      </text>
    </Drawing>
  );
}

interface LeanProps {
  x: number;
  y: number;
  angle: number | null;
  factor: number;
  title: string;
  level?: boolean;
  bent: boolean;
}

/** The wheel's plane as an axis, the hanger's as a member across it. */
function Lean({ x, y, angle, factor, title, level = false, bent }: LeanProps) {
  const centre = { x, y };
  const reach = 42;
  const ends = (degrees: number) =>
    ([1, -1] as const).map((side) => {
      const p = turned(level ? { x: side * reach, y: 0 } : { x: 0, y: side * reach * 0.8 }, degrees);
      return { x: centre.x + p.x, y: centre.y + p.y };
    }) as [{ x: number; y: number }, { x: number; y: number }];
  const [a, b] = ends(0);
  return (
    <g>
      <text class="words" x={x} y={y - 44} text-anchor="middle">
        {title}
      </text>
      <Axis from={a} to={b} />
      <path
        class={`member ${angle === null ? "member-guess" : bent ? "hose-short" : "member-blue"}`}
        d={through(...ends(angle === null ? 0 : Math.max(-40, Math.min(40, angle * factor))))}
      />
      <text x={level ? x : x + 14} y={round(y + (level ? 32 : 5))} text-anchor={level ? "middle" : "start"}>
        {angle === null ? "?" : `${formatNumber(Math.abs(angle), 2)}°`}
      </text>
    </g>
  );
}
