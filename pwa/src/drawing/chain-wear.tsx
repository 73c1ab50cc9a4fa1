/** A new chain over the worn one from the same pin; the wear drawn larger, and by how much is said. */

import { show } from "../units";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { Drawing, round } from "./plan";
import { num } from "./reading";
import { drawingWords as say } from "./words";

const LINKS = 12;
const FIRST = 20;
/** A worn-out chain stands this share longer on the sheet. */
const AT_LIMIT = 0.12;

export function ChainWearDrawing({ outputs }: FigureProps) {
  const elongation = num(outputs, "elongation");
  const limit = num(outputs, "limit");
  const factor = Math.round((AT_LIMIT * 100) / (limit ?? 0.5));
  const pitch = 268 / LINKS;
  const stretch = elongation === null ? 1 : Math.max(0.9, Math.min(1.25, 1 + (elongation / 100) * factor));
  const height = 172;
  const sheet = { width: 360, height, scale: 1, at: (x: number, y: number) => ({ x, y: -y }) };
  const end = FIRST + LINKS * pitch;
  const worn = FIRST + LINKS * pitch * stretch;
  const atLimit = FIRST + LINKS * pitch * (1 + AT_LIMIT);
  const over = elongation !== null && limit !== null && elongation >= limit;
  const shown = (value: number | null) => (value === null ? null : show(value, "%", 2));
  return (
    <Drawing plan={sheet} says={say.chainWear(shown(elongation), shown(limit), factor)}>
      <path class="extension" d={`M${FIRST} 24 V${height - 34} M${end} 58 V${height - 34}`} />
      <path class="pointer pointer-stop pointer-dashed" d={`M${round(atLimit)} 24 V${height - 40}`} />
      <text class="words stop" x={round(atLimit) + 20} y="15" text-anchor="end">
        {limit === null ? say.limit : `${say.limit} ${show(limit, "%", 2)}`}
      </text>
      <text class="words" x={FIRST} y="15">
        {say.newChain}
      </text>
      <Strand y={42} pitch={pitch} style="member member-thin member-filled" />
      <text class="words" x={FIRST} y="82">
        {say.wornChain(factor)}
      </text>
      <Strand
        y={106}
        pitch={pitch * stretch}
        style={elongation === null ? "member member-guess" : "member member-filled link-worn"}
      />
      {elongation === null ? null : (
        <>
          <path class="extension" d={`M${round(worn)} 120 V${height - 34}`} />
          <Dimension from={{ x: end, y: height - 40 }} to={{ x: worn, y: height - 40 }} text="" tone={over ? "stop" : "blue"} />
          <text class={over ? "stop" : "blue"} x={end - 20} y={height - 35} text-anchor="end">
            {show(elongation, "%", 2)}
          </text>
        </>
      )}
    </Drawing>
  );
}

/** Outer and inner plates in turn, pin to pin. */
function Strand({ y, pitch, style }: { y: number; pitch: number; style: string }) {
  const links = Array.from({ length: LINKS }, (_, i) => FIRST + i * pitch);
  const plate = (x: number, half: number) =>
    `M${round(x)} ${y - half} C${round(x + pitch / 2)} ${y - half * 0.4} ${round(x + pitch / 2)} ${y - half * 0.4} ${round(x + pitch)} ${y - half} A${half} ${half} 0 0 1 ${round(x + pitch)} ${y + half} C${round(x + pitch / 2)} ${y + half * 0.4} ${round(x + pitch / 2)} ${y + half * 0.4} ${round(x)} ${y + half} A${half} ${half} 0 0 1 ${round(x)} ${y - half} Z`;
  return (
    <g>
      {links.map((x, i) => (i % 2 === 1 ? <path key={x} class={style} d={plate(x, 7)} /> : null))}
      {links.map((x, i) => (i % 2 === 0 ? <path key={x} class={style} d={plate(x, 9)} /> : null))}
      {[...links, FIRST + LINKS * pitch].map((x) => (
        <circle key={x} class="pin" cx={round(x)} cy={y} r="2.6" />
      ))}
    </g>
  );
}
