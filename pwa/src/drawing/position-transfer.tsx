/** The target position over the nearest build, and by how much that misses, in an inset drawn larger. */

import { formatNumber, show } from "../units";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { fitted, magnified } from "./fit";
import { FrontEnd, frontPoints } from "./front-end-parts";
import { Datum, Drawing, type Point, round } from "./plan";
import { num, nums, or, rows } from "./reading";
import { drawingWords as say } from "./words";

const INSET = 56;

export function PositionTransferDrawing({ inputs, outputs }: FigureProps) {
  const given = (name: string) => num(inputs, name);
  const best = (outputs?.["best"] ?? rows(outputs, "options")[0] ?? null) as Record<string, unknown> | null;
  const of = (name: string) => num(Array.isArray(best) ? (best[0] ?? null) : best, name);
  const n = {
    stack: or(given("stack"), 560),
    reach: or(given("reach"), 385),
    headAngle: or(given("head_angle"), 72),
    cover: or(of("headset_cover"), nums(inputs, "headset_covers")[0] ?? 10),
    spacers: or(of("spacers"), 15),
    stemHeight: or(given("stem_height"), 40),
    stemLength: or(of("stem_length"), 100),
    stemAngle: or(of("stem_angle"), -6),
  };
  const known = {
    frame: ["stack", "reach", "head_angle"].every((name) => given(name) !== null),
    stem: of("stem_length") !== null,
  };
  const p = frontPoints(n);
  const [tx, ty] = [given("target_bar_x"), given("target_bar_y")];
  const target = tx !== null && ty !== null ? { x: tx, y: ty } : null;
  const sheet = fitted(
    {
      left: Math.min(-20, p.stemTop.x - 30),
      right: Math.max(p.bar.x, p.headBottom.x, target?.x ?? 0) + 24,
      bottom: -14,
      top: Math.max(p.bar.y, p.stemTop.y, target?.y ?? 0) + 30,
    },
    { left: 10, right: 52, bottom: 12, top: 34 },
    420,
  );
  const at = (point: Point) => sheet.at(point.x, point.y);
  const bb = sheet.at(0, 0);
  const mark = target === null ? null : at(target);
  const [dx, dy, miss] = [of("error_x"), of("error_y"), of("error")];
  const edge = sheet.width - 25;
  const shown = (value: number | null) => (value === null ? null : show(value, "mm", 1));
  return (
    <Drawing plan={sheet} says={say.transfer(shown(tx), shown(ty), shown(miss))}>
      {mark === null ? null : (
        <path
          class="extension"
          d={`M${round(mark.x + 16)} ${round(mark.y)} H${edge + 4} M${round(bb.x + 12)} ${round(bb.y)} H${edge + 4} M${round(mark.x)} ${round(mark.y - 16)} V12 M${round(bb.x)} ${round(bb.y - 12)} V12`}
        />
      )}
      <FrontEnd sheet={sheet} n={n} p={p} known={known} />
      <Datum at={bb} />
      {mark === null ? null : (
        <>
          <Cross at={mark} size={16} />
          <Dimension
            from={{ x: edge, y: bb.y }}
            to={{ x: edge, y: mark.y }}
            text={formatNumber(target?.y ?? 0, 1)}
            tone="blue"
          />
          <Dimension from={{ x: bb.x, y: 17 }} to={{ x: mark.x, y: 17 }} text={formatNumber(target?.x ?? 0, 1)} tone="blue" />
        </>
      )}
      {dx !== null && dy !== null && mark !== null && (
        <Inset dx={dx} dy={dy} scale={sheet.scale} centre={{ x: INSET + 14, y: mark.y + INSET + 16 }} from={mark} />
      )}
    </Drawing>
  );
}

function Cross({ at, size }: { at: Point; size: number }) {
  return (
    <g>
      <circle class="member member-blue" cx={round(at.x)} cy={round(at.y)} r={size * 0.55} />
      <path
        class="member member-blue"
        d={`M${round(at.x - size)} ${round(at.y)} h${2 * size} M${round(at.x)} ${round(at.y - size)} v${2 * size}`}
      />
    </g>
  );
}

interface InsetProps {
  dx: number;
  dy: number;
  scale: number;
  centre: Point;
  from: Point;
}

/** The target in the middle, the bar as it would come out beside it, so much larger that the miss can be seen. */
function Inset({ dx, dy, scale, centre, from }: InsetProps) {
  const most = Math.max(Math.abs(dx), Math.abs(dy));
  const factor = magnified(most * scale, 16, [1, 2, 5, 10, 20, 50]);
  const bar = { x: centre.x + limit(dx * scale * factor), y: centre.y - limit(dy * scale * factor) };
  const signed = (value: number) => `${value > 0.05 ? "+" : ""}${formatNumber(value, 1)}`;
  return (
    <g>
      <path
        class="extension"
        d={`M${round(from.x - 18)} ${round(from.y + 4)} L${round(centre.x + INSET * 0.9)} ${round(centre.y - INSET * 0.44)}`}
      />
      <circle class="member member-thin member-filled" cx={round(centre.x)} cy={round(centre.y)} r={INSET} />
      <Cross at={centre} size={14} />
      <circle class="member member-ink" cx={round(bar.x)} cy={round(bar.y)} r="6" />
      <path class="datum" d={`M${round(bar.x - 10)} ${round(bar.y)} h20 M${round(bar.x)} ${round(bar.y - 10)} v20`} />
      <text class="words" x={round(centre.x)} y={round(centre.y - INSET + 16)} text-anchor="middle">
        {say.times(factor)}
      </text>
      <text x={round(centre.x)} y={round(centre.y + INSET + 18)} text-anchor="middle">
        → {signed(dx)}
      </text>
      <text x={round(centre.x)} y={round(centre.y + INSET + 36)} text-anchor="middle">
        ↑ {signed(dy)}
      </text>
    </g>
  );
}

function limit(value: number): number {
  return Math.max(-INSET + 12, Math.min(INSET - 12, value));
}
