/** A QR code as one path of squares. */

import { useMemo } from "preact/hooks";
import { encode } from "uqr";

/** Four modules of quiet around it, as ISO/IEC 18004 wants. */
const QUIET = 4;

export function Qr({ text, label }: { text: string; label: string }) {
  const { size, path } = useMemo(() => {
    const made = encode(text, { ecc: "M", border: QUIET });
    const squares = made.data.flatMap((line, y) => line.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : [])));
    return { size: made.size, path: squares.join("") };
  }, [text]);
  return (
    <svg class="qr" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={label} shape-rendering="crispEdges">
      <path class="qr-ground" d={`M0 0h${size}v${size}h-${size}z`} />
      <path class="qr-ink" d={path} />
    </svg>
  );
}
