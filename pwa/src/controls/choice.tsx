/** One of a few words; many of them go into a list of the phone's own. */

import { useId } from "preact/hooks";
import { words } from "../words";
import "./choice.css";

interface Props<Value extends string> {
  label: string;
  options: { value: Value; label: string }[];
  value: Value | null;
  onChange: (value: Value) => void;
  optional?: boolean;
  hideLabel?: boolean;
}

const MOST_CELLS = 5;

export function Choice<Value extends string>({ label, options, value, onChange, optional, hideLabel }: Props<Value>) {
  const id = useId();
  if (options.length > MOST_CELLS) {
    return (
      <div class="choice">
        <label for={id} class={hideLabel ? "unseen" : ""}>
          {label}
          {optional ? <span class="quiet"> {words.optional}</span> : null}
        </label>
        <select id={id} value={value ?? ""} onChange={(event) => onChange(event.currentTarget.value as Value)}>
          {value === null && <option value="">{words.choose}</option>}
          {options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.label}
            </option>
          ))}
        </select>
      </div>
    );
  }
  return (
    <fieldset class="choice">
      <legend class={hideLabel ? "unseen" : ""}>
        {label}
        {optional ? <span class="quiet"> {words.optional}</span> : null}
      </legend>
      <div class="cells">
        {options.map((option) => (
          <label key={option.value} class="cell">
            <input type="radio" name={id} checked={option.value === value} onChange={() => onChange(option.value)} />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** Yes or no, both in words. */
export function Flag(props: { label: string; value: boolean | null; onChange: (value: boolean) => void; optional?: boolean }) {
  return (
    <Choice
      label={props.label}
      options={[
        { value: "yes", label: words.yes },
        { value: "no", label: words.no },
      ]}
      value={props.value === null ? null : props.value ? "yes" : "no"}
      onChange={(value) => props.onChange(value === "yes")}
      optional={props.optional ?? false}
    />
  );
}
