/** The phone as an ear for spokes: the lowest partial over the last plucks. */

import { useState } from "preact/hooks";
import { show } from "../units";
import { type ToolProps, tenth } from "./phone-button";
import { readPlucks } from "./readings";
import { mayBeOctave, together } from "./tone";
import { Sensed, ToolSheet } from "./tool-sheet";
import { useReading } from "./use-reading";
import { w } from "./words";

const LAST = 5;
/** Tension goes with the square of the tone: 3 % here are 6 % there. */
const APART = 0.03;
const ANY: [number, number] = [100, 1200];

const hertz = (tone: number) => show(tone, "Hz", 0);

export function ToneSheet({ field, usual, onTake, onClose }: ToolProps) {
  const [tones, setTones] = useState<number[]>([]);
  const [range, setRange] = useState<[number, number]>(ANY);
  const reading = useReading(async () => {
    const found = (await usual()) ?? ANY;
    setRange(found);
    return readPlucks(Math.max(60, found[0] / 2), Math.min(2000, found[1] * 2.2), (hz) =>
      setTones((before) => [...before.slice(1 - LAST), hz]),
    );
  });
  const all = together(tones);
  const hz = all?.hz ?? tones.at(-1);
  const apart = all !== null && Math.max(...tones) - Math.min(...tones) > APART * all.hz;
  const outside = all !== null && (all.hz < range[0] || all.hz > range[1]);
  return (
    <ToolSheet title={w.toneTitle} words={w.tone} reading={reading} onClose={onClose}>
      <Sensed figure={hz === undefined ? "–" : hertz(hz)} spread={all === null ? null : show(all.plusMinus, "Hz", 1)} />
      <p role="status">
        {tones.length === 0 ? w.tone.listening : w.tone.plucks(tones.length)}
        <span class="figure quiet"> {tones.map((one) => one.toFixed(0)).join(" ")}</span>
      </p>
      {all === null ? <p class="quiet">{w.tone.more}</p> : null}
      {outside ? <p role="alert">{mayBeOctave(all.hz, range) ? w.tone.octave : w.tone.outside}</p> : null}
      {apart ? <p role="alert">{w.tone.apart}</p> : null}
      {all === null ? null : (
        <>
          <button
            type="button"
            class="button main wide"
            disabled={apart}
            onClick={() => onTake({ [field]: { value: Math.round(all.hz), plusMinus: tenth(Math.hypot(all.plusMinus, 0.3)) } })}
          >
            {w.take(hertz(all.hz))}
          </button>
          <button type="button" class="button small" onClick={() => setTones([])}>
            {w.again}
          </button>
        </>
      )}
    </ToolSheet>
  );
}
