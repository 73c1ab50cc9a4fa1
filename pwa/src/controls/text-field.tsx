/** A line or a few lines of words. */

import { useId } from "preact/hooks";
import { words } from "../words";
import "./text-field.css";

interface Props {
  label: string;
  value: string;
  onChange: (value: string) => void;
  help?: string | undefined;
  optional?: boolean;
  lines?: boolean;
  type?: "text" | "search" | "date";
  problem?: string | undefined;
  hideLabel?: boolean;
}

export function TextField(props: Props) {
  const id = useId();
  const told = {
    id,
    class: "text",
    value: props.value,
    "aria-invalid": props.problem !== undefined,
    "aria-describedby": `${id}-more`,
    onInput: (event: { currentTarget: { value: string } }) => props.onChange(event.currentTarget.value),
  };
  return (
    <div class="text-field">
      <label for={id} class={props.hideLabel ? "unseen" : ""}>
        {props.label}
        {props.optional ? <span class="quiet"> {words.optional}</span> : null}
      </label>
      {props.lines ? (
        <textarea rows={3} {...told} />
      ) : props.type === "search" ? (
        <input type="search" autocomplete="off" placeholder={props.label} {...told} />
      ) : props.type === "date" ? (
        <input type="date" {...told} />
      ) : (
        <input type="text" autocomplete="off" {...told} />
      )}
      <div id={`${id}-more`} class="quiet">
        {props.help}
        {props.problem ? <p class="number-problem">{props.problem}</p> : null}
      </div>
    </div>
  );
}
