/** Tyre on its rim in section, between the frame's two sides: inner width, width, and the room that is left. */

import { formatNumber, show } from "../units";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { fitted } from "./fit";
import { Axis, Drawing, round } from "./plan";
import { num, or } from "./reading";
import { rimPath, tyrePath } from "./tyre-section";
import { drawingWords as say } from "./words";

export function RimFitDrawing({ inputs, outputs }: FigureProps) {
  const given = (name: string) => num(inputs, name);
  const marked = given("tyre_width");
  const measured = given("tyre_measured");
  const width = Math.max(10, measured ?? marked ?? 32);
  const rim = Math.max(6, or(given("rim_inner_width"), 21));
  const frame = given("frame_gap");
  const left = num(outputs, "gap_left");
  const margin = given("margin");
  const gap = Math.max(frame ?? width + 16, width * 0.6);
  const tight = outputs?.["clearance_ok"] === false;
  const known = marked !== null && given("rim_inner_width") !== null;
  const height = width * 0.94;
  const sheet = fitted(
    { left: -gap / 2 - 12, right: gap / 2 + 12, bottom: -26, top: height + 4 },
    { left: 8, right: 8, bottom: 56, top: 60 },
    380,
  );
  const at = (x: number, y: number) => sheet.at(x, y);
  const belly = at(0, height * 0.52).y;
  const foot = at(0, -26).y + 20;
  const stay = (side: 1 | -1) => {
    const [inner, outer] = [at((side * gap) / 2, 0).x, at(side * (gap / 2 + 9), 0).x];
    return (
      <rect
        class={frame === null ? "member member-guess" : "member stay"}
        x={round(Math.min(inner, outer))}
        y="52"
        width={round(Math.abs(outer - inner))}
        height={round(at(0, -14).y - 52)}
      />
    );
  };
  const edge = (mm: number) => at(mm, 0).x;
  const shown = (value: number | null) => (value === null ? null : show(value, "mm", 1));
  return (
    <Drawing plan={sheet} says={say.rimFit(shown(measured ?? marked), shown(given("rim_inner_width")), shown(left))}>
      {stay(-1)}
      {stay(1)}
      <Axis from={{ x: sheet.width / 2, y: 44 }} to={{ x: sheet.width / 2, y: foot + 2 }} />
      <path class="member member-filled rim-section" d={rimPath(sheet, rim, inputs["hookless"] === true)} />
      <path class={known ? "member tyre-casing" : "member member-guess"} d={tyrePath(sheet, width, rim, height)} />
      <path
        class="extension"
        d={`M${round(edge(-rim / 2))} ${round(at(0, 0).y)} V${round(foot + 5)} M${round(edge(rim / 2))} ${round(at(0, 0).y)} V${round(foot + 5)}`}
      />
      <Dimension
        from={{ x: edge(-rim / 2), y: foot }}
        to={{ x: edge(rim / 2), y: foot }}
        text={given("rim_inner_width") === null ? "?" : formatNumber(rim, 1)}
      />
      <path
        class="extension"
        d={`M${round(edge(-width / 2))} ${round(belly)} V32 M${round(edge(width / 2))} ${round(belly)} V32`}
      />
      <Dimension
        from={{ x: edge(-width / 2), y: 37 }}
        to={{ x: edge(width / 2), y: 37 }}
        text={marked === null && measured === null ? "?" : formatNumber(width, 1)}
        tone="blue"
      />
      <path class="extension" d={`M${round(edge(-gap / 2))} 50 V8 M${round(edge(gap / 2))} 50 V8`} />
      <Dimension
        from={{ x: edge(-gap / 2), y: 13 }}
        to={{ x: edge(gap / 2), y: 13 }}
        text={frame === null ? "?" : formatNumber(frame, 1)}
      />
      {margin === null || frame === null ? null : (
        <path
          class="pointer pointer-stop pointer-dashed"
          d={`M${round(edge(-gap / 2 + margin))} 52 V${round(at(0, -14).y)} M${round(edge(gap / 2 - margin))} 52 V${round(at(0, -14).y)}`}
        />
      )}
      {left === null ? null : (
        <text class={tight ? "stop" : "blue"} x={sheet.width / 2} y={round(sheet.height - 6)} text-anchor="middle">
          {say.eachSide(show(left, "mm", 1))}
        </text>
      )}
    </Drawing>
  );
}
