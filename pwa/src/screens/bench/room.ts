/** The room a calculation's drawing took last time, kept free until it comes: what is below it must not jump under the thumb. */

import type { RefObject } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";

// localStorage and not the phone's database: it must be known before the first paint.
const KEY = "pinchbolt-drawing-room";

interface Room {
  /** The width of the page it was measured in, px; in another the height says nothing. */
  wide: number;
  high: Record<string, number>;
}

function kept(): Room {
  const none = { wide: innerWidth, high: {} };
  try {
    const found = JSON.parse(localStorage.getItem(KEY) ?? "null") as Room | null;
    return found?.wide === innerWidth ? found : none;
  } catch {
    return none;
  }
}

function keepRoom(calculation: string, high: number): void {
  const room = kept();
  if (room.high[calculation] === high) return;
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...room, high: { ...room.high, [calculation]: high } }));
  } catch {
    // Not allowed to keep it: then it jumps.
  }
}

/** For the element around the drawing: what to refer to it by, and its height in px while the drawing is not there. */
export function useRoom(calculation: string): { around: RefObject<HTMLDivElement | null>; high: number | null } {
  const around = useRef<HTMLDivElement>(null);
  const [high, setHigh] = useState(() => kept().high[calculation] ?? null);
  useLayoutEffect(() => {
    const element = around.current;
    if (element === null) return undefined;
    const here = () => element.querySelector("svg") !== null;
    const watching = new ResizeObserver(() => {
      if (here()) keepRoom(calculation, Math.round(element.getBoundingClientRect().height));
    });
    watching.observe(element);
    const coming = new MutationObserver(() => {
      if (here()) setHigh(null);
    });
    coming.observe(element, { childList: true, subtree: true });
    return () => {
      watching.disconnect();
      coming.disconnect();
    };
  }, [calculation]);
  return { around, high };
}
