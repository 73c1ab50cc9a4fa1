/** Every word of the sheets for measuring with the phone, fetched with them; the way in has its own, see enter.ts. */

import { spoken } from "../languages/spoken";
import type { EntryWords } from "./enter";

export const english = {
  angleTitle: "Angle with the phone",
  toneTitle: "Tone with the phone",
  stopTitle: "Stop with the phone",
  private: "Nothing is kept or sent but the figure you take.",
  start: "Start",
  refused: "Not allowed here. Allow it in the browser's settings, or type the figure.",
  none: "No readings on this phone. Type the figure.",
  take: (figure: string) => `Take ${figure}`,
  again: "Again",
  spread: (figure: string) => `± ${figure}`,
  angle: {
    how: "Lay the long edge along the part, top end to the front; on a tube, top end up.",
    cautions: [
      "The ± is of the reading. A case, a button, a soft saddle or a floor out of level come on top.",
      "Where a rule or a maker gives the angle, their own jig decides.",
    ],
    unsteady: "Not still: hands off.",
    still: "Still.",
    first: "1 of 2: as it lies.",
    turned: "2 of 2: turned end for end, in the same place. The phone's own error falls out.",
    read: "Read",
    single: "Or lay it on a surface known to be level:",
    level: "This is level",
    zeroed: (figure: string) => `Zero taken out: ${figure}`,
    result: "Angle",
    keep: "Keep for the other side",
    differs: "To the other side",
  },
  tone: {
    how: "Mute the others, phone within a hand's breadth. Pluck near the middle of the free part, three times or more.",
    cautions: [
      "Eye protection: a spoke can let go.",
      "Good for comparing spokes. How tight, a tension gauge tells; the rim maker's figure governs.",
    ],
    listening: "Listening",
    plucks: (count: number) => (count === 1 ? "1 pluck" : `${count} plucks`),
    more: "Three plucks at least.",
    octave: "Not usual for this spoke, but its octave is. Pluck nearer the middle; compare a neighbour.",
    outside: "Not usual for this spoke. Check length and diameter.",
    apart: "The plucks differ by more than 3 %: mute the others.",
  },
  stop: {
    how: "Phone on the bike or in a pocket, screen on. Start, ride off, hold the speed for five seconds, brake to a standstill, wait two.",
    cautions: [
      "Closed or empty road, dry and level, helmet on, never in traffic. From walking pace first; faster only when that was sound.",
      "Do not look at the phone while riding.",
      "A phone's speed lags. This is no type test, and says nothing of wear or cracks.",
    ],
    searching: "Looking for the place.",
    watching: (accuracy: string) => `Place known to ${accuracy}.`,
    poor: "No speed from here. If none comes while riding, type it from a wheel sensor.",
    waiting: "No stop seen yet.",
    coarse: "Too coarse for the distance: measure it with a tape, from where the brake went on.",
    speed: "Speed",
    distance: "Distance",
  },
};

/** What a language says, of the sheets and of the way in. */
export type SensorWords = typeof english & EntryWords;

export const w: typeof english = spoken("sensors", english);
