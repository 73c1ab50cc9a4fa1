/** The phone as an ear for spokes: the lowest partial over the last plucks. */

import { useState } from "preact/hooks";
import { Sheet } from "../controls/sheet";
import { show } from "../units";
import type { ToolProps } from "./phone-button";
import { readPlucks } from "./readings";
import "./sensors.css";
import { mayBeOctave, together } from "./tone";
import { useReading } from "./use-reading";
import { w } from "./words";

const LAST = 5;
/** Tension goes with the square of the tone: 3 % here are 6 % there. */
const APART = 0.03;
const ANY: [number, number] = [100, 1200];

export function ToneSheet({ field, usual, onTake, onClose }: ToolProps) {
  const [tones, setTones] = useState<number[]>([]);
  const [range, setRange] = useState<[number, number]>(ANY);
  const { state, start } = useReading(async () => {
    const found = (await usual()) ?? ANY;
    setRange(found);
    return readPlucks(Math.max(60, found[0] / 2), Math.min(2000, found[1] * 2.2), ({ hz }) =>
      setTones((before) => [...before.slice(1 - LAST), hz]),
    );
  });
  const all = together(tones);
  const last = tones.at(-1);
  const apart = all !== null && Math.max(...tones) - Math.min(...tones) > APART * all.hz;
  const outside = all !== null && (all.hz < range[0] || all.hz > range[1]);
  return (
    <Sheet title={w.toneTitle} onClose={onClose}>
      <p>{w.tone.how}</p>
      {state === "refused" ? <p role="alert">{w.refused}</p> : null}
      {state !== "running" ? (
        <button type="button" class="button main wide" onClick={() => void start()}>
          {w.start}
        </button>
      ) : (
        <>
          <p class="sensed">
            <strong class="figure">
              {all !== null ? show(all.hz, "Hz", 0) : last !== undefined ? show(last, "Hz", 0) : "–"}
            </strong>
            <span class="figure">{all === null ? "" : w.spread(show(all.plusMinus, "Hz", 1))}</span>
          </p>
          <p role="status">
            {tones.length === 0 ? w.tone.listening : w.tone.plucks(tones.length)}
            <span class="figure quiet"> {tones.map((one) => one.toFixed(0)).join(" · ")}</span>
          </p>
          {all === null ? <p class="quiet">{w.tone.more}</p> : null}
          {outside ? <p role="alert">{mayBeOctave(all.hz, range) ? w.tone.octave : w.tone.outside}</p> : null}
          {apart ? <p role="alert">{w.tone.apart}</p> : null}
          <button
            type="button"
            class="button main wide"
            disabled={all === null || apart}
            onClick={() =>
              all === null
                ? undefined
                : onTake({
                    [field]: { value: Math.round(all.hz), plusMinus: Math.ceil(10 * Math.hypot(all.plusMinus, 0.3)) / 10 },
                  })
            }
          >
            {w.take(all === null ? "–" : show(all.hz, "Hz", 0))}
          </button>
          <button type="button" class="button small" onClick={() => setTones([])}>
            {w.again}
          </button>
        </>
      )}
      <p class="quiet">{w.private}</p>
    </Sheet>
  );
}
