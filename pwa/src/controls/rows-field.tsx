/** Rows with the same fields: one block a row, added and taken away. */

import type { Quantity } from "../kernel/types";
import { words } from "../words";
import { QuantityField } from "./quantity-field";
import "./rows-field.css";

export type Row = Record<string, unknown>;

interface Props {
  quantity: Quantity;
  value: Row[] | null;
  onChange: (value: Row[] | null) => void;
  problems: Record<string, string>;
}

export function RowsField({ quantity, value, onChange, problems }: Props) {
  const rows = value ?? [];
  const set = (next: Row[]) => onChange(next.length === 0 ? null : next);
  return (
    <fieldset class="rows">
      <legend>
        {quantity.label}
        {quantity.optional ? <span class="quiet"> {words.optional}</span> : null}
      </legend>
      {quantity.help ? <p class="quiet">{quantity.help}</p> : null}
      {rows.map((row, i) => (
        <div class="rows-row" key={i}>
          <div class="rows-head">
            <span class="figure">{i + 1}</span>
            <button type="button" class="plain" onClick={() => set(rows.filter((_, at) => at !== i))}>
              {words.takeAway}
              <span class="unseen">
                {" "}
                {quantity.label} {i + 1}
              </span>
            </button>
          </div>
          {(quantity.fields ?? []).map((field) => (
            <QuantityField
              key={field.name}
              quantity={field}
              value={row[field.name] ?? null}
              onChange={(next) => set(rows.map((one, at) => (at === i ? { ...one, [field.name]: next ?? undefined } : one)))}
              problems={problems}
              path={`${quantity.name}[${i}].${field.name}`}
            />
          ))}
        </div>
      ))}
      {rows.length < (quantity.most ?? 400) && (
        <button type="button" class="button small wide" onClick={() => set([...rows, {}])}>
          {words.addRow}
        </button>
      )}
    </fieldset>
  );
}
