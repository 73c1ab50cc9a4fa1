/** Parts out of a CSV: the columns asked once, bad rows shown and kept for mending, good ones recorded all at once or not at all. */

import { useEffect, useMemo, useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Choice, Flag } from "../../controls/choice";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import { type DecimalMark, decimalMarkIn, type Encoding, readTable, type Table } from "../../files/csv-reading";
import { kernel } from "../../kernel/client";
import type { BikeState, Interface, ShopState } from "../../kernel/types";
import { keep } from "../../store/drafts";
import type { Draft } from "../../store/types";
import { show } from "../../units";
import { words } from "../../words";
import { useBikeId } from "../bike/frame";
import { spaced } from "../names";
import { useWriting } from "../writing";
import { useAsked } from "./asked";
import { BASIC, guessColumns, keepColumns, keptColumns, type Meaning } from "./csv-columns";
import { type BadRow, type GoodRow, type Sorted, sortRows } from "./csv-rows";
import { SheetPage } from "./sheet-page";
import { slotNamed } from "./slots";
import { w } from "./words";

const SHOWN = 40;

/** What is left of a table after its good rows were recorded: kept until each row is mended or given up. */
interface Left {
  file: string;
  table: Table;
  meanings: Meaning[] | null;
  mark: DecimalMark | null;
  replace: boolean;
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
  const key = `csv/${state.subject}`;
  const [left, setLeft] = useState<Left | null | undefined>(undefined);
  const [problem, setProblem] = useState<string | null>(null);
  const [bytes, setBytes] = useState<Uint8Array | null>(null);
  const shipped = useAsked(() => kernel.interfaces());
  const kinds = [...(shipped ?? []), ...shop.interfaces];
  useEffect(() => {
    void keep.get<Left>(key).then((found) => setLeft(found ?? null));
  }, [key]);
  const put = (next: Left | null) => {
    setLeft(next);
    void (next === null ? keep.drop(key) : keep.set(key, next));
  };
  const take = (file: string, content: Uint8Array, encoding?: Encoding) => {
    setProblem(null);
    try {
      const table = readTable(content, encoding);
      const meanings = keptColumns(table.headings);
      put({ file, table, meanings, mark: markOf(table, meanings ?? guessColumns(table.headings, kinds)), replace: false });
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
  if (left === undefined || shipped === undefined) return <p class="quiet">{words.reading}</p>;
  return (
    <>
      <label class="button wide file-button">
        {left === null ? w.csv.open : w.csv.openOther}
        <input type="file" accept=".csv,.tsv,.txt,text/csv" onChange={(event) => void open(event.currentTarget)} />
      </label>
      {problem === null ? null : (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
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
                put({ ...left, meanings, mark: markOf(left.table, meanings) });
              }}
            />
          ) : (
            <Rows state={state} left={left} meanings={left.meanings} kinds={kinds} onLeft={put} />
          )}
        </>
      )}
    </>
  );
}

/** Texts and columns left out say nothing of the decimal mark. */
function markOf(table: Table, meanings: Meaning[]): DecimalMark | null {
  const columns = meanings.flatMap((meaning, at) => (["", "name", "slot"].includes(meaning) ? [] : [at]));
  return decimalMarkIn(table.rows.flatMap((row) => columns.map((at) => row.cells[at] ?? "")));
}

function Columns({ table, kinds, onDone }: { table: Table; kinds: Interface[]; onDone: (meanings: Meaning[]) => void }) {
  const [meanings, setMeanings] = useState(() => guessColumns(table.headings, kinds));
  const options = [
    { value: LEFT_OUT, label: w.csv.leftOut },
    ...BASIC.map((one) => ({ value: one as string, label: w.csv.meanings[one] })),
    { value: "marking", label: w.csv.asMarking },
    ...kinds.flatMap((kind) =>
      kind.fields.map((field) => ({ value: `${kind.kind}.${field.name}`, label: `${kind.label}: ${field.label}` })),
    ),
  ];
  const whole = meanings.includes("slot") && meanings.includes("name");
  const twice = BASIC.find((one) => meanings.filter((meaning) => meaning === one).length > 1);
  return (
    <section class="part">
      <h2>{w.csv.columns}</h2>
      <p class="quiet">{w.csv.columnsHelp}</p>
      <div class="form">
        {table.headings.map((heading, at) => (
          <div key={at}>
            <Choice
              label={heading === "" ? w.csv.column(at + 1) : heading}
              options={options}
              value={meanings[at] === "" ? LEFT_OUT : (meanings[at] ?? LEFT_OUT)}
              onChange={(next) => setMeanings(meanings.map((one, i) => (i === at ? (next === LEFT_OUT ? "" : next) : one)))}
            />
            <p class="quiet">
              {w.csv.such(
                table.rows
                  .slice(0, 3)
                  .map((row) => row.cells[at] ?? "")
                  .filter(Boolean)
                  .join(" · "),
              )}
            </p>
          </div>
        ))}
      </div>
      {whole ? null : <p class="problem">{w.csv.needs}</p>}
      {twice === undefined ? null : <p class="problem">{w.csv.meantTwice(w.csv.meanings[twice])}</p>}
      <button type="button" class="button main wide" disabled={!whole || twice !== undefined} onClick={() => onDone(meanings)}>
        {w.csv.keepColumns}
      </button>
    </section>
  );
}

const LEFT_OUT = "-";

interface RowsProps {
  state: BikeState;
  left: Left;
  meanings: Meaning[];
  kinds: Interface[];
  onLeft: (left: Left | null) => void;
}

function Rows({ state, left, meanings, kinds, onLeft }: RowsProps) {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const [mending, setMending] = useState<BadRow | null>(null);
  const taken = new Map(state.parts.map((part) => [part.slot, part.name]));
  const setup = { headings: left.table.headings, meanings, mark: left.mark, kinds, taken, replace: left.replace };
  const sorted: Sorted = useMemo(() => sortRows(left.table.rows, setup), [left, state]);
  const meets = left.table.rows.some((row) => taken.has(slotNamed(row.cells[meanings.indexOf("slot")] ?? "")));
  const record = async () => {
    const lines = new Set(sorted.good.map((row) => row.line));
    if ((await write(drafts(state, sorted.good), w.csv.recorded(sorted.good.length))) === null) return;
    const rows = left.table.rows.filter((row) => !lines.has(row.line));
    if (rows.length === 0) {
      onLeft(null);
      route(`/${state.subject}/parts`, true);
    } else onLeft({ ...left, table: { ...left.table, rows }, replace: false });
  };
  const change = (line: number, cells: string[] | null) => {
    const rows = left.table.rows.flatMap((row) => (row.line !== line ? [row] : cells === null ? [] : [{ line, cells }]));
    onLeft(rows.length === 0 ? null : { ...left, table: { ...left.table, rows } });
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
      {problem === null ? null : (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <button type="button" class="button main wide" disabled={busy || sorted.good.length === 0} onClick={() => void record()}>
        {busy ? w.csv.recording(sorted.good.length) : w.csv.record(sorted.good.length)}
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

interface MendProps {
  row: BadRow;
  headings: string[];
  onClose: () => void;
  onDone: (cells: string[] | null) => void;
}

function Mend({ row, headings, onClose, onDone }: MendProps) {
  const [cells, setCells] = useState(row.cells);
  return (
    <Sheet title={w.csv.line(row.line)} onClose={onClose}>
      {row.problems.map((one) => (
        <p key={one} class="number-problem">
          {one}
        </p>
      ))}
      {headings.map((heading, at) => (
        <TextField
          key={at}
          label={heading}
          value={cells[at] ?? ""}
          onChange={(next) => setCells(headings.map((_, i) => (i === at ? next : (cells[i] ?? ""))))}
        />
      ))}
      <button type="button" class="button main wide" onClick={() => onDone(headings.map((_, i) => (cells[i] ?? "").trim()))}>
        {words.done}
      </button>
      <button type="button" class="button small wide" onClick={() => onDone(null)}>
        {w.csv.leaveOut}
      </button>
    </Sheet>
  );
}

function drafts(state: BikeState, rows: GoodRow[]): Draft[] {
  const made: Draft[] = [];
  const { subject } = state;
  for (const row of rows) {
    for (const old of state.parts.filter((part) => part.slot === row.slot)) {
      made.push({ subject, kind: "part-remove", body: { part: old.part, reason: w.parts.swappedFor(row.name) } });
    }
    const part = crypto.randomUUID();
    const { slot, name, count, claimed, price } = row;
    const markings = Object.keys(row.markings).length > 0 ? row.markings : undefined;
    const interfaces = row.interfaces.length > 0 ? row.interfaces : undefined;
    made.push({ subject, kind: "part-fit", body: { part, slot, name, count, claimed, price, markings, interfaces } });
    if (row.weighed !== undefined) made.push({ subject, kind: "weigh", body: { part, mass: row.weighed } });
  }
  return made;
}
