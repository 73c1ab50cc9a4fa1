/** Whether this is a desk: a screen wide enough for two columns. */

import { useEffect, useState } from "preact/hooks";

const desk = matchMedia("(min-width: 1000px)");

export function useWide(): boolean {
  const [wide, setWide] = useState(desk.matches);
  useEffect(() => {
    const look = () => setWide(desk.matches);
    desk.addEventListener("change", look);
    return () => desk.removeEventListener("change", look);
  }, []);
  return wide;
}
