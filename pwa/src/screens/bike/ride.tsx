/** A ride: how far, how long, and whether it went down. */

import { useEffect, useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Caution } from "../../controls/caution";
import { Flag } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { RIDE_CLIMB, RIDE_HOURS, RIDE_KM } from "../../controls/ranges";
import { TextField } from "../../controls/text-field";
import { GpxError, readGpx, type Track } from "../../files/gpx";
import { dropShared, sharedFile } from "../../files/shared";
import { kernel } from "../../kernel/client";
import { show } from "../../units";
import { words } from "../../words";
import { dateOf } from "../when";
import { BikeForm } from "./frame";
import { w } from "./use-words";

export function Ride() {
  const [km, setKm] = useState<number | null>(null);
  const [hours, setHours] = useState<number | null>(null);
  const [climb, setClimb] = useState<number | null>(null);
  const [fall, setFall] = useState<boolean | null>(null);
  const [note, setNote] = useState("");
  const [read, setRead] = useState<Track | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    setProblem(null);
    try {
      const track = readGpx(await file.text());
      setRead(track);
      setKm(Math.round(track.km * 10) / 10);
      setHours(track.hours === null ? null : Math.round(track.hours * 100) / 100);
      setClimb(track.climb);
    } catch (error) {
      setRead(null);
      setProblem(w.ride.problem(error instanceof GpxError ? error.message : String(error)));
    }
  };
  const { query } = useLocation();
  useEffect(() => {
    if (query.shared === undefined) return;
    void sharedFile().then(async (file) => {
      await take(file ?? undefined);
      await dropShared();
    });
  }, []);
  return (
    <BikeForm
      title={words.ways.ride}
      doubts={() => (km === null ? Promise.resolve([]) : kernel.doubtsOfRide(km, hours))}
      said={km === null ? words.ride.fallSaid : words.ride.said(show(km, "km", 1))}
      drafts={() =>
        // Who went down need not know how far they had come.
        km === null && fall !== true
          ? null
          : [
              {
                kind: "ride",
                body: {
                  km: km ?? 0,
                  hours: hours ?? undefined,
                  climb: climb ?? undefined,
                  fall: fall ?? undefined,
                  source: read === null ? "typed" : w.ride.source,
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
        possible={RIDE_KM}
        start={40}
        optional={fall === true}
        big
      />
      <NumberField
        label={words.ride.hours}
        unit="h"
        value={hours}
        onChange={setHours}
        step={0.25}
        digits={2}
        possible={RIDE_HOURS}
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
        possible={RIDE_CLIMB}
        start={500}
        optional
      />
      <div class="gpx">
        <label class="button small file">
          {w.ride.file}
          <input
            type="file"
            class="unseen"
            accept=".gpx,application/gpx+xml"
            onChange={(event) => {
              const { currentTarget } = event;
              void take(currentTarget.files?.[0]);
              currentTarget.value = "";
            }}
          />
        </label>
        <p class={problem === null ? "quiet" : "problem"} role="status">
          {problem ??
            (read === null ? w.ride.fileHelp : w.ride.read(read.points, read.startedAt === null ? "" : dateOf(read.startedAt)))}
        </p>
      </div>
      <Flag label={words.ride.fall} value={fall} onChange={setFall} optional />
      {fall ? <Caution lines={[words.ride.fallCaution]} /> : null}
      <TextField label={words.note} value={note} onChange={setNote} lines optional />
    </BikeForm>
  );
}
