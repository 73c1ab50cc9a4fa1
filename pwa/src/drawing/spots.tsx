/**
 * Places on a drawing that lead somewhere. A touch goes to the nearest, since a glove covers several; the keyboard and a screen
 * reader reach each by its name.
 */

import type { ComponentChildren } from "preact";
import type { Plan, Point } from "./plan";
import "./spots.css";

export interface Spot {
  key: string;
  /** On the sheet. */
  at: Point;
  name: string;
  open: () => void;
}

/** A touch further from every spot means none of them, sheet units. */
const NEAR = 44;

export function Spots({ plan, spots, children }: { plan: Plan; spots: Spot[]; children: ComponentChildren }) {
  const touch = (event: MouseEvent & { currentTarget: HTMLElement }) => {
    // A key on a spot's button clicks without a place; the button answers it.
    if (event.detail === 0) return;
    const box = event.currentTarget.getBoundingClientRect();
    const scale = plan.width / box.width;
    const far = (spot: Spot) =>
      Math.hypot((event.clientX - box.left) * scale - spot.at.x, (event.clientY - box.top) * scale - spot.at.y);
    const nearest = spots.reduce<Spot | null>((best, one) => (best === null || far(one) < far(best) ? one : best), null);
    if (nearest !== null && far(nearest) <= NEAR) nearest.open();
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the buttons inside are what the keyboard reaches
    // biome-ignore lint/a11y/useKeyWithClickEvents: the same
    <div class="spots" onClick={touch}>
      {children}
      {spots.map((spot) => (
        <button
          key={spot.key}
          type="button"
          class="unseen spot"
          style={{
            insetInlineStart: `${(spot.at.x / plan.width) * 100}%`,
            insetBlockStart: `${(spot.at.y / plan.height) * 100}%`,
          }}
          onClick={(event) => {
            if (event.detail === 0) spot.open();
          }}
        >
          {spot.name}
        </button>
      ))}
    </div>
  );
}
