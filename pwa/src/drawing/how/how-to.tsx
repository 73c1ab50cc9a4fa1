/** How a thing is measured, with a drawing: open while it was never measured here, else a line that opens. */

import { drawingWords as say } from "../words";
import { howTo } from "./catalogue";
import { PartHow } from "./parts";
import { SideHow } from "./side";
import "./how-to.css";

interface Props {
  /** The measure's name on the record. */
  what: string;
  label: string;
  /** What its own declaration says; the drawing's words stand in where it says nothing. */
  help?: string | undefined;
  open: boolean;
}

export function HowTo({ what, label, help, open }: Props) {
  const how = howTo(what);
  if (how === null) return help ? <p class="quiet">{help}</p> : null;
  const says = say.how.drawn(label);
  const text = help || say.how.texts["place" in how ? how.place : how.part];
  return (
    <details class="how-to" open={open}>
      <summary>{say.how.title}</summary>
      {"place" in how ? <SideHow place={how.place} says={says} /> : <PartHow part={how.part} says={says} />}
      {text ? <p>{text}</p> : null}
    </details>
  );
}
