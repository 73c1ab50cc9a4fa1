/** Cautions, set where the work is. */

import { words } from "../words";
import "./caution.css";

export function Caution({ lines }: { lines: string[] }) {
  if (lines.length === 0) return null;
  return (
    <aside class="caution" aria-label={words.caution}>
      <strong>{words.caution}</strong>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </aside>
  );
}
