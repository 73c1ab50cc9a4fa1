/** A stop watched by the phone's location, offered only as far as it is known well enough. */

import { useState } from "preact/hooks";
import { Caution } from "../controls/caution";
import { Sheet } from "../controls/sheet";
import { show } from "../units";
import type { Measured, ToolProps } from "./phone-button";
import { readFixes } from "./readings";
import "./sensors.css";
import { type Fix, stopIn } from "./stopping";
import { useReading } from "./use-reading";
import { w } from "./words";

/** Ten minutes of fixes: nothing older is a stop one still wants. */
const TRACK = 600;

export function StopSheet({ onTake, onClose }: ToolProps) {
  const [track, setTrack] = useState<Fix[]>([]);
  const reading = useReading(async () =>
    readFixes(
      (fix) => setTrack((before) => [...before.slice(1 - TRACK), fix]),
      () => reading.refuse(),
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
    <Sheet title={w.stopTitle} onClose={onClose}>
      <Caution lines={w.stop.cautions} />
      <p>{w.stop.how}</p>
      {reading.state === "refused" ? <p role="alert">{w.refused}</p> : null}
      {reading.state !== "running" ? (
        <button type="button" class="button main wide" onClick={() => void reading.start()}>
          {w.start}
        </button>
      ) : (
        <>
          <p role="status">
            {last === undefined ? w.stop.waiting : w.stop.watching(show(last.accuracy, "m", 0))}
            {last?.speed == null ? null : (
              <span class="figure">
                {" "}
                {w.stop.now} {show(last.speed * 3.6, "km/h", 0)}
              </span>
            )}
          </p>
          {last !== undefined && (last.speed === null || last.accuracy > 15) ? <p role="alert">{w.stop.poor}</p> : null}
          {stop === null ? (
            <p class="quiet">{w.stop.waiting}</p>
          ) : (
            <>
              <Line label={w.stop.speed} value={stop.speed * 3.6} plusMinus={stop.speedPlusMinus * 3.6} unit="km/h" />
              <Line label={w.stop.distance} value={stop.distance} plusMinus={stop.distancePlusMinus} unit="m" />
              {stop.coarse ? <p role="alert">{w.stop.coarse}</p> : null}
              <button type="button" class="button main wide" onClick={take}>
                {w.take(
                  stop.coarse
                    ? show(stop.speed * 3.6, "km/h", 1)
                    : `${show(stop.speed * 3.6, "km/h", 1)}, ${show(stop.distance, "m", 1)}`,
                )}
              </button>
              <button type="button" class="button small" onClick={() => setTrack([])}>
                {w.again}
              </button>
            </>
          )}
        </>
      )}
      <p class="quiet">{w.private}</p>
    </Sheet>
  );
}

function Line({ label, value, plusMinus, unit }: { label: string; value: number; plusMinus: number; unit: string }) {
  return (
    <p class="sensed">
      <span>{label}</span>
      <strong class="figure">{show(value, unit, 1)}</strong>
      <span class="figure">{w.spread(show(plusMinus, unit, 1))}</span>
    </p>
  );
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
