/** After how much each job comes up again: the shipped intervals, the workshop's own, and one bike's. */

import { useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { NumberField } from "../../controls/number-field";
import { Problem } from "../../controls/problem";
import { SERVICE_DAYS, SERVICE_HOURS, SERVICE_KM } from "../../controls/ranges";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import { kernel } from "../../kernel/client";
import type { Interval } from "../../kernel/use-types";
import { said } from "../../languages/spoken";
import { MOST_WORDS } from "../../store/limits";
import { show } from "../../units";
import { words } from "../../words";
import { w } from "../bike/use-words";
import { useAsked } from "../build/asked";
import { useBike, useShop } from "../loading";
import { spaced } from "../names";
import { Page } from "../shell/page";
import { writes } from "../who";
import { useWriting } from "../writing";
import "../bike/now.css";
import "./due.css";

interface Line {
  due: string;
  title: string;
  km: number | null;
  hours: number | null;
  days: number | null;
  why: string;
  from: string;
  shipped: Interval | null;
}

/** A nought says that this unit does not count here. */
function number(value: unknown): number | null {
  return typeof value === "number" && value > 0 ? value : null;
}

/** Shipped ones first, each as the workshop or the bike has it. */
function merged(shipped: Interval[], own: Record<string, unknown>[], from: string, before: Line[] = []): Line[] {
  const lines = new Map<string, Line>(before.map((line) => [line.due, line]));
  for (const one of shipped) {
    const { due, title, km, hours, days, why, source } = one;
    lines.set(due, { due, title: said(title), km, hours, days, why: said(why), from: said(source), shipped: one });
  }
  for (const one of own) {
    const due = String(one.due);
    const known = lines.get(due);
    const given = { km: number(one.km), hours: number(one.hours), days: number(one.days) };
    lines.set(due, {
      due,
      title: known?.title ?? spaced(due),
      // What is not named again holds on.
      km: "km" in one ? given.km : (known?.km ?? null),
      hours: "hours" in one ? given.hours : (known?.hours ?? null),
      days: "days" in one ? given.days : (known?.days ?? null),
      why: typeof one.reason === "string" ? one.reason : (known?.why ?? ""),
      from,
      shipped: known?.shipped ?? null,
    });
  }
  return [...lines.values()];
}

function every(line: Line): string {
  const parts = [
    line.km === null ? "" : show(line.km, "km", 0),
    line.hours === null ? "" : show(line.hours, "h", 0),
    line.days === null ? "" : `${line.days} d`,
  ].filter((one) => one !== "");
  return parts.length === 0 ? w.intervals.never : parts.join(w.intervals.or);
}

export function Intervals() {
  const { query } = useLocation();
  const shop = useShop();
  const bike = useBike(query.bike ?? "");
  const [open, setOpen] = useState<Line | "new" | null>(null);
  const climate = bike?.state.climate;
  const shipped = useAsked(() => (climate === undefined ? kernel.intervals() : kernel.intervalsOf(climate)), climate);
  const ready = shipped !== undefined && shop !== undefined && (query.bike === undefined || bike !== undefined);
  let lines = ready ? merged(shipped, shop.intervals, w.intervals.own) : [];
  if (ready && bike) lines = merged([], bike.state.intervals, w.intervals.ofBike, lines);
  const subject = bike ? bike.state.subject : "workshop";
  const may = writes("interval");
  // Come here for one of them: it opens.
  const asked = lines.find((line) => line.due === query.due) ?? null;
  const [came, setCame] = useState(false);
  if (asked !== null && !came) {
    setCame(true);
    setOpen(asked);
  }
  return (
    <Page
      place="due"
      title={bike ? `${w.intervals.title}: ${bike.state.described.name ?? words.bikes.unnamed}` : w.intervals.title}
      from={[{ href: "/due", text: w.due.title }]}
      foot={
        may && ready ? (
          <div class="foot-act">
            <button type="button" class="button" onClick={() => setOpen("new")}>
              {w.intervals.add}
            </button>
          </div>
        ) : null
      }
    >
      <p class="quiet">{w.intervals.help}</p>
      {ready ? null : <p class="quiet">{words.reading}</p>}
      <ul class="ruled">
        {lines.map((line) => (
          <li key={line.due}>
            <button type="button" class="line-button due-row" disabled={!may} onClick={() => setOpen(line)}>
              <span class="due-what">
                <strong>{line.title}</strong>
                <span>{line.why}</span>
                <span class="quiet">{line.from}</span>
              </span>
              <span class="figure due-left">{every(line)}</span>
            </button>
          </li>
        ))}
      </ul>
      {open === null ? null : (
        <Edit
          key={open === "new" ? "" : open.due}
          line={open === "new" ? null : open}
          subject={subject}
          onClose={() => setOpen(null)}
        />
      )}
    </Page>
  );
}

function Edit({ line, subject, onClose }: { line: Line | null; subject: string; onClose: () => void }) {
  const { write, busy, problem } = useWriting();
  const [title, setTitle] = useState(line?.title ?? "");
  const [km, setKm] = useState(line?.km ?? null);
  const [hours, setHours] = useState(line?.hours ?? null);
  const [days, setDays] = useState(line?.days ?? null);
  const [reason, setReason] = useState("");
  const due =
    line?.due ??
    title
      .trim()
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
      .replaceAll(/^-|-$/g, "");
  const record = async (values: { km: number | null; hours: number | null; days: number | null }) => {
    // What is not named holds on as it was, so a unit that counts no longer is named with a nought.
    const body: Record<string, unknown> = { due, reason: reason.trim() || undefined };
    for (const unit of ["km", "hours", "days"] as const) {
      if (values[unit] !== null) body[unit] = values[unit];
      else if (line !== null && line[unit] !== null) body[unit] = 0;
    }
    if ((await write([{ subject, kind: "interval", body }], w.intervals.recorded(title.trim()))) !== null) onClose();
  };
  const empty = km === null && hours === null && days === null;
  return (
    <Sheet title={line?.title ?? w.intervals.add} onClose={onClose}>
      {subject === "workshop" ? null : <p class="quiet">{w.intervals.forBike}</p>}
      {line === null ? (
        <TextField label={w.intervals.job} value={title} onChange={setTitle} help={w.intervals.jobHelp} />
      ) : null}
      <NumberField
        label={w.intervals.km}
        unit="km"
        value={km}
        onChange={setKm}
        step={250}
        digits={0}
        start={2000}
        possible={SERVICE_KM}
        optional
      />
      <NumberField
        label={w.intervals.hours}
        unit="h"
        value={hours}
        onChange={setHours}
        step={10}
        digits={0}
        start={100}
        possible={SERVICE_HOURS}
        optional
      />
      <NumberField
        label={w.intervals.days}
        unit=""
        value={days}
        onChange={setDays}
        step={5}
        digits={0}
        start={90}
        possible={SERVICE_DAYS}
        whole
        optional
      />
      <p class="quiet">{w.intervals.whichever}</p>
      <TextField label={words.reason} value={reason} onChange={setReason} most={MOST_WORDS} optional />
      <Problem text={problem} />
      <button
        type="button"
        class="button main wide"
        disabled={busy || due === "" || empty}
        onClick={() => void record({ km, hours, days })}
      >
        {words.record}
      </button>
      {line?.shipped && line.from !== line.shipped.source ? (
        <button type="button" class="button wide" disabled={busy} onClick={() => line.shipped && void record(line.shipped)}>
          {w.intervals.back}
        </button>
      ) : null}
    </Sheet>
  );
}
