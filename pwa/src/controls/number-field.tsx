/**
 * A number standing on its dimension line. Values go in and out in the base unit and are shown in the person's.
 * Typed on a keyboard where there is one, on the app's own pad under a thumb; point and comma both count.
 */

import type { ComponentChildren } from "preact";
import { useEffect, useId, useState } from "preact/hooks";
import { decimalMark } from "../languages/chosen";
import {
  chooseUnit,
  digitsIn,
  formatNumber,
  fromBase,
  parseFigure,
  parseNumber,
  show,
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
import { onItsWay, stepped, within } from "./steps";

export interface NumberFieldProps {
  label: string;
  help?: string | undefined;
  /** Base unit. */
  unit: string;
  value: number | null;
  onChange: (value: number | null) => void;
  step?: number | undefined;
  digits?: number | undefined;
  /** What lies outside cannot be given. */
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
  /**
   * Who judges the figure itself, as a calculation does, gets what is no number as it was typed and figures out of `possible` as
   * any other. Everybody else gets null for both.
   */
  unread?: string | undefined;
  onUnread?: ((typed: string) => void) | undefined;
  children?: ComponentChildren;
}

const typing = matchMedia("(pointer: fine)");

export function NumberField(props: NumberFieldProps) {
  const { unit: base, value, onChange, possible } = props;
  const id = useId();
  const unit = unitOf(base);
  const digits = props.whole ? 0 : (props.digits ?? 2);
  const [text, setText] = useState<string | null>(props.unread ?? null);
  const [typingNow, setTypingNow] = useState(false);
  const [pad, setPad] = useState<"value" | "spread" | null>(null);
  const step = props.step ?? (props.whole ? 1 : 10 ** -digits);
  const figures = (number: number, span = false) =>
    formatNumber(
      span ? spanFromBase(number, unit, base) : fromBase(number, unit, base),
      digitsIn(unit, base, digits + (span ? 1 : 0)),
    );
  const shown = text ?? (value === null ? "" : figures(value));
  const judged = props.onUnread !== undefined;
  const read = (typed: string): Taken => {
    if (typed.trim() === "") return { value: null };
    const number = parseFigure(typed, unit);
    if (number === null) return { wrong: words.notANumber };
    if (props.whole && !Number.isInteger(number)) return { wrong: words.wholeOnly };
    const given = tidy(toBase(number, unit, base));
    if (judged || possible === undefined || (given >= possible[0] && given <= possible[1])) return { value: given };
    return {
      wrong: words.outOfRange(figures(possible[0]), show(possible[1], base, digits)),
      onItsWay: onItsWay(given, possible),
    };
  };
  const taken: Taken = text === null ? { value } : read(text);
  const bad = "wrong" in taken;

  const take = (typed: string): boolean => {
    setText(typed);
    const found = read(typed);
    // Nothing older than what stands in the field may be recorded.
    if ("value" in found) onChange(found.value);
    else if (props.onUnread === undefined) onChange(null);
    else props.onUnread(typed);
    return "value" in found;
  };
  // Given from elsewhere, by a drawing, the phone's own sensor or an old record, it is held to the same.
  const out = !judged && value !== null && possible !== undefined && (value < possible[0] || value > possible[1]);
  useEffect(() => {
    if (out) take(figures(value));
    else if (value !== null) setText((typed) => (typed !== null && "wrong" in read(typed) ? null : typed));
  }, [value, out]);
  useEffect(() => {
    if (judged) setText((typed) => props.unread ?? (typed !== null && "wrong" in read(typed) ? null : typed));
  }, [props.unread]);
  const move = (way: 1 | -1) => {
    setText(null);
    const from = value ?? props.standing ?? props.start;
    // The first touch of an empty field shows where it starts, the next ones move it.
    if (value === null) onChange(from ?? possible?.[0] ?? 0);
    else onChange(within(stepped(value, way, step, unit, base), possible));
  };
  const less = useRepeat(() => move(-1));
  const more = useRepeat(() => move(1));
  const problem = bad && !(taken.onItsWay && typingNow) ? taken.wrong : props.problem;
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
            data-unread={bad ? props.label : undefined}
            onFocus={() => setTypingNow(typing.matches)}
            onInput={(event) => take(event.currentTarget.value)}
            onBlur={() => {
              setTypingNow(false);
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
              if (take(typed)) setText(null);
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

/** What a text comes to: a value to go on with, or what is wrong with it. */
type Taken = { value: number | null } | { wrong: string; onItsWay?: boolean };

/** Converted values carry noise in the last places that nobody measured. */
function tidy(value: number): number {
  return Number(value.toPrecision(12));
}
