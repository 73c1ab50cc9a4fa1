/** A ride: how far, how long, and whether it went down. */

import { useState } from "preact/hooks";
import { Caution } from "../../controls/caution";
import { Flag } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { TextField } from "../../controls/text-field";
import { show } from "../../units";
import { words } from "../../words";
import { BikeForm } from "./frame";

export function Ride() {
  const [km, setKm] = useState<number | null>(null);
  const [hours, setHours] = useState<number | null>(null);
  const [climb, setClimb] = useState<number | null>(null);
  const [fall, setFall] = useState<boolean | null>(null);
  const [note, setNote] = useState("");
  return (
    <BikeForm
      title={words.ways.ride}
      said={km === null ? "" : words.ride.said(show(km, "km", 1))}
      drafts={() =>
        km === null
          ? null
          : [
              {
                kind: "ride",
                body: {
                  km,
                  hours: hours ?? undefined,
                  climb: climb ?? undefined,
                  fall: fall ?? undefined,
                  note: note.trim() || undefined,
                },
              },
            ]
      }
    >
      <NumberField
        label={words.ride.distance}
        unit="km"
        value={km}
        onChange={setKm}
        step={1}
        digits={1}
        possible={[0, 2000]}
        start={40}
        big
      />
      <NumberField
        label={words.ride.hours}
        unit="h"
        value={hours}
        onChange={setHours}
        step={0.25}
        digits={2}
        possible={[0, 100]}
        start={2}
        optional
      />
      <NumberField
        label={words.ride.climb}
        unit="m"
        value={climb}
        onChange={setClimb}
        step={50}
        digits={0}
        possible={[0, 20000]}
        start={500}
        optional
      />
      <Flag label={words.ride.fall} value={fall} onChange={setFall} optional />
      {fall ? <Caution lines={[words.ride.fallCaution]} /> : null}
      <TextField label={words.note} value={note} onChange={setNote} lines optional />
    </BikeForm>
  );
}
