/** The bolts of a joint and the order they are tightened in: crosswise on a ring, alternately on a line. */

import { Drawing, plan, round, through } from "../../drawing/plan";
import type { TorqueCard } from "../../kernel/build-types";
import { w } from "./words";

const BOLT = 17;
/** A bolt that comes up twice has room for both numbers. */
const WIDE_BOLT = 26;

export function BoltDrawing({ card }: { card: TorqueCard }) {
  const ring = card.order === "crosswise";
  const sheet = plan(
    { left: -170, right: 170, bottom: ring ? -70 : -30, top: ring ? 70 : 30 },
    { left: 0, right: 0, bottom: 8, top: 8 },
  );
  const centre = sheet.at(0, 0);
  const reach = ring ? 56 : 60;
  // Bolts are numbered round the ring from the upper left, as one looks at the face.
  const spot = (bolt: number) => {
    if (!ring) return { x: centre.x + (bolt === 1 ? -reach : reach), y: centre.y };
    const turn = ((bolt - 1) / card.bolts) * 2 * Math.PI - (card.bolts === 4 ? (3 * Math.PI) / 4 : Math.PI / 2);
    const wide = card.bolts === 4 ? 1.25 : 1;
    return { x: centre.x + reach * wide * Math.cos(turn), y: centre.y + reach * Math.sin(turn) };
  };
  const path = card.sequence.map(spot);
  const nth = (bolt: number) => card.sequence.flatMap((one, i) => (one === bolt ? [i + 1] : []));
  const bolts = Array.from({ length: card.bolts }, (_, i) => i + 1);
  return (
    <figure>
      <Drawing plan={sheet} says={w.torque.sequence(card.order, card.sequence)}>
        {ring ? <path class="dimension-line bolt-way" d={through(...path)} /> : null}
        {ring ? null : (
          <path
            class="dimension-line bolt-way"
            d={`M${round(centre.x - reach)} ${round(centre.y)} H${round(centre.x + reach)}`}
          />
        )}
        {bolts.map((bolt) => {
          const at = spot(bolt);
          return (
            <g key={bolt}>
              <circle class="member member-filled" cx={round(at.x)} cy={round(at.y)} r={ring ? BOLT : WIDE_BOLT} />
              <text class="bolt-number" x={round(at.x)} y={round(at.y + 6)} text-anchor="middle">
                {nth(bolt).join(" · ")}
              </text>
            </g>
          );
        })}
      </Drawing>
      <figcaption class="quiet">{w.torque.order(card.order)}</figcaption>
    </figure>
  );
}
