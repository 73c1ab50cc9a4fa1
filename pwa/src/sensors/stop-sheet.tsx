/** A stop watched by the phone's location, offered only as far as it is known well enough. */

import { useState } from "preact/hooks";
import { show } from "../units";
import { type Measured, type ToolProps, tenth } from "./phone-button";
import { readFixes } from "./readings";
import { type Fix, POOR, stopIn } from "./stopping";
import { Sensed, ToolSheet } from "./tool-sheet";
import { useReading } from "./use-reading";
import { w } from "./words";

/** A minute or more of fixes: an older stop is not the one just made. */
const TRACK = 120;

const kmh = (speed: number) => show(speed * 3.6, "km/h", 1);
const metres = (distance: number) => show(distance, "m", 1);

export function StopSheet({ onTake, onClose }: ToolProps) {
  const [track, setTrack] = useState<Fix[]>([]);
  const reading = useReading(async () =>
    readFixes(
      (fix) => setTrack((before) => [...before.slice(1 - TRACK), fix]),
      () => reading.fail("refused"),
    ),
  );
  const last = track.at(-1);
  const stop = stopIn(track);
  const take = () => {
    if (stop === null) return;
    const taken: Record<string, Measured> = {
      speed: { value: tenth(stop.speed * 3.6), plusMinus: tenth(stop.speedPlusMinus * 3.6) },
    };
    if (!stop.coarse) taken.distance = { value: tenth(stop.distance), plusMinus: tenth(stop.distancePlusMinus) };
    onTake(taken);
  };
  return (
    <ToolSheet title={w.stopTitle} words={w.stop} reading={reading} onClose={onClose}>
      <p role="status">
        {last === undefined ? w.stop.searching : w.stop.watching(show(last.accuracy, "m", 0))}
        {last !== undefined && stop === null ? ` ${w.stop.waiting}` : null}
      </p>
      {last !== undefined && (last.speed === null || last.accuracy > POOR) ? <p role="alert">{w.stop.poor}</p> : null}
      {stop === null ? (
        <Sensed label={w.stop.speed} figure={last?.speed == null ? "–" : kmh(last.speed)} spread={null} />
      ) : (
        <>
          <Sensed label={w.stop.speed} figure={kmh(stop.speed)} spread={kmh(stop.speedPlusMinus)} />
          <Sensed label={w.stop.distance} figure={metres(stop.distance)} spread={metres(stop.distancePlusMinus)} />
          {stop.coarse ? <p role="alert">{w.stop.coarse}</p> : null}
          <button type="button" class="button main wide" onClick={take}>
            {w.take(stop.coarse ? kmh(stop.speed) : `${kmh(stop.speed)}, ${metres(stop.distance)}`)}
          </button>
          <button type="button" class="button small" onClick={() => setTrack([])}>
            {w.again}
          </button>
        </>
      )}
    </ToolSheet>
  );
}
