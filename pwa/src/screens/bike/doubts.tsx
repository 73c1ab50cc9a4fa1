/** A figure that cannot be true is asked about before it is recorded. The person may know better, and then it is recorded. */

import { LevelSign } from "../../controls/finding";
import { Sheet } from "../../controls/sheet";
import type { Doubt } from "../../kernel/use-types";
import { w } from "./use-words";

interface Props {
  doubts: Doubt[];
  subject: string;
  busy: boolean;
  onAgain: () => void;
  onSure: () => void;
}

export function Doubts({ doubts, subject, busy, onAgain, onSure }: Props) {
  const renewed = doubts.some((one) => one.likely === "renewed");
  return (
    <Sheet title={w.doubt.title} onClose={onAgain}>
      <ul class="reasons">
        {doubts.map((one) => (
          <li key={one.text}>
            <LevelSign level="care" />
            <span>
              {one.text} {w.doubt.likely[one.likely]}
            </span>
          </li>
        ))}
      </ul>
      <button type="button" class="button main wide" onClick={onAgain}>
        {w.doubt.again}
      </button>
      {renewed ? (
        <a class="button wide" href={`/${subject}/parts`}>
          {w.doubt.fit}
        </a>
      ) : null}
      <button type="button" class="button wide" disabled={busy} onClick={onSure}>
        {w.doubt.soIs}
      </button>
    </Sheet>
  );
}
