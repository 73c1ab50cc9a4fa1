/** A button that repeats while it is held: once at once, then slowly, then fast. */

import { useEffect, useRef } from "preact/hooks";
import { buzz } from "../device";

const FIRST = 420;
const SLOW = 130;
const FAST = 55;
const FAST_AFTER = 10;

export function useRepeat(act: () => void) {
  const latest = useRef(act);
  latest.current = act;
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const stop = () => clearTimeout(timer.current);
  useEffect(() => stop, []);
  return {
    onPointerDown: (event: PointerEvent) => {
      if (event.button !== 0) return;
      stop();
      latest.current();
      buzz();
      let times = 0;
      const again = () => {
        times += 1;
        latest.current();
        timer.current = setTimeout(again, times > FAST_AFTER ? FAST : SLOW);
      };
      timer.current = setTimeout(again, FIRST);
    },
    onPointerUp: stop,
    onPointerLeave: stop,
    onPointerCancel: stop,
    onContextMenu: (event: Event) => event.preventDefault(),
    onClick: (event: MouseEvent) => {
      // A click without a pointer: a key, or a reader of the screen.
      if (event.detail === 0) latest.current();
    },
  };
}
