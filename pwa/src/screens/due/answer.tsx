/** One thing due: done now, or put off with a reason. What stops a ride is neither here nor there: it is mended. */

import { useState } from "preact/hooks";
import { Problem } from "../../controls/problem";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import type { DueRow } from "../../kernel/use-types";
import { said } from "../../languages/spoken";
import { words } from "../../words";
import { w } from "../bike/use-words";
import { dateOf } from "../when";
import { writes } from "../who";
import { useWriting } from "../writing";

/** A job is done by saying so; wear and a fall are answered by measuring and checking. */
function isJob(row: DueRow): boolean {
  return row.due !== "after-fall" && !row.due.startsWith("wear-");
}

function wayOn(row: DueRow): string {
  if (row.due === "after-fall") return `/${row.subject}/check/after-fall`;
  if (row.due.startsWith("wear-")) return `/${row.subject}/wear`;
  return row.due === "re-torque" ? `/${row.subject}/torque` : `/${row.subject}`;
}

function inDays(days: number): string {
  const date = new Date();
  date.setDate(date.getDate() + days);
  return date.toISOString().slice(0, 10);
}

export function Answer({ row, onClose }: { row: DueRow; onClose: () => void }) {
  const { write, busy, problem } = useWriting();
  const [note, setNote] = useState("");
  const [until, setUntil] = useState(inDays(7));
  const [reason, setReason] = useState("");
  const { subject, due } = row;
  const title = said(row.title);
  const bike = row.bike ?? words.bikes.unnamed;
  const done = async () => {
    const body = { job: due, note: note.trim() || undefined };
    if ((await write([{ subject, kind: "service", body }], w.due.doneSaid(title, bike))) !== null) onClose();
  };
  const putOff = async () => {
    const body = { due, until, reason: reason.trim() };
    if ((await write([{ subject, kind: "snooze", body }], w.due.snoozed(title, dateOf(until)))) !== null) onClose();
  };
  const past = until !== "" && until <= new Date().toISOString().slice(0, 10);
  return (
    <Sheet title={`${bike} · ${title}`} onClose={onClose}>
      <p>{said(row.text)}</p>
      <p class="quiet">
        {w.due.source}: {said(row.source)}
      </p>
      <div class="buttons">
        <a class="button" href={wayOn(row)}>
          {isJob(row) && row.due !== "re-torque" ? w.due.toBike : row.due === "after-fall" ? words.ways.check : title}
        </a>
      </div>
      {!writes("service") ? null : (
        <>
          {isJob(row) && (
            <>
              <TextField label={w.due.doneNote} value={note} onChange={setNote} optional />
              <button type="button" class="button main wide" disabled={busy} onClick={() => void done()}>
                {w.due.done}
              </button>
              <a class="button small" href={`/due/intervals?due=${due}&bike=${subject.slice("bike/".length)}`}>
                {w.intervals.forBike}
              </a>
            </>
          )}
          {row.level === "stop" ? (
            <p class="quiet">{w.due.noSnooze}</p>
          ) : (
            <>
              <TextField
                label={w.due.until}
                type="date"
                value={until}
                onChange={setUntil}
                problem={past ? w.due.past : undefined}
              />
              <TextField label={w.due.snoozeWhy} value={reason} onChange={setReason} />
              <button
                type="button"
                class="button wide"
                disabled={busy || until === "" || past || reason.trim() === ""}
                onClick={() => void putOff()}
              >
                {w.due.snooze}
              </button>
            </>
          )}
          <Problem text={problem} />
        </>
      )}
    </Sheet>
  );
}
