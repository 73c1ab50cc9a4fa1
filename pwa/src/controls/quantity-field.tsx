/** The control for a declared quantity, whatever its kind: a form is made from a declaration by mapping over it. */

import type { ComponentChildren } from "preact";
import type { Quantity } from "../kernel/types";
import { said } from "../languages/spoken";
import { Choice, Flag } from "./choice";
import { NumberField } from "./number-field";
import { NumbersField } from "./numbers-field";
import { type Row, RowsField } from "./rows-field";
import { TextField } from "./text-field";

/** A number with its ±. */
export interface Spread {
  value: number;
  plus_minus: number;
}

export function isSpread(value: unknown): value is Spread {
  return typeof value === "object" && value !== null && "plus_minus" in value;
}

interface Props {
  quantity: Quantity;
  value: unknown;
  onChange: (value: unknown) => void;
  /** What is wrong, by field path. */
  problems: Record<string, string>;
  path?: string;
  /** Whether a ± may be given. */
  spread?: boolean;
  children?: ComponentChildren;
}

export function QuantityField({ quantity, value, onChange, problems, path = quantity.name, spread = false, children }: Props) {
  const problem = problems[path];
  const { label, optional } = quantity;
  switch (quantity.kind) {
    case "number":
    case "whole": {
      const number = isSpread(value) ? value.value : typeof value === "number" ? value : null;
      const span = isSpread(value) ? value.plus_minus : null;
      const put = (next: number | null, plus: number | null) =>
        onChange(next === null ? null : plus === null ? next : { value: next, plus_minus: plus });
      return (
        <NumberField
          label={label}
          help={quantity.help}
          unit={quantity.unit}
          value={number}
          onChange={(next) => put(next, span)}
          step={quantity.step}
          digits={quantity.digits}
          possible={quantity.possible}
          start={middle(quantity)}
          standing={typeof quantity.default === "number" ? quantity.default : undefined}
          optional={optional && quantity.default === null}
          whole={quantity.kind === "whole"}
          plusMinus={span}
          onPlusMinus={spread && quantity.kind === "number" ? (plus) => put(number, plus) : undefined}
          problem={problem}
          unread={typeof value === "string" ? value : undefined}
          onUnread={onChange}
        >
          {quantity.help ? <p class="quiet hint">{quantity.help}</p> : null}
          {children}
        </NumberField>
      );
    }
    case "flag":
      return (
        <div>
          <Flag label={label} value={flagOf(value ?? quantity.default)} onChange={onChange} optional={optional} />
          {children}
        </div>
      );
    case "choice":
      return (
        <div>
          <Choice
            label={label}
            options={(quantity.choices ?? []).map((one) => ({ value: one, label: said(one) }))}
            value={textOf(value ?? quantity.default)}
            onChange={onChange}
            optional={optional}
          />
          {children}
        </div>
      );
    case "text":
      return (
        <TextField
          label={label}
          help={quantity.help}
          value={textOf(value) ?? ""}
          onChange={(next) => onChange(next === "" ? null : next)}
          optional={optional}
          problem={problem}
        />
      );
    case "numbers":
      return (
        <div>
          <NumbersField
            quantity={quantity}
            value={Array.isArray(value) ? (value as number[]) : null}
            unread={typeof value === "string" ? value : null}
            onChange={onChange}
            problem={problem}
          />
          {children}
        </div>
      );
    case "rows":
      return <RowsField quantity={quantity} value={(value as Row[] | null) ?? null} onChange={onChange} problems={problems} />;
  }
}

function flagOf(value: unknown): boolean | null {
  return typeof value === "boolean" ? value : null;
}

function textOf(value: unknown): string | null {
  return typeof value === "string" ? value : null;
}

/** The middle of what is usual, on the grid of the step: where a stepper starts. */
function middle(quantity: Quantity): number | undefined {
  const range = quantity.plausible ?? quantity.possible;
  if (range === undefined) return undefined;
  const step = quantity.step ?? 1;
  return Number((Math.round((range[0] + range[1]) / 2 / step) * step).toFixed(6));
}
