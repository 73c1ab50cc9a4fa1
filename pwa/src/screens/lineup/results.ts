/** The line-up as a table: for a file, a printout, another program. */

import Papa from "papaparse";
import { cameTo } from "../../controls/mark";
import type { Lineup, LineupRow } from "../../kernel/lineup-types";
import { said } from "../../languages/spoken";
import { words } from "../../words";
import { nameOf } from "../when";

/** A plate given to two has two rows. */
export function rowKey(row: LineupRow): string {
  return `${row.plate} ${row.entry}`;
}

export function nameIn(row: Partial<Pick<LineupRow, "name" | "rider">>): string {
  if (row.name) return row.name;
  return row.rider ? nameOf(row.rider) : "";
}

/** Seconds a check took, by the clock of the phone that made it; null when it did not say, or the clock jumped. */
export function secondsOf(check: { started_at?: string | null; finished_at?: string | null }): number | null {
  if (!check.started_at || !check.finished_at) return null;
  const took = (Date.parse(check.finished_at) - Date.parse(check.started_at)) / 1000;
  return took > 0 && took < 4 * 3600 ? Math.round(took) : null;
}

export function minutes(seconds: number): string {
  return `${Math.floor(seconds / 60)}:${String(Math.round(seconds % 60)).padStart(2, "0")}`;
}

/** One line a check, a plate nobody looked at has one too. A cell a spreadsheet would take for a formula is made plain text. */
export function resultsCsv(lineup: Lineup): string {
  const { columns } = words.lineup.results;
  const rows = [...lineup.rows, ...lineup.unlisted].flatMap((row) => {
    const reasons = row.reasons.map((reason) => said(reason.text)).join("; ");
    const start = [row.plate, nameIn(row), row.bike_name ?? "", words.lineup.status[row.status]];
    if (row.checks.length === 0) return [[...start, "", "", "", "", "", reasons]];
    return row.checks.map((check) => {
      const took = secondsOf(check);
      return [
        ...start,
        said(check.title ?? check.check ?? ""),
        cameTo(check),
        nameOf(check.by),
        check.finished_at ?? check.at,
        took === null ? "" : String(took),
        reasons,
      ];
    });
  });
  return Papa.unparse([columns, ...rows], { escapeFormulae: true, newline: "\r\n" });
}

export function resultsFile(lineup: Lineup, event: string): File {
  const name = `${event.replaceAll(/[^\p{L}\p{N}]+/gu, "-").toLowerCase()}-${new Date().toISOString().slice(0, 10)}.csv`;
  // With a byte order mark spreadsheets read it as UTF-8.
  return new File(["\ufeff", resultsCsv(lineup)], name, { type: "text/csv" });
}
