/** Small drawings for a rider's check: what to take hold of, and which way to push. Told in the words beside them. */

import "./self-drawing.css";

/** A wheel with its tyre, a frame, a bar: the same few strokes, with the hand's way as arrows. */
const WHEEL = "M60 50m-34 0a34 34 0 1 0 68 0a34 34 0 1 0 -68 0 M60 50m-28 0a28 28 0 1 0 56 0a28 28 0 1 0 -56 0 M60 50h.1";
const BIKE =
  "M28 70m-18 0a18 18 0 1 0 36 0a18 18 0 1 0 -36 0 M96 70m-18 0a18 18 0 1 0 36 0a18 18 0 1 0 -36 0 M28 70L52 70L44 38L82 36L52 70M28 70L44 38M82 36L96 70M80 30L86 26M40 32H50";
const BARS = "M20 44H100M20 44v14M100 44v14M60 44V80M50 80h20";
const CRANK = "M60 50m-16 0a16 16 0 1 0 32 0a16 16 0 1 0 -32 0 M60 50L86 74M80 76h14M60 50L34 26M26 24h14";

const DRAWN: Record<string, { still: string; moves: string }> = {
  "wheels-in": { still: WHEEL, moves: "M110 28L96 40M96 40l2 -9M96 40l9 -2" },
  tyres: { still: WHEEL, moves: "M60 2V16M60 16l-5 -6M60 16l5 -6M14 60a48 48 0 0 0 22 30M36 90l-9 0M36 90l-1 -9" },
  "wheels-straight": { still: `${WHEEL}M100 30v40M20 30v40`, moves: "M14 60a48 48 0 0 0 22 30M36 90l-9 0M36 90l-1 -9" },
  "front-stop": { still: BIKE, moves: "M70 12H108M108 12l-7 -5M108 12l-7 5M88 22c6 0 10 2 12 6" },
  "rear-stop": { still: BIKE, moves: "M52 12H14M14 12l7 -5M14 12l7 5M88 22c6 0 10 2 12 6" },
  "bar-tight": {
    still: BARS,
    moves: "M28 30a40 20 0 0 1 30 -14M28 30l1 -9M28 30l8 -4M92 58a40 20 0 0 1 -24 12M92 58l-1 9M92 58l-8 3",
  },
  steering: { still: BARS, moves: "M20 30a44 26 0 0 1 80 0M20 30l0 -9M20 30l8 -4M100 30l0 -9M100 30l-8 -4" },
  saddle: {
    still: "M30 40c16 -8 40 -8 64 -2c-14 8 -40 8 -64 2M58 44L52 86M44 86h18",
    moves: "M60 6V26M60 26l-5 -6M60 26l5 -6M20 26a40 14 0 0 1 24 -10M20 26l1 -8M20 26l8 -3",
  },
  "chain-run": {
    still:
      "M34 50m-12 0a12 12 0 1 0 24 0a12 12 0 1 0 -24 0 M86 54m-20 0a20 20 0 1 0 40 0a20 20 0 1 0 -40 0 M34 38L86 34M34 62L86 74",
    moves: "M112 40a30 30 0 0 0 -22 -18M112 40l-9 -2M112 40l3 -9",
  },
  "pedals-cranks": { still: CRANK, moves: "M8 74H34M34 74l-6 -5M34 74l-6 5M8 74l6 -5M8 74l6 5" },
  cracks: { still: "M14 30L60 40L106 24M60 40L64 90M54 38c4 6 10 6 14 0", moves: "M76 44l6 8l-4 4l8 8l-3 5" },
  "loose-things": { still: BIKE, moves: "M60 2V16M60 16l-5 -6M60 16l5 -6" },
};

export function SelfDrawing({ item }: { item: string }) {
  const drawn = DRAWN[item];
  if (drawn === undefined) return null;
  return (
    <svg class="self-drawing" viewBox="0 0 120 96" aria-hidden="true" focusable="false">
      <path d={drawn.still} />
      <path class="self-moves" d={drawn.moves} />
    </svg>
  );
}
