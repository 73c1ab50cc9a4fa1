/** Parts out of a CSV: the columns asked once, bad rows shown and kept for mending, good ones recorded, each whole. */

import { useEffect, useMemo, useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Choice, Flag } from "../../controls/choice";
import { type DecimalMark, decimalMarkIn, type Encoding, readTable, type Table } from "../../files/csv-reading";
import type { Interface } from "../../kernel/build-types";
import { kernel } from "../../kernel/client";
import type { BikeState, ShopState } from "../../kernel/types";
import { keep } from "../../store/drafts";
import { show } from "../../units";
import { words } from "../../words";
import { useBikeId } from "../bike/frame";
import { spaced } from "../names";
import { told } from "../writing";
import { useAsked } from "./asked";
import { guessColumns, keepColumns, keptColumns, type Meaning } from "./csv-columns";
import { Columns } from "./csv-columns-form";
import { Mend } from "./csv-mend";
import { notYetRecorded, recording, recordRows } from "./csv-recording";
import { type BadRow, type GoodRow, type Row, type Sorted, sortRows } from "./csv-rows";
import { SheetPage } from "./sheet-page";
import { slotNamed } from "./slots";
import { w } from "./words";
import "./import.css";
import { Problem } from "../../controls/problem";

const SHOWN = 40;

/** What is left of a table after its good rows were recorded: kept until each row is mended or given up. */
interface Left {
  file: string;
  table: Table;
  meanings: Meaning[] | null;
  mark: DecimalMark | null;
  replace: boolean;
  /** This reading of the file; the parts of its rows have their ids from it. */
  batch: string;
}

export function Import() {
  const id = useBikeId();
  return (
    <SheetPage title={w.csv.title} under={{ href: `/bike/${id}/parts`, text: w.parts.title }}>
      {({ state }, shop) => <Importing state={state} shop={shop} />}
    </SheetPage>
  );
}

function Importing({ state, shop }: { state: BikeState; shop: ShopState }) {
  const { route } = useLocation();
  const key = `csv/${state.subject}`;
  const [left, setLeft] = useState<Left | null | undefined>(undefined);
  const [problem, setProblem] = useState<string | null>(null);
  const [bytes, setBytes] = useState<Uint8Array | null>(null);
  const shipped = useAsked(() => kernel.interfaces());
  const kinds = [...(shipped ?? []), ...shop.interfaces];
  useEffect(() => {
    void keep.get<Left>(key).then((found) => {
      if (found === undefined) setLeft(null);
      else if (found.batch === undefined) void put({ ...found, batch: crypto.randomUUID() });
      else setLeft(found);
    });
  }, [key]);
  /** Shown once it is kept: what is seen here is there again, whatever happens to the page. */
  const put = async (next: Left | null) => {
    try {
      await (next === null ? keep.drop(key) : keep.set(key, next));
    } catch (error) {
      setProblem(error instanceof Error ? error.message : String(error));
    }
    setLeft(next);
  };
  const take = (file: string, content: Uint8Array, encoding?: Encoding) => {
    setProblem(null);
    try {
      const table = readTable(content, encoding);
      const meanings = keptColumns(table.headings);
      const mark = markOf(table, meanings ?? guessColumns(table.headings, kinds));
      void put({ file, table, meanings, mark, replace: false, batch: crypto.randomUUID() });
      setBytes(content);
    } catch (error) {
      setProblem(error instanceof Error ? error.message : String(error));
    }
  };
  const open = async (input: HTMLInputElement) => {
    const file = input.files?.[0];
    if (file === undefined) return;
    take(file.name, new Uint8Array(await file.arrayBuffer()));
    input.value = "";
  };
  const save = async (table: Left, good: GoodRow[], rows: Row[]) => {
    try {
      await saveRows(table, good, rows);
    } finally {
      recording.value = null;
    }
  };
  const saveRows = async (table: Left, good: GoodRow[], rows: Row[]) => {
    setProblem(null);
    const recorded = await recordRows(state, good, table.batch);
    const { entries } = recorded;
    if (entries.length > 0) told.value = { text: w.csv.recorded(recorded.rows), entries };
    const lines = new Set(good.slice(0, recorded.rows).map((row) => row.line));
    const rest = rows.filter((row) => !lines.has(row.line));
    if (recorded.problem !== null) setProblem(w.csv.stopped(recorded.rows, good.length - recorded.rows, recorded.problem));
    if (rest.length > 0) {
      const replace = recorded.problem !== null && table.replace;
      await put({ ...table, table: { ...table.table, rows: rest }, replace });
      return;
    }
    await put(null);
    // Unless somebody has gone on to another sheet meanwhile.
    if (location.pathname === `/${state.subject}/import`) route(`/${state.subject}/parts`, true);
  };
  const under = recording.value?.subject === state.subject ? recording.value : null;
  if (under !== null) return <Progress done={under.done} all={under.of} />;
  if (left === undefined || shipped === undefined) return <p class="quiet">{words.reading}</p>;
  return (
    <>
      <label class="button wide file-button">
        {left === null ? w.csv.open : w.csv.openOther}
        <input type="file" accept=".csv,.tsv,.txt,text/csv" onChange={(event) => void open(event.currentTarget)} />
      </label>
      <Problem text={problem} />
      {left === null ? (
        <p class="quiet">{w.csv.help}</p>
      ) : (
        <>
          <p>
            <strong>{left.file}</strong>{" "}
            <span class="quiet">
              {w.csv.read(left.table.rows.length, w.csv.separators[left.table.separator] ?? left.table.separator)}
            </span>
          </p>
          {bytes === null ? null : (
            <Choice
              label={w.csv.encoding}
              options={(["utf-8", "windows-1252", "utf-16le"] as Encoding[]).map((one) => ({
                value: one,
                label: w.csv.encodings[one],
              }))}
              value={left.table.encoding}
              onChange={(encoding) => take(left.file, bytes, encoding)}
            />
          )}
          {left.meanings === null ? (
            <Columns
              table={left.table}
              kinds={kinds}
              onDone={(meanings) => {
                keepColumns(left.table.headings, meanings);
                void put({ ...left, meanings, mark: markOf(left.table, meanings) });
              }}
            />
          ) : (
            <Rows
              state={state}
              left={left}
              meanings={left.meanings}
              kinds={kinds}
              onLeft={(next) => void put(next)}
              onRecord={(good, rows) => void save(left, good, rows)}
            />
          )}
        </>
      )}
    </>
  );
}

/** Nothing else can be done to the table while its rows go on the record. */
function Progress({ done, all }: { done: number; all: number }) {
  return (
    <div class="csv-progress" role="status">
      <strong>{w.csv.recording(all)}</strong>
      <progress max={all} value={done} aria-label={w.csv.recording(all)} />
      <span class="figure">{w.csv.soFar(done, all)}</span>
    </div>
  );
}

/** Texts and columns left out say nothing of the decimal mark. */
function markOf(table: Table, meanings: Meaning[]): DecimalMark | null {
  const columns = meanings.flatMap((meaning, at) => (["", "name", "slot"].includes(meaning) ? [] : [at]));
  return decimalMarkIn(table.rows.flatMap((row) => columns.map((at) => row.cells[at] ?? "")));
}

interface RowsProps {
  state: BikeState;
  left: Left;
  meanings: Meaning[];
  kinds: Interface[];
  onLeft: (left: Left | null) => void;
  /** `rows` are all that are left, the good ones among them. */
  onRecord: (good: GoodRow[], rows: Row[]) => void;
}

function Rows({ state, left, meanings, kinds, onLeft, onRecord }: RowsProps) {
  const [mending, setMending] = useState<BadRow | null>(null);
  const taken = new Map(state.parts.map((part) => [part.slot, part.name]));
  const setup = { headings: left.table.headings, meanings, mark: left.mark, kinds, taken, replace: left.replace };
  const rows = useMemo(() => notYetRecorded(left.table.rows, state, left.batch), [left, state]);
  const sorted: Sorted = useMemo(() => sortRows(rows, setup), [left, rows]);
  const meets = rows.some((row) => taken.has(slotNamed(row.cells[meanings.indexOf("slot")] ?? "")));
  const change = (line: number, cells: string[] | null) => {
    const next = rows.flatMap((row) => (row.line !== line ? [row] : cells === null ? [] : [{ line, cells }]));
    onLeft(next.length === 0 ? null : { ...left, table: { ...left.table, rows: next } });
    setMending(null);
  };
  return (
    <>
      <div class="form">
        <Choice
          label={w.csv.decimalMark}
          options={[
            { value: ".", label: w.csv.point },
            { value: ",", label: w.csv.comma },
          ]}
          value={left.mark}
          onChange={(mark) => onLeft({ ...left, mark })}
        />
        {left.mark === null ? <p class="quiet">{w.csv.markUnknown}</p> : null}
        {meets ? (
          <Flag label={w.csv.replace} value={left.replace} onChange={(replace) => onLeft({ ...left, replace })} />
        ) : null}
      </div>
      <p role="status" class="csv-count">
        <span class="figure">{sorted.good.length}</span> {w.csv.good} · <span class="figure">{sorted.bad.length}</span>{" "}
        {w.csv.bad}
      </p>
      {sorted.bad.length > 0 && (
        <section class="part">
          <h2>{w.csv.mend}</h2>
          <p class="quiet">{w.csv.mendHelp}</p>
          <ul class="ruled">
            {sorted.bad.slice(0, SHOWN).map((row) => (
              <li key={row.line} class="csv-bad">
                <div>
                  <strong>
                    <span class="figure quiet">{row.line}</span> {row.cells[meanings.indexOf("name")] || w.csv.noNameShown}
                  </strong>
                  {row.problems.map((one) => (
                    <p key={one} class="number-problem">
                      {one}
                    </p>
                  ))}
                </div>
                <button type="button" class="button small" onClick={() => setMending(row)}>
                  {w.csv.mendIt}
                  <span class="unseen"> {w.csv.line(row.line)}</span>
                </button>
              </li>
            ))}
          </ul>
          {sorted.bad.length > SHOWN ? <p class="quiet">{w.csv.moreBad(sorted.bad.length - SHOWN)}</p> : null}
        </section>
      )}
      <section class="part">
        <h2>{w.csv.goodTitle}</h2>
        <ul class="ruled">
          {sorted.good.slice(0, SHOWN).map((row) => (
            <li key={row.line} class="csv-good">
              <span class="quiet">{spaced(row.slot)}</span>
              <strong>{row.name}</strong>
              <span class="figure">
                {row.weighed !== undefined
                  ? show(row.weighed, "g", 1)
                  : row.claimed !== undefined
                    ? `(${show(row.claimed, "g", 1)})`
                    : ""}
              </span>
            </li>
          ))}
        </ul>
        {sorted.good.length > SHOWN ? <p class="quiet">{w.csv.moreGood(sorted.good.length - SHOWN)}</p> : null}
      </section>
      <button
        type="button"
        class="button main wide"
        disabled={sorted.good.length === 0}
        onClick={() => onRecord(sorted.good, rows)}
      >
        {w.csv.record(sorted.good.length)}
      </button>
      <div class="buttons">
        <button type="button" class="button small" onClick={() => onLeft({ ...left, meanings: null })}>
          {w.csv.askAgain}
        </button>
        <button type="button" class="button small" onClick={() => onLeft(null)}>
          {w.csv.giveUp}
        </button>
      </div>
      {mending === null ? null : (
        <Mend
          row={mending}
          headings={left.table.headings}
          onClose={() => setMending(null)}
          onDone={(cells) => change(mending.line, cells)}
        />
      )}
    </>
  );
}
