/** A list of numbers of one unit, as one writes them down: 11 13 15. */

import { useEffect, useId, useState } from "preact/hooks";
import type { Quantity } from "../kernel/types";
import { decimalMark } from "../languages/chosen";
import { chooseUnit, digitsIn, formatNumber, fromBase, parseNumber, toBase, unitOf, unitSaid, unitsFor } from "../units";
import { words } from "../words";
import { NumberPad } from "./number-pad";
import "./text-field.css";

interface Props {
  quantity: Quantity;
  value: number[] | null;
  /** What was typed and is not all numbers: kept and given on as it is, for nothing older may be reckoned with. */
  unread: string | null;
  onChange: (value: number[] | string | null) => void;
  problem?: string | undefined;
}

const typing = matchMedia("(pointer: fine)");

export function NumbersField({ quantity, value, unread, onChange, problem }: Props) {
  const id = useId();
  const base = quantity.unit;
  const unit = unitOf(base);
  const [text, setText] = useState<string | null>(unread);
  const [pad, setPad] = useState(false);
  const figures = (numbers: number[]) =>
    numbers.map((one) => formatNumber(fromBase(one, unit, base), digitsIn(unit, base, quantity.digits ?? 2))).join(" ");
  const shown = text ?? (value === null ? "" : figures(value));
  const pieces = shown.split(/[\s;]+/).filter((piece) => piece !== "");
  const bad = pieces.some((piece) => parseNumber(piece) === null);
  const take = (typed: string) => {
    setText(typed);
    const numbers: number[] = [];
    for (const piece of typed.split(/[\s;]+/).filter((one) => one !== "")) {
      const number = parseNumber(piece);
      if (number === null) {
        onChange(typed);
        return;
      }
      numbers.push(Number(toBase(number, unit, base).toPrecision(12)));
    }
    onChange(numbers.length === 0 ? null : numbers);
  };
  useEffect(() => {
    if (unread !== null || bad) setText(unread);
  }, [unread]);
  return (
    <div class="text-field">
      <label for={id}>
        {quantity.label} {unit === "" ? null : <span class="quiet">{unitSaid(unit)}</span>}
        {quantity.optional ? <span class="quiet"> {words.optional}</span> : null}
      </label>
      <input
        id={id}
        class="text figure"
        type="text"
        inputMode={typing.matches ? "text" : "none"}
        autocomplete="off"
        value={shown}
        placeholder={Array.isArray(quantity.default) ? figures(quantity.default as number[]) : ""}
        aria-invalid={bad || problem !== undefined}
        aria-describedby={`${id}-more`}
        onInput={(event) => take(event.currentTarget.value)}
        onBlur={() => {
          if (!bad) setText(null);
        }}
        onClick={() => {
          if (!typing.matches) setPad(true);
        }}
      />
      <div id={`${id}-more`} class="quiet">
        <p class="hint">{quantity.help || words.numbersApart}</p>
        {bad || problem ? <p class="number-problem">{bad ? words.notANumber : problem}</p> : null}
      </div>
      {pad ? (
        <NumberPad
          label={quantity.label}
          text={shown === "" ? "" : `${shown} `}
          mark={decimalMark}
          unit={unit}
          units={unitsFor(base)}
          whole={quantity.digits === 0}
          list
          onUnit={(chosen) => chooseUnit(base, chosen)}
          onClose={() => setPad(false)}
          onDone={(typed) => {
            setPad(false);
            take(typed);
          }}
        />
      ) : null}
    </div>
  );
}
