/** A figure that cannot be true is asked about before it is recorded. The person may know better, and then it is recorded. */

import type { ComponentChildren } from "preact";
import { useRef, useState } from "preact/hooks";
import { LevelSign } from "../../controls/finding";
import { Sheet } from "../../controls/sheet";
import type { Doubt } from "../../kernel/use-types";
import { w } from "./use-words";

interface Asking {
  /** True where nothing speaks against it, else when the person says so; false for a second touch while it is asked. */
  sure: (doubts: () => Promise<Doubt[]>) => Promise<boolean>;
  /** The question, to be put somewhere on the sheet. */
  question: ComponentChildren;
}

export function useDoubts(subject: string): Asking {
  const [asked, setAsked] = useState<{ doubts: Doubt[]; answer: (sure: boolean) => void } | null>(null);
  const answered = (sure: boolean) => {
    asked?.answer(sure);
    setAsked(null);
  };
  const asking = useRef(false);
  return {
    sure: async (doubts) => {
      if (asking.current) return false;
      asking.current = true;
      try {
        const found = await doubts();
        if (found.length === 0) return true;
        return await new Promise<boolean>((answer) => setAsked({ doubts: found, answer }));
      } finally {
        asking.current = false;
      }
    },
    question:
      asked === null ? null : (
        <Doubts doubts={asked.doubts} subject={subject} onAgain={() => answered(false)} onSure={() => answered(true)} />
      ),
  };
}

interface Props {
  doubts: Doubt[];
  subject: string;
  onAgain: () => void;
  onSure: () => void;
}

function Doubts({ doubts, subject, onAgain, onSure }: Props) {
  const renewed = doubts.some((one) => one.likely === "renewed");
  return (
    <Sheet title={w.doubt.title} onClose={onAgain}>
      <ul class="reasons" data-of-form>
        {doubts.map((one) => (
          <li key={one.text}>
            <LevelSign level={one.level ?? "care"} />
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
      {doubts.some((one) => one.likely === "impossible") ? null : (
        <button type="button" class="button wide" onClick={onSure}>
          {w.doubt.soIs}
        </button>
      )}
    </Sheet>
  );
}
