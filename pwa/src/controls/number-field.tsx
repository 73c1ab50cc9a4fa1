/**
 * A number standing on its dimension line. Values go in and out in the base unit and are shown in the person's.
 * Typed on a keyboard where there is one, on the app's own pad under a thumb; point and comma both count.
 */

import type { ComponentChildren } from "preact";
import { useId, useState } from "preact/hooks";
import { decimalMark } from "../languages/chosen";
import {
  chooseUnit,
  digitsIn,
  formatNumber,
  fromBase,
  parseNumber,
  spanFromBase,
  spanToBase,
  toBase,
  unitOf,
  unitSaid,
  unitsFor,
} from "../units";
import { words } from "../words";
import "./number-field.css";
import { NumberPad } from "./number-pad";
import { useRepeat } from "./repeat";
import { stepped, within } from "./steps";

export interface NumberFieldProps {
  label: string;
  help?: string | undefined;
  /** Base unit. */
  unit: string;
  value: number | null;
  onChange: (value: number | null) => void;
  step?: number | undefined;
  digits?: number | undefined;
  possible?: [number, number] | undefined;
  /** Where the stepper starts from when there is no value yet. */
  start?: number | undefined;
  /** What holds when the field stays empty. */
  standing?: number | undefined;
  optional?: boolean;
  whole?: boolean;
  /** ± in the base unit, where the calculation takes one. */
  plusMinus?: number | null;
  onPlusMinus?: ((span: number | null) => void) | undefined;
  big?: boolean;
  problem?: string | undefined;
  children?: ComponentChildren;
}

const typing = matchMedia("(pointer: fine)");

export function NumberField(props: NumberFieldProps) {
  const { unit: base, value, onChange, possible } = props;
  const id = useId();
  const unit = unitOf(base);
  const digits = props.whole ? 0 : (props.digits ?? 2);
  const [text, setText] = useState<string | null>(null);
  const [pad, setPad] = useState<"value" | "spread" | null>(null);
  const step = props.step ?? (props.whole ? 1 : 10 ** -digits);
  const figures = (number: number, span = false) =>
    formatNumber(
      span ? spanFromBase(number, unit, base) : fromBase(number, unit, base),
      digitsIn(unit, base, digits + (span ? 1 : 0)),
    );
  const shown = text ?? (value === null ? "" : figures(value));
  const bad = text !== null && text.trim() !== "" && parseNumber(text) === null;

  const take = (typed: string) => {
    setText(typed);
    if (typed.trim() === "") onChange(null);
    const number = parseNumber(typed);
    if (number !== null) onChange(tidy(toBase(number, unit, base)));
  };
  const move = (way: 1 | -1) => {
    setText(null);
    const from = value ?? props.standing ?? props.start;
    // The first touch of an empty field shows where it starts, the next ones move it.
    if (value === null) onChange(from ?? possible?.[0] ?? 0);
    else onChange(within(stepped(value, way, step, unit, base), possible));
  };
  const less = useRepeat(() => move(-1));
  const more = useRepeat(() => move(1));
  const problem = bad ? words.notANumber : props.problem;
  const onPlusMinus = props.onPlusMinus;

  return (
    <div class={`number ${props.big ? "number-big" : ""} ${problem ? "number-bad" : ""}`}>
      <div class="number-head">
        <label for={id}>
          {props.label}
          {props.optional ? <span class="quiet"> {words.optional}</span> : null}
        </label>
        {onPlusMinus !== undefined && (value !== null || props.plusMinus) ? (
          <button type="button" class="plain number-spread figure" onClick={() => setPad("spread")}>
            {props.plusMinus ? `± ${figures(props.plusMinus, true)}` : "±"}
            <span class="unseen">
              {words.plusMinus} {props.label}
            </span>
          </button>
        ) : null}
      </div>
      <div class="number-row">
        <button type="button" class="step" aria-label={`${props.label}: ${words.less}`} {...less}>
          <svg width="20" height="20" viewBox="0 0 20 20" aria-hidden="true">
            <path d="M3 10 H17" />
          </svg>
        </button>
        <div class="number-line">
          <input
            id={id}
            class="figure"
            type="text"
            inputMode={typing.matches ? "decimal" : "none"}
            autocomplete="off"
            enterkeyhint="done"
            value={shown}
            placeholder={props.standing === undefined ? "–" : figures(props.standing)}
            aria-invalid={problem !== undefined}
            aria-describedby={`${id}-more`}
            onInput={(event) => take(event.currentTarget.value)}
            onBlur={() => {
              if (!bad) setText(null);
            }}
            onKeyDown={(event) => {
              if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
              event.preventDefault();
              move(event.key === "ArrowUp" ? 1 : -1);
            }}
            onClick={() => {
              if (!typing.matches) setPad("value");
            }}
          />
          {unit === "" ? null : <span class="number-unit">{unitSaid(unit)}</span>}
        </div>
        <button type="button" class="step" aria-label={`${props.label}: ${words.more}`} {...more}>
          <svg width="20" height="20" viewBox="0 0 20 20" aria-hidden="true">
            <path d="M3 10 H17 M10 3 V17" />
          </svg>
        </button>
      </div>
      <div id={`${id}-more`} class="number-more">
        {problem ? <p class="number-problem">{problem}</p> : null}
        {props.children}
      </div>
      {pad === null ? null : (
        <NumberPad
          label={pad === "value" ? props.label : `± ${props.label}`}
          {...(pad === "value" ? (props.help ? { help: props.help } : {}) : { help: words.plusMinusHelp })}
          text={pad === "value" ? shown : props.plusMinus ? figures(props.plusMinus, true) : ""}
          mark={decimalMark}
          unit={unit}
          units={unitsFor(base)}
          whole={props.whole ?? false}
          onUnit={(chosen) => chooseUnit(base, chosen)}
          onClose={() => setPad(null)}
          onDone={(typed) => {
            setPad(null);
            if (pad === "value") {
              take(typed);
              if (typed === "" || parseNumber(typed) !== null) setText(null);
              return;
            }
            const span = parseNumber(typed);
            onPlusMinus?.(span === null || span <= 0 ? null : tidy(spanToBase(span, unit, base)));
          }}
        />
      )}
    </div>
  );
}

/** Converted values carry noise in the last places that nobody measured. */
function tidy(value: number): number {
  return Number(value.toPrecision(12));
}
