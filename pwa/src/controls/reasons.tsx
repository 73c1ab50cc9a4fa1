/** Why it came to what it came to, the gravest first; nothing where there is none. */

import type { Reason } from "../kernel/types";
import { said } from "../languages/spoken";
import { words } from "../words";
import { LevelSign } from "./finding";

export function Reasons({ reasons }: { reasons: Reason[] }) {
  if (reasons.length === 0) return null;
  return (
    <ul class="reasons">
      {reasons.map((reason) => (
        <li key={`${reason.entry}${reason.item}${reason.text}`}>
          <LevelSign level={reason.level} />
          <span>
            <span class="unseen">{words.levels[reason.level]}: </span>
            {said(reason.text)}
          </span>
        </li>
      ))}
    </ul>
  );
}
