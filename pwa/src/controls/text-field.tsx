/** A line or a few lines of words. */

import { useId } from "preact/hooks";
import { lengthOf, MOST_NAME, MOST_WORDS } from "../store/limits";
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
  /** The most characters an entry takes here. */
  most?: number;
}

export function TextField(props: Props) {
  const id = useId();
  const most = props.most ?? (props.lines ? MOST_WORDS : MOST_NAME);
  const many = props.value.length > most ? lengthOf(props.value) : 0;
  const problem = many > most ? words.tooLong(many, most) : props.problem;
  const told = {
    id,
    class: "text",
    value: props.value,
    "aria-invalid": problem !== undefined,
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
        {problem ? (
          <p class="number-problem" role={many > most ? "alert" : undefined}>
            {problem}
          </p>
        ) : null}
      </div>
    </div>
  );
}
