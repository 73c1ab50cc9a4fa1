/** A plate nobody starts under any more: why, who had it, and the way to them or back onto the list. */

import { Problem } from "../../controls/problem";
import type { Withdrawn } from "../../kernel/lineup-types";
import { words } from "../../words";
import { changesStarts } from "../who";
import { useWriting } from "../writing";
import { startBody } from "./change";
import { nameIn } from "./results";

/** What is known of it in one line: for the sheet, and for who types the plate. */
export function notStartingText(one: Withdrawn): string {
  if (one.now !== null) return words.lineup.isNow(one.now, nameIn(one));
  return words.lineup.startsNot(one.reason ?? "", nameIn(one));
}

export function NotStarting({ id, withdrawn }: { id: string; withdrawn: Withdrawn }) {
  const { write, busy, problem } = useWriting();
  const { plate, now } = withdrawn;
  const start = () =>
    void write([{ subject: `event/${id}`, kind: "start", body: startBody(withdrawn, plate) }], words.lineup.started(plate));
  return (
    <>
      <p class="notice">{notStartingText(withdrawn)}</p>
      <Problem text={problem} />
      <div class="buttons">
        {now === null ? null : (
          <a class="button" href={`/lineup/${id}/plate/${encodeURIComponent(now)}`}>
            {words.lineup.plateNo(now)}
          </a>
        )}
        {now === null && changesStarts(id) ? (
          <button type="button" class="button" disabled={busy} onClick={start}>
            {words.lineup.afterAll}
          </button>
        ) : null}
      </div>
    </>
  );
}
