/** A hose, a chain or a post laid straight: where each route would cut it, the longer one to be marked. */

import { Dimension } from "../../drawing/dimension";
import { Drawing, plan, round } from "../../drawing/plan";
import type { CutCard } from "../../kernel/build-types";
import { formatNumber } from "../../units";
import { roundedUp } from "./rounded-up";
import { w } from "./words";

const HALF = 9;

export function CutDrawing({ card }: { card: CutCard }) {
  const [first, second] = card.routes.map((route) => route.value);
  const longest = Math.max(first ?? 0, second ?? 0);
  const end = longest > 0 ? longest * 1.14 : 100;
  const sheet = plan(
    { left: 0, right: end, bottom: -end * 0.06, top: end * 0.06 },
    { left: 12, right: 12, bottom: 62, top: 34 },
  );
  const y = sheet.at(0, 0).y;
  const x = (value: number) => round(sheet.at(value, 0).x);
  const figure = (value: number) => formatNumber(roundedUp(value, card.unit === "mm" ? 1 : 0), 1);
  const lineClass = (value: number) => (!card.open ? "cut cut-open" : value === card.number ? "cut" : "member-thin");
  const links = card.what === "chain" ? Array.from({ length: 28 }, (_, i) => x((end * (i + 0.5)) / 28)) : [];
  return (
    <Drawing plan={sheet} says={w.cut.drawing(card.title, card.number === null ? "" : `${figure(card.number)} ${card.unit}`)}>
      {card.what === "chain" ? (
        links.map((at) => (
          <g key={at}>
            <rect class="member-thin member-filled" x={at - 5} y={y - 5} width="10" height="10" rx="5" />
          </g>
        ))
      ) : (
        <>
          <rect class="member member-filled" x={x(0)} y={y - HALF} width={round(x(longest || end) - x(0))} height={HALF * 2} />
          <rect
            class="member member-guess"
            x={x(longest || end)}
            y={y - HALF}
            width={round(x(end) - x(longest || end))}
            height={HALF * 2}
          />
        </>
      )}
      {[first, second].map((value, i) =>
        value === null || value === undefined ? null : (
          <g key={i === 0 ? "first" : "second"}>
            <path class={lineClass(value)} d={`M${x(value)} ${y - 22} V${y + 26 + i * 24}`} />
            <Dimension
              from={{ x: x(0), y: y + 22 + i * 24 }}
              to={{ x: x(value), y: y + 22 + i * 24 }}
              text={figure(value)}
              tone={!card.open ? "stop" : value === card.number ? "blue" : "ink"}
            />
          </g>
        ),
      )}
      {longest === 0 ? (
        <text class="words" x={sheet.width / 2} y={y + 40} text-anchor="middle">
          {w.cut.notMeasured}
        </text>
      ) : null}
    </Drawing>
  );
}
