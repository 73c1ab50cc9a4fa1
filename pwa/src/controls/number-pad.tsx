/** The app's own number pad: keys for a gloved thumb, a sign, a decimal mark, the unit. */

import { useState } from "preact/hooks";
import { buzz } from "../device";
import { words } from "../words";
import "./number-pad.css";
import { unitSaid } from "../units";
import { Sheet } from "./sheet";

interface Props {
  label: string;
  help?: string;
  /** The figures as they stand; the first key replaces them. */
  text: string;
  mark: string;
  unit: string;
  units: string[];
  whole: boolean;
  /** Many numbers, one after the other. */
  list?: boolean;
  onUnit: (unit: string) => void;
  onDone: (text: string) => void;
  onClose: () => void;
}

const DIGITS = ["7", "8", "9", "4", "5", "6", "1", "2", "3"];

export function NumberPad(props: Props) {
  const [typed, setTyped] = useState<string | null>(null);
  const text = typed ?? props.text;
  const press = (next: string) => {
    buzz(6);
    setTyped(next);
  };
  const add = (key: string) => press((typed ?? (props.list ? props.text : "")) + key);
  const erase = () => press(text.slice(0, -1));
  const last = () => text.slice(text.lastIndexOf(" ") + 1);
  const sign = () => {
    const one = last();
    const before = text.slice(0, text.length - one.length);
    press(before + (one.startsWith("−") ? one.slice(1) : `−${one}`));
  };
  const point = () => {
    if (!/[.,]/.test(typed === null && !props.list ? "" : last())) add(props.mark);
  };
  const next = () => {
    if (text !== "" && !text.endsWith(" ")) press(`${text} `);
  };
  const done = () => props.onDone(text.trim());
  const onKeyDown = (event: KeyboardEvent) => {
    if (/^\d$/.test(event.key)) add(event.key);
    else if (event.key === "." || event.key === ",") point();
    else if (event.key === "-") sign();
    else if (event.key === "Backspace") erase();
    else if (event.key === " " && props.list) next();
    else if (event.key === "Enter" && !(event.target instanceof HTMLButtonElement)) done();
    else return;
    event.preventDefault();
  };
  const key = (label: string, act: () => void, style = "", name = label) => (
    <button type="button" class={`key ${style}`} aria-label={name} onClick={act}>
      {label}
    </button>
  );
  return (
    <Sheet title={props.label} onClose={props.onClose} onKeyDown={onKeyDown}>
      {props.help ? <p class="quiet">{props.help}</p> : null}
      <output class={typed === null ? "pad-figure figure pad-fresh" : "pad-figure figure"} aria-live="polite">
        {text === "" ? " " : text}
        <span class="pad-unit">{unitSaid(props.unit)}</span>
      </output>
      {props.units.length > 1 && (
        <fieldset class="pad-units">
          <legend class="unseen">{words.unit}</legend>
          {props.units.map((unit) => (
            <button
              type="button"
              key={unit}
              class="key-unit"
              aria-pressed={unit === props.unit}
              onClick={() => props.onUnit(unit)}
            >
              {unitSaid(unit)}
            </button>
          ))}
        </fieldset>
      )}
      <div class="pad">
        {DIGITS.map((digit) => key(digit, () => add(digit), `digit d${digit}`))}
        {key("0", () => add("0"), "digit d0")}
        {!props.whole && key(props.mark, point, "digit mark-key", words.decimalMark)}
        {key("+/−", sign, "sign", words.sign)}
        {key(words.erase, erase, "word erase")}
        {key(words.clear, () => press(""), "word clear")}
        {props.list ? key(words.nextNumber, next, "word next") : null}
        {key(words.done, done, "word done")}
      </div>
    </Sheet>
  );
}
