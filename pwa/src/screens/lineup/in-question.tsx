/** A plate of which two phones said different things: everybody it was given to, and the way to settle it. Nobody is dropped. */

import { useState } from "preact/hooks";
import { Problem } from "../../controls/problem";
import type { LineupRow } from "../../kernel/lineup-types";
import { said } from "../../languages/spoken";
import type { Draft } from "../../store/types";
import { words } from "../../words";
import { Page } from "../shell/page";
import { changesStarts } from "../who";
import { useWriting } from "../writing";
import { ChangePlate, startBody } from "./change";
import { eventWay } from "./event";
import type { EventNow } from "./loading";
import { nameIn, rowKey } from "./results";
import { StatusMark } from "./status";

interface Props {
  id: string;
  now: EventNow;
  plate: string;
  rows: LineupRow[];
}

export function InQuestion({ id, now, plate, rows }: Props) {
  const { write, busy, problem } = useWriting();
  const [moving, setMoving] = useState<LineupRow | null>(null);
  const question = rows[0]?.question ?? "who";
  // Whoever decides has seen what both phones said, so that what is written now holds.
  const settle = (kind: "start" | "withdraw", body: Draft["body"]) =>
    void write([{ subject: `event/${id}`, kind, body }], words.lineup.settled(plate));
  return (
    <Page
      place="lineup"
      title={words.lineup.plateNo(plate)}
      from={eventWay(id, now)}
      under={<StatusMark status="undecided" size={28} />}
    >
      <p class="notice">{said(rows[0]?.reasons[0]?.text ?? "")}</p>
      <p>{words.lineup.questionHelp[question]}</p>
      <Problem text={problem} />
      <ul class="ruled">
        {rows.map((row) => (
          <li key={rowKey(row)} class="in-question">
            <strong>{nameIn(row) || words.nobody}</strong>
            <span>
              {row.bike_name ?? words.lineup.noBike} · {words.lineup.checkedTimes(row.checks.length)}
            </span>
            {changesStarts(id) ? (
              <div class="buttons">
                {question === "who" ? (
                  <button type="button" class="button small" onClick={() => setMoving(row)}>
                    {words.lineup.otherPlate}
                  </button>
                ) : (
                  <button
                    type="button"
                    class="button small"
                    disabled={busy}
                    onClick={() => settle("start", startBody(row, plate))}
                  >
                    {question === "starts" ? words.lineup.starts : words.lineup.thisBike}
                  </button>
                )}
                {question === "starts" ? (
                  <button type="button" class="button small" disabled={busy} onClick={() => settle("withdraw", { plate })}>
                    {words.lineup.withdraw}
                  </button>
                ) : null}
              </div>
            ) : null}
          </li>
        ))}
      </ul>
      {moving === null ? null : <ChangePlate id={id} now={now} row={moving} onClose={() => setMoving(null)} />}
    </Page>
  );
}
