/** The line-up on a desk: the table, live as the phones send, and beside it what holds up the start and how long a bike takes. */

import { cameTo } from "../../controls/mark";
import { handOver } from "../../files/hand-over";
import type { LineupRow, LineupStatus } from "../../kernel/lineup-types";
import { said } from "../../languages/spoken";
import { syncState } from "../../store/sync";
import { words } from "../../words";
import { nameOf, timeOf, whenOf } from "../when";
import { type Show, shownOf } from "./event";
import type { EventNow } from "./loading";
import { minutes, nameIn, resultsFile, rowKey, secondsOf } from "./results";
import { StatusMark } from "./status";

const HOLDING_SHOWN = 8;
const TOLD_WHY: LineupStatus[] = ["undecided", "not-cleared", "cleared-with-care"];
const HOLDS: LineupStatus[] = ["undecided", "not-cleared", "open"];

export function Desk({ id, now, show }: { id: string; now: EventNow; show: Show }) {
  const { lineup, event } = now;
  const rows = [...shownOf(lineup, show), ...(show === "all" || show === "checked" ? lineup.unlisted : [])];
  const name = event.described.name ?? words.lineup.unnamed;
  return (
    <div class="desk">
      <section class="desk-table" aria-label={words.lineup.table}>
        <p class="print-only">{words.lineup.printed(whenOf(new Date().toISOString()))}</p>
        <table class="figures">
          <thead>
            <tr>
              <th scope="col">{words.lineup.plate}</th>
              <th scope="col">{words.cells.rider}</th>
              <th scope="col">{words.lineup.stands}</th>
              <th scope="col">{words.lineup.checkedAt}</th>
              <th scope="col">{words.lineup.took}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <DeskRow key={rowKey(row)} id={id} row={row} listed={lineup.rows.includes(row)} />
            ))}
          </tbody>
        </table>
        {rows.length === 0 ? <p>{words.lineup.noneSo}</p> : null}
      </section>
      <aside class="desk-side">
        <Holding id={id} rows={lineup.rows} />
        <Pace rows={[...lineup.rows, ...lineup.unlisted]} />
        <section class="part">
          <h2>{words.lineup.takeAway}</h2>
          <div class="buttons">
            <button type="button" class="button" onClick={() => void handOver(resultsFile(lineup, name), name)}>
              {words.lineup.csv}
            </button>
            <button type="button" class="button" onClick={() => print()}>
              {words.lineup.print}
            </button>
          </div>
          <p class="quiet" role="status">
            {syncState.value.lastOk === null ? words.lineup.notLive : words.lineup.live(timeOf(syncState.value.lastOk))}
          </p>
        </section>
      </aside>
    </div>
  );
}

function DeskRow({ id, row, listed }: { id: string; row: LineupRow; listed: boolean }) {
  return (
    <tr>
      <th scope="row">
        <a class="desk-plate figure" href={`/lineup/${id}/plate/${encodeURIComponent(row.plate)}`}>
          {row.plate}
        </a>
      </th>
      <td class="desk-words">
        {nameIn(row) || (listed ? words.nobody : words.lineup.notListed)}
        {row.bike_name === null ? null : <span class="quiet"> {row.bike_name}</span>}
      </td>
      <td class="desk-words">
        <StatusMark status={row.status} />
        {TOLD_WHY.includes(row.status) ? <span class="quiet"> {said(row.reasons[0]?.text ?? "")}</span> : null}
      </td>
      <td class="desk-words">
        {row.checks.map((check) => (
          <span key={check.entry} class="desk-check">
            {timeOf(check.finished_at ?? check.at)} {nameOf(check.by)}
            {row.checks.length > 1 ? <span class="quiet"> {cameTo(check)}</span> : null}
          </span>
        ))}
      </td>
      <td class="figure">
        {row.checks
          .map((check) => tookOf(check))
          .filter(Boolean)
          .join(" · ")}
      </td>
    </tr>
  );
}

function tookOf(check: LineupRow["checks"][number]): string {
  const took = secondsOf(check);
  return took === null ? "" : minutes(took);
}

/** Plates two phones disagree of, those who must not start, then those half done: what somebody has to go and see to. */
function Holding({ id, rows }: { id: string; rows: LineupRow[] }) {
  const holding = HOLDS.flatMap((status) => rows.filter((row) => row.status === status));
  const unseen = rows.filter((row) => row.status === "not-seen").length;
  return (
    <section class="part">
      <h2>{words.lineup.holding}</h2>
      {holding.length === 0 && unseen === 0 ? <p>{words.lineup.nothingHolds}</p> : null}
      <ul class="ruled">
        {holding.slice(0, HOLDING_SHOWN).map((row) => (
          <li key={rowKey(row)}>
            <a class="holding" href={`/lineup/${id}/plate/${encodeURIComponent(row.plate)}`}>
              <span class="figure">{row.plate}</span>
              <span>
                <strong>{words.lineup.status[row.status]}</strong> {row.question === null ? "" : nameIn(row)}{" "}
                {said(row.reasons[0]?.text ?? "")}
              </span>
            </a>
          </li>
        ))}
      </ul>
      {holding.length > HOLDING_SHOWN ? <p>{words.lineup.moreHold(holding.length - HOLDING_SHOWN)}</p> : null}
      {unseen > 0 ? <p>{words.lineup.toSee(unseen)}</p> : null}
    </section>
  );
}

/** How long a bike takes, and by when the rest is done at this pace. */
function Pace({ rows }: { rows: LineupRow[] }) {
  const took = rows.flatMap((row) => row.checks.flatMap((check) => secondsOf(check) ?? [])).sort((a, b) => a - b);
  if (took.length === 0) return null;
  const middle = took[Math.floor(took.length / 2)] ?? 0;
  const checkers = new Set(rows.flatMap((row) => row.checks.map((check) => check.by))).size;
  return (
    <section class="part">
      <h2>{words.lineup.pace}</h2>
      <dl class="pace">
        <div>
          <dt>{words.lineup.middle}</dt>
          <dd class="figure">{minutes(middle)}</dd>
        </div>
        <div>
          <dt>{words.lineup.longest}</dt>
          <dd class="figure">{minutes(took.at(-1) ?? 0)}</dd>
        </div>
        <div>
          <dt>{words.lineup.checkers}</dt>
          <dd class="figure">{checkers}</dd>
        </div>
      </dl>
    </section>
  );
}
