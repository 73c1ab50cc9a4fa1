/** What the sheets of all tools have in common: how to, with what care, the start, and what happens to what is heard. */

import type { ComponentChildren } from "preact";
import { Caution } from "../controls/caution";
import { Sheet } from "../controls/sheet";
import type { Reading } from "./use-reading";
import { w } from "./words";

interface Props {
  title: string;
  words: { how: string; cautions: string[] };
  reading: Reading;
  onClose: () => void;
  children: ComponentChildren;
}

export function ToolSheet({ title, words, reading, onClose, children }: Props) {
  return (
    <Sheet title={title} onClose={onClose}>
      <p>{words.how}</p>
      <Caution lines={words.cautions} />
      {reading.state === "refused" || reading.state === "none" ? <p role="alert">{w[reading.state]}</p> : null}
      {reading.state === "running" ? (
        children
      ) : (
        <button type="button" class="button main wide" onClick={() => void reading.start()}>
          {w.start}
        </button>
      )}
      <p class="quiet">{w.private}</p>
    </Sheet>
  );
}

/** One figure and how sure it is, as large as what it is for. */
export function Sensed({ label, figure, spread }: { label?: string; figure: string; spread: string | null }) {
  return (
    <p class="sensed">
      {label === undefined ? null : <span>{label}</span>}
      <strong class="figure">{figure}</strong>
      {spread === null ? null : <span class="figure">{w.spread(spread)}</span>}
    </p>
  );
}
