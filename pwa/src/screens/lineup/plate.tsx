/** One plate at the start line: who it is, how it stands, the check, and what changes at the last minute. */

import { useState } from "preact/hooks";
import { useRoute } from "preact-iso";
import { Mark } from "../../controls/mark";
import { Reasons } from "../../controls/reasons";
import type { LineupRow } from "../../kernel/lineup-types";
import type { CheckDefinition } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { words } from "../../words";
import { useBegun } from "../check/begun";
import { keyOf } from "../check/half-done";
import { useChecks } from "../loading";
import { Page } from "../shell/page";
import { nameOf, whenOf } from "../when";
import { changesStarts } from "../who";
import { ChangePlate, MatchBike, Starting, Withdraw } from "./change";
import { eventWay } from "./event";
import { InQuestion } from "./in-question";
import { useEvent } from "./loading";
import { NotStarting } from "./not-starting";
import { minutes, nameIn, secondsOf } from "./results";
import { StatusMark } from "./status";
import "./lineup.css";

type Changing = "bike" | "plate" | "withdraw" | "start";

export function PlateSheet() {
  const { id = "", plate: coded = "" } = useRoute().params;
  const plate = decoded(coded);
  const now = useEvent(id);
  const [changing, setChanging] = useState<Changing | null>(null);
  if (!now) {
    return (
      <Page place="lineup" title={now === null ? words.lineup.notHere : words.reading} from={eventWay(id, now)}>
        {now === null ? <p>{words.lineup.notHereHelp}</p> : null}
      </Page>
    );
  }
  const asked = now.lineup.rows.filter((row) => row.plate === plate && row.question !== null);
  if (asked.length > 0) return <InQuestion id={id} now={now} plate={plate} rows={asked} />;
  const listed = now.lineup.rows.find((row) => row.plate === plate);
  const row = listed ?? now.lineup.unlisted.find((one) => one.plate === plate);
  const withdrawn = listed === undefined ? now.event.withdrawn.find((one) => one.plate === plate) : undefined;
  const close = () => setChanging(null);
  return (
    <Page
      place="lineup"
      title={words.lineup.plateNo(plate)}
      from={eventWay(id, now)}
      under={row === undefined ? null : <StatusMark status={row.status} size={28} />}
      cells={[
        { label: words.cells.rider, value: (row && nameIn(row)) || (withdrawn && nameIn(withdrawn)) || "–" },
        { label: words.lineup.bike, value: row?.bike_name ?? "–" },
      ]}
      foot={
        withdrawn === undefined ? (
          <div class="foot-act">
            <StartCheck id={id} plate={plate} row={row} />
          </div>
        ) : null
      }
    >
      {withdrawn === undefined ? null : <NotStarting id={id} withdrawn={withdrawn} />}
      {listed === undefined && withdrawn === undefined ? <p class="notice">{words.lineup.unknownHelp}</p> : null}
      {listed !== undefined && listed.bike === null ? (
        row !== undefined && row.reasons.length > 0 ? (
          <p class="notice">{words.lineup.foundNoBikeHelp}</p>
        ) : (
          <p class="quiet">{words.lineup.noBikeHelp}</p>
        )
      ) : null}
      {row === undefined ? null : <Found row={row} />}
      {row === undefined ? null : <Checked row={row} />}
      {row?.bike ? (
        <div class="buttons">
          <a class="button small" href={`/bike/${row.bike}`}>
            {words.lineup.toBike}
          </a>
        </div>
      ) : null}
      {changesStarts(id) ? (
        <section class="part">
          <h2>{words.lineup.changes}</h2>
          <div class="buttons">
            {listed === undefined ? (
              <button type="button" class="button small" onClick={() => setChanging("start")}>
                {words.lineup.putOnList}
              </button>
            ) : (
              <>
                <button type="button" class="button small" onClick={() => setChanging("bike")}>
                  {listed.bike === null ? words.lineup.matchBike : words.lineup.otherBike}
                </button>
                <button type="button" class="button small" onClick={() => setChanging("plate")}>
                  {words.lineup.otherPlate}
                </button>
                <button type="button" class="button small" onClick={() => setChanging("withdraw")}>
                  {words.lineup.withdraw}
                </button>
              </>
            )}
          </div>
        </section>
      ) : null}
      {changing === "start" ? <Starting id={id} now={now} plate={plate} onClose={close} /> : null}
      {changing === "bike" && listed ? <MatchBike id={id} now={now} row={listed} onClose={close} /> : null}
      {changing === "plate" && listed ? <ChangePlate id={id} now={now} row={listed} onClose={close} /> : null}
      {changing === "withdraw" && listed ? <Withdraw id={id} row={listed} onClose={close} /> : null}
    </Page>
  );
}

function decoded(coded: string): string {
  try {
    return decodeURIComponent(coded);
  } catch {
    return coded;
  }
}

/** The start-line check; the workshop's own checks of a whole bike stand beside it. */
function StartCheck({ id, plate, row }: { id: string; plate: string; row: LineupRow | undefined }) {
  const checks = (useChecks() ?? []).filter((one) => one.who === "mechanic" && one.scope === "whole");
  const [main, ...others] = [
    ...checks.filter((one) => one.check === "pre-event"),
    ...checks.filter((one) => one.check.startsWith("own-")),
  ];
  const bike = row?.bike ?? null;
  const subject = bike === null ? `event/${id}` : `bike/${bike}`;
  const begun = useBegun(main === undefined ? "" : keyOf(subject, main.check, bike === null ? plate : undefined));
  const to = (check: CheckDefinition) => {
    const named = encodeURIComponent(plate);
    const chosen = encodeURIComponent(check.check);
    return bike === null
      ? `/lineup/${id}/plate/${named}/check/${chosen}`
      : `/bike/${bike}/check/${chosen}?event=${id}&plate=${named}`;
  };
  if (main === undefined) return <p class="quiet">{words.reading}</p>;
  const again = row !== undefined && row.checks.length > 0;
  return (
    <>
      <a class="button main wide" href={to(main)}>
        {begun ? words.lineup.goOn : again ? words.lineup.checkAgain : words.lineup.checkIt}
      </a>
      {others.map((one) => (
        <a key={one.check} class="button small wide" href={to(one)}>
          {said(one.title)}
        </a>
      ))}
    </>
  );
}

function Found({ row }: { row: LineupRow }) {
  if (row.reasons.length === 0) return null;
  return (
    <section class="part">
      <h2>{words.lineup.why}</h2>
      <Reasons reasons={row.reasons} />
    </section>
  );
}

function Checked({ row }: { row: LineupRow }) {
  return (
    <section class="part">
      <h2>{words.lineup.checksHere}</h2>
      {row.checks.length === 0 ? <p>{words.lineup.notSeenYet}</p> : null}
      {row.checks.length > 1 ? <p class="notice">{words.lineup.twiceHelp(row.checks.length)}</p> : null}
      <ul class="ruled">
        {row.checks.map((check) => {
          const took = secondsOf(check);
          return (
            <li key={check.entry} class="checked-here">
              <Mark verdict={check.verdict} scope={check.scope} />
              <span>
                {whenOf(check.finished_at ?? check.at)} · {nameOf(check.by)}
                {took === null ? "" : ` · ${minutes(took)}`}
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
