/** The start line: every plate with its mark, what to show of it, and the way to the next bike. */

import { useState } from "preact/hooks";
import { useRoute } from "preact-iso";
import { Ring } from "../../controls/mark";
import type { Lineup, LineupRow, LineupStatus } from "../../kernel/lineup-types";
import { words } from "../../words";
import { Page, type Way } from "../shell/page";
import { runsWorkshop } from "../who";
import { Desk } from "./desk";
import { dayOf } from "./events";
import { FindPlate } from "./find-plate";
import { type EventNow, useEvent } from "./loading";
import { nameIn, rowKey } from "./results";
import { PRESSING, SHAPES } from "./status";
import { useWide } from "./wide";
import "./lineup.css";

export type Show = "all" | "checked" | LineupStatus;

export function eventWay(id: string, now: EventNow | null | undefined): Way[] {
  return [
    { href: "/lineup", text: words.places.lineup },
    { href: `/lineup/${id}`, text: now?.event.described.name ?? words.lineup.unnamed },
  ];
}

export function Event() {
  const id = useRoute().params.id ?? "";
  const now = useEvent(id);
  const wide = useWide();
  const [show, setShow] = useState<Show>("all");
  const [finding, setFinding] = useState<"scan" | "type" | null>(null);
  const from = [{ href: "/lineup", text: words.places.lineup }];
  if (!now) {
    return (
      <Page place="lineup" title={now === null ? words.lineup.notHere : words.reading} from={from}>
        {now === null ? <p>{words.lineup.notHereHelp}</p> : null}
      </Page>
    );
  }
  const { event, lineup } = now;
  return (
    <Page
      place="lineup"
      title={event.described.name ?? words.lineup.unnamed}
      from={from}
      under={<span class="quiet">{[dayOf(event.described.date), event.described.place].filter(Boolean).join(" · ")}</span>}
      tabs={runsWorkshop() ? tabsOf(id, "line") : undefined}
      foot={
        <div class="foot-act two">
          <button type="button" class="button" onClick={() => setFinding("type")}>
            {words.lineup.typePlate}
          </button>
          <button type="button" class="button main" onClick={() => setFinding("scan")}>
            {words.lineup.scan}
          </button>
        </div>
      }
    >
      {lineup.starters === 0 && lineup.unlisted.length === 0 ? <p class="empty">{words.lineup.noStarters}</p> : null}
      <Tally lineup={lineup} show={show} onShow={setShow} />
      {wide ? <Desk id={id} now={now} show={show} /> : <Grid id={id} lineup={lineup} show={show} />}
      {finding === null ? null : <FindPlate id={id} now={now} way={finding} onWay={setFinding} />}
    </Page>
  );
}

export function tabsOf(id: string, here: "line" | "list" | "labels") {
  return (["line", "list", "labels"] as const).map((one) => ({
    href: one === "line" ? `/lineup/${id}` : `/lineup/${id}/${one}`,
    text: words.lineup.tabs[one],
    here: one === here,
  }));
}

export function shownOf(lineup: Lineup, show: Show): LineupRow[] {
  return lineup.rows.filter((row) => show === "all" || (show === "checked" ? row.checks.length > 0 : row.status === show));
}

/** The counts are the filter: touch one to see only those. */
function Tally({ lineup, show, onShow }: { lineup: Lineup; show: Show; onShow: (show: Show) => void }) {
  if (lineup.starters === 0) return null;
  const checked = lineup.rows.filter((row) => row.checks.length > 0).length;
  const counts: [Show, number][] = [
    ["all", lineup.starters],
    ["checked", checked],
    ...PRESSING.filter((status) => status !== "undecided" || lineup.tally.undecided > 0).map((status): [Show, number] => [
      status,
      lineup.tally[status],
    ]),
  ];
  return (
    <fieldset class="tally" aria-label={words.lineup.show}>
      {counts.map(([one, count]) => (
        <button key={one} type="button" aria-pressed={one === show} onClick={() => onShow(one === show ? "all" : one)}>
          <span class="tally-count">
            {one === "all" || one === "checked" ? null : <Ring shape={SHAPES[one]} size={18} />}
            <span class="figure">{count}</span>
          </span>
          <span class="tally-word">
            {one === "all" || one === "checked" ? words.lineup.shows[one] : words.lineup.status[one]}
          </span>
        </button>
      ))}
    </fieldset>
  );
}

function Grid({ id, lineup, show }: { id: string; lineup: Lineup; show: Show }) {
  const rows = shownOf(lineup, show);
  return (
    <>
      {rows.length === 0 && lineup.starters > 0 ? <p>{words.lineup.noneSo}</p> : null}
      <ul class="plates">
        {rows.map((row) => (
          <li key={rowKey(row)}>
            <Plate id={id} row={row} />
          </li>
        ))}
      </ul>
      {lineup.unlisted.length > 0 ? (
        <section class="part">
          <h2>{words.lineup.unlisted}</h2>
          <p class="quiet">{words.lineup.unlistedHelp}</p>
          <ul class="plates">
            {lineup.unlisted.map((row) => (
              <li key={rowKey(row)}>
                <Plate id={id} row={row} />
              </li>
            ))}
          </ul>
        </section>
      ) : null}
    </>
  );
}

function Plate({ id, row }: { id: string; row: LineupRow }) {
  return (
    <a class={`plate plate-${row.status}`} href={`/lineup/${id}/plate/${encodeURIComponent(row.plate)}`}>
      <Ring shape={SHAPES[row.status]} size={30} />
      <span class="figure">{row.plate}</span>
      <span class="plate-name">{nameIn(row) || words.nobody}</span>
      <span class="unseen">{words.lineup.status[row.status]}</span>
      {row.checks.length > 1 ? <span class="plate-twice">{words.lineup.checkedTimes(row.checks.length)}</span> : null}
    </a>
  );
}
