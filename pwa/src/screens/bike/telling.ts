/** An entry in one line of plain words, for the log. */

import { said } from "../../languages/spoken";
import type { Entry } from "../../store/types";
import { formatNumber, show } from "../../units";
import { words } from "../../words";
import type { Names } from "../names";
import { nameOf } from "../when";
import { w } from "./use-words";

type Body = Record<string, unknown>;

function text(body: Body, name: string): string {
  const value = body[name];
  return typeof value === "string" ? value : "";
}

function amount(body: Body, name: string, unit: string, digits = 2): string {
  const value = body[name];
  return typeof value === "number" ? show(value, unit, digits) : "";
}

function joined(parts: string[], by = ", "): string {
  return parts.filter((part) => part !== "").join(by);
}

/** What an entry speaks of: other entries of its subject, and the name of a part that was ever on it; empty when not known. */
export interface Among {
  entry: (id: unknown) => Entry | undefined;
  part: (id: unknown) => string;
}

/** With its label, where the bare value would say nothing; what was emptied is told, too. */
function labelled(body: Body, name: string, value: string): string {
  return body[name] === undefined ? "" : `${w.log.fields[name] ?? name}: ${body[name] === null ? "–" : value}`;
}

/** What an entry says, without who and when. Kinds this version does not know are told by their name alone. */
export function telling(kind: string, body: Body, names: Names, among?: Among): string {
  const spokenOf = (name: string): string => {
    const other = among?.entry(body[name]);
    return other === undefined ? "" : telling(other.kind, other.body, names, { entry: () => undefined, part: partNamed });
  };
  const partNamed = (id: unknown): string => among?.part(id) ?? "";
  const unit = text(body, "unit");
  switch (kind) {
    case "describe":
      return joined([
        text(body, "name"),
        body.use === null ? labelled(body, "use", "") : text(body, "use"),
        labelled(body, "rider", nameOf(text(body, "rider"))),
        labelled(body, "weight_goal", amount(body, "weight_goal", "g", 0)),
        text(body, "note"),
      ]);
    case "part-fit":
      return joined([`${names.of(text(body, "slot")).label}: ${text(body, "name")}`, amount(body, "claimed", "g", 0)]);
    case "part-remove":
      return joined([partNamed(body.part), text(body, "reason")], ": ");
    case "weigh": {
      const what = body.part === undefined ? words.log.wholeBike : partNamed(body.part) || words.log.part;
      return `${what}: ${amount(body, "mass", "g", 1)}`;
    }
    case "measure": {
      const spread = typeof body.plus_minus === "number" ? ` ± ${formatNumber(body.plus_minus)}` : "";
      return joined([`${names.of(text(body, "what")).label}: ${amount(body, "value", unit)}${spread}`, text(body, "method")]);
    }
    case "calculate":
      return joined([names.of(text(body, "calculation")).label, text(body, "note")]);
    case "cut":
      return `${names.of(text(body, "what")).label}: ${amount(body, "result", unit)} (${words.log.planned} ${amount(body, "planned", unit)})`;
    case "torque":
      return joined([
        `${names.of(text(body, "joint")).label}: ${amount(body, "applied", "N·m")}`,
        text(body, "condition"),
        text(body, "note"),
      ]);
    case "adjust": {
      const from = typeof body.from === "number" ? `${formatNumber(body.from)} → ` : "";
      const felt = text(body, "felt");
      return joined([
        `${names.of(text(body, "setting")).label} ${from}${amount(body, "to", unit)}`,
        text(body, "reason"),
        felt === "" ? "" : w.log.felt(felt),
      ]);
    }
    case "baseline":
      return text(body, "name");
    case "check":
      return said(text(body, "title")) || names.of(text(body, "check")).label;
    case "fault":
      return joined([text(body, "what"), text(body, "area")]);
    case "fault-close":
      return joined([spokenOf("fault"), text(body, "done")], ": ");
    case "ride":
      return joined([
        body.km === 0 && body.fall === true ? "" : amount(body, "km", "km", 1),
        amount(body, "hours", "h", 1),
        amount(body, "climb", "m", 0) === "" ? "" : w.log.climbed(amount(body, "climb", "m", 0)),
        body.fall === true ? words.log.fell : "",
        text(body, "note"),
      ]);
    case "service":
      return joined([names.of(text(body, "job")).label, text(body, "note")]);
    case "note":
      return text(body, "text");
    case "photo":
      return text(body, "caption");
    case "decide":
      return joined([spokenOf("chosen") || names.of(text(body, "question").replace(/^.*\./, "")).label, text(body, "reason")]);
    case "void":
      return joined([spokenOf("entry"), text(body, "reason")], ": ");
    case "snooze":
      return joined([names.of(text(body, "due")).label, text(body, "until"), text(body, "reason")]);
    case "interval":
      return joined([
        names.of(text(body, "due")).label,
        amount(body, "km", "km", 0),
        amount(body, "hours", "h", 0),
        amount(body, "days", "d", 0),
      ]);
    default:
      return "";
  }
}
