/** The start list: typed one by one, or taken from a table. Nothing of a table is recorded before it was looked at. */

import { useState } from "preact/hooks";
import { useRoute } from "preact-iso";
import { NotATable, readTable } from "../../files/csv-reading";
import type { Draft } from "../../store/types";
import { words } from "../../words";
import { allBikeLines, known } from "../loading";
import { Page } from "../shell/page";
import { nameOf } from "../when";
import { useWriting } from "../writing";
import { Starting } from "./change";
import { eventWay, tabsOf } from "./event";
import { type EventNow, useEvent } from "./loading";
import { notStartingText } from "./not-starting";
import { rowKey } from "./results";
import { type StartList as Read, startListOf } from "./start-list-file";
import "./lineup.css";
import { Problem } from "../../controls/problem";

/** A push takes 500 entries; a list of starters is written in portions of that kind. */
const PORTION = 200;

export function StartList() {
  const id = useRoute().params.id ?? "";
  const now = useEvent(id);
  const [adding, setAdding] = useState(false);
  if (!now)
    return (
      <Page place="lineup" title={words.reading} from={eventWay(id, now)}>
        {null}
      </Page>
    );
  return (
    <Page
      place="lineup"
      title={now.event.described.name ?? words.lineup.unnamed}
      from={[{ href: "/lineup", text: words.places.lineup }]}
      tabs={tabsOf(id, "list")}
      foot={
        <div class="foot-act">
          <button type="button" class="button main" onClick={() => setAdding(true)}>
            {words.lineup.oneStarter}
          </button>
        </div>
      }
    >
      <FromTable id={id} now={now} />
      <section class="part">
        <h2>{words.lineup.starters(now.event.starters.length)}</h2>
        <ul class="ruled">
          {now.lineup.rows.map((row) => (
            <li key={rowKey(row)}>
              <a class="starter" href={`/lineup/${id}/plate/${encodeURIComponent(row.plate)}`}>
                <span class="figure">{row.plate}</span>
                <span>{row.name || (row.rider ? nameOf(row.rider) : words.nobody)}</span>
                <span class="quiet">{row.bike_name ?? ""}</span>
              </a>
            </li>
          ))}
        </ul>
      </section>
      {now.event.withdrawn.length > 0 ? (
        <section class="part">
          <h2>{words.lineup.notStarting}</h2>
          <ul class="ruled">
            {now.event.withdrawn.map((one) => (
              <li key={one.plate}>
                <a class="starter" href={`/lineup/${id}/plate/${encodeURIComponent(one.plate)}`}>
                  <span class="figure">{one.plate}</span>
                  <span>{notStartingText(one)}</span>
                </a>
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      {adding ? <Starting id={id} now={now} onClose={() => setAdding(false)} /> : null}
    </Page>
  );
}

function FromTable({ id, now }: { id: string; now: EventNow }) {
  const [read, setRead] = useState<Read | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const { write, busy, problem: unwritten } = useWriting();
  const open = async (file: File | undefined) => {
    if (file === undefined) return;
    setRead(null);
    setProblem(null);
    try {
      const table = readTable(new Uint8Array(await file.arrayBuffer()));
      setRead(startListOf(table, new Set(now.event.starters.map((one) => one.plate))));
    } catch (error) {
      if (!(error instanceof NotATable)) throw error;
      setProblem(error.message);
    }
  };
  const record = async () => {
    const starters = read?.starters ?? [];
    const bikes = await allBikeLines();
    const byName = new Map(bikes.map((one) => [known(one)?.name?.toLocaleLowerCase() ?? "", one]));
    const drafts = starters.map((one): Draft => {
      const bike = one.bike === "" ? undefined : byName.get(one.bike.toLocaleLowerCase());
      const body = {
        plate: one.plate,
        name: one.name || undefined,
        bike: bike?.subject.slice("bike/".length),
        rider: one.name === "" ? ((bike && known(bike)?.rider) ?? undefined) : undefined,
      };
      return { subject: `event/${id}`, kind: "start", body };
    });
    for (let at = 0; at < drafts.length; at += PORTION) {
      const made = await write(drafts.slice(at, at + PORTION), words.lineup.tableTaken(drafts.length));
      if (made === null) return;
    }
    setRead(null);
  };
  return (
    <section class="part">
      <h2>{words.lineup.fromTable}</h2>
      <p class="quiet">{words.lineup.fromTableHelp}</p>
      <label class="button file">
        {words.lineup.openTable}
        <input
          type="file"
          class="unseen"
          accept=".csv,.tsv,.txt,text/csv,text/plain"
          onChange={(event) => {
            const { currentTarget } = event;
            void open(currentTarget.files?.[0]);
            currentTarget.value = "";
          }}
        />
      </label>
      <Problem text={problem} />
      {read === null ? null : (
        <div class="part" role="status">
          {read.wrong.length > 0 ? (
            <>
              <h3>{words.lineup.file.wrong(read.wrong.length)}</h3>
              <ul class="ruled wrong-lines">
                {read.wrong.slice(0, 50).map((one) => (
                  <li key={`${one.line}${one.what}`}>
                    <span class="figure">{words.lineup.file.line(one.line)}</span> {one.what}
                  </li>
                ))}
              </ul>
            </>
          ) : null}
          {read.starters.length > 0 ? (
            <>
              <h3>{words.lineup.file.good(read.starters.length)}</h3>
              <p class="quiet">{sample(read)}</p>
              <Problem text={unwritten} />
              <button type="button" class="button main" disabled={busy} onClick={() => void record()}>
                {words.lineup.file.take(read.starters.length)}
              </button>
            </>
          ) : null}
        </div>
      )}
    </section>
  );
}

function sample(read: Read): string {
  const shown = read.starters.slice(0, 4).map((one) => [one.plate, one.name].filter(Boolean).join(" "));
  return shown.join(", ") + (read.starters.length > shown.length ? " …" : "");
}
