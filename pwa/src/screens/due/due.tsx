/** What is due on all bikes, what stops a ride first. */

import { useEffect, useMemo, useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Choice } from "../../controls/choice";
import { LevelSign } from "../../controls/finding";
import { calendar } from "../../files/calendar";
import { handOver } from "../../files/hand-over";
import { kernel } from "../../kernel/client";
import type { DueRow } from "../../kernel/use-types";
import { said } from "../../languages/spoken";
import { noticesOn, noticesPossible, setNotices } from "../../notices";
import { formatNumber, unitSaid } from "../../units";
import { words } from "../../words";
import { w } from "../bike/use-words";
import { NoBikes } from "../bikes/no-bikes";
import { useBikeLines } from "../loading";
import { Page } from "../shell/page";
import { dateOf } from "../when";
import { Answer } from "./answer";
import "../bike/now.css";
import "./due.css";

type Shown = "all" | "stop" | "now" | "coming" | "off";

const PAGE = 60;

function wanted(row: DueRow, shown: Shown): boolean {
  if (shown === "off") return row.snoozed !== null;
  if (row.snoozed !== null) return shown === "all";
  if (shown === "stop") return row.level === "stop";
  if (shown === "now") return row.level !== "coming";
  return shown === "all" || row.level === "coming";
}

export function DueSheet() {
  const { query } = useLocation();
  const bikes = useBikeLines();
  const [rows, setRows] = useState<DueRow[] | null>(null);
  const [shown, setShown] = useState<Shown>("all");
  const [only, setOnly] = useState(query.bike ? `bike/${query.bike}` : "");
  const [most, setMost] = useState(PAGE);
  const [answering, setAnswering] = useState<DueRow | null>(null);
  const left = bikes?.filter((bike) => bike.line === null).length ?? 0;
  const all = useMemo(
    () =>
      bikes?.flatMap(({ subject, line }) =>
        line === null ? [] : line.due.map((one) => ({ ...one, subject, bike: line.summary.name })),
      ),
    [bikes],
  );
  useEffect(() => {
    let over = false;
    if (all !== undefined) {
      void kernel.dueRanked(all).then((ranked) => {
        if (!over) setRows(ranked);
      });
    }
    return () => {
      over = true;
    };
  }, [all]);
  const chosen = (rows ?? []).filter((row) => wanted(row, shown) && (only === "" || row.subject === only));
  const named = new Map((rows ?? []).map((row) => [row.subject, row.bike ?? words.bikes.unnamed]));
  return (
    <Page
      place="due"
      title={w.due.title}
      under={rows === null || bikes?.length === 0 ? null : <span class="figure bikes-count">{chosen.length}</span>}
    >
      {rows === null && bikes?.length !== 0 ? <p class="quiet">{words.reading}</p> : null}
      {left > 0 ? <p class="quiet">{w.due.folding(left)}</p> : null}
      {bikes?.length === 0 ? (
        // Without a bike nothing can be known to be due, which is not the same as that nothing is.
        <NoBikes />
      ) : rows?.length === 0 && left === 0 ? (
        <p class="empty">{w.due.none}</p>
      ) : null}
      {rows !== null && rows.length > 0 && (
        <div class="due-find">
          <Choice
            label={w.due.show}
            hideLabel
            options={(["all", "stop", "now", "coming", "off"] as const).map((one) => ({ value: one, label: w.due.shows[one] }))}
            value={shown}
            onChange={setShown}
          />
          {named.size > 1 && (
            <Choice
              label={words.places.bikes}
              hideLabel
              options={[
                { value: "", label: words.bikes.all },
                ...[...named].map(([value, label]) => ({ value, label })).sort((a, b) => a.label.localeCompare(b.label)),
              ]}
              value={only}
              onChange={setOnly}
            />
          )}
        </div>
      )}
      {rows !== null && rows.length > 0 && chosen.length === 0 ? <p>{w.due.noneSo}</p> : null}
      {chosen.length === 0 ? null : (
        <ul class="ruled due-rows" aria-label={w.due.title}>
          {chosen.slice(0, most).map((row) => (
            <li key={`${row.subject} ${row.due}`}>
              <button
                type="button"
                class={`line-button due-row${row.snoozed === null ? "" : " due-later"}`}
                onClick={() => setAnswering(row)}
              >
                <LevelSign level={row.level} />
                <span class="due-what">
                  <strong>
                    {row.bike ?? words.bikes.unnamed} · {said(row.title)}
                  </strong>
                  <span>{said(row.text)}</span>
                  {row.snoozed === null ? null : (
                    <span class="quiet">{words.now.snoozed(dateOf(row.snoozed.until), row.snoozed.reason ?? "")}</span>
                  )}
                </span>
                <Left row={row} />
              </button>
            </li>
          ))}
        </ul>
      )}
      {chosen.length > most && (
        <button type="button" class="button wide" onClick={() => setMost(most + PAGE)}>
          {words.log.older(chosen.length - most)}
        </button>
      )}
      {answering === null ? null : <Answer row={answering} onClose={() => setAnswering(null)} />}
      {rows === null || bikes?.length === 0 ? null : <Ways rows={chosen} />}
    </Page>
  );
}

function Left({ row }: { row: DueRow }) {
  if (row.left === null) return null;
  return (
    <span class="figure due-left">
      {formatNumber(Math.abs(row.left), row.unit === "%" ? 2 : 0)} {unitSaid(row.unit)}
      <small>{row.left < 0 ? words.now.past : words.now.left}</small>
      {row.on === null || row.unit === "days" || row.left < 0 ? null : <small>{w.due.on(dateOf(row.on))}</small>}
    </span>
  );
}

function Ways({ rows }: { rows: DueRow[] }) {
  const [answered, setAnswered] = useState("");
  const save = async () => {
    const days = rows.flatMap((row) => {
      const date = row.snoozed?.until ?? row.on;
      return date === null
        ? []
        : [
            {
              uid: `${row.subject.slice("bike/".length)}-${row.due}@pinchbolt`,
              date,
              title: w.due.notice(row.bike ?? words.bikes.unnamed, said(row.title)),
              text: `${said(row.text)}\n${said(row.source)}`,
            },
          ];
    });
    if (days.length === 0) {
      setAnswered(w.due.noDays);
      return;
    }
    const file = new File([calendar(days, new Date())], "due.ics", { type: "text/calendar" });
    if (await handOver(file, w.due.title)) setAnswered(w.due.calendarSaid(days.length));
  };
  const notices = async () => {
    const answer = await setNotices(!noticesOn.value);
    setAnswered(answer === "denied" ? w.due.noticesDenied : "");
  };
  return (
    <div class="due-ways">
      <div class="buttons">
        <button type="button" class="button small" onClick={() => void save()}>
          {w.due.calendar}
        </button>
        <a class="button small" href="/due/intervals">
          {w.due.own}
        </a>
        {noticesPossible ? (
          <button type="button" class="button small" aria-pressed={noticesOn.value} onClick={() => void notices()}>
            {noticesOn.value ? w.due.noticesOff : w.due.notices}
          </button>
        ) : null}
      </div>
      <p class="quiet" role="status">
        {answered}
      </p>
    </div>
  );
}
