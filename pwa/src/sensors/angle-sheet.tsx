/** The phone as an angle gauge: read, turned end for end, read again. */

import { useEffect, useRef, useState } from "preact/hooks";
import { Sheet } from "../controls/sheet";
import { show } from "../units";
import { against, type Reading, settled, twoWay } from "./angle";
import type { ToolProps } from "./phone-button";
import { readRise } from "./readings";
import "./sensors.css";
import { useReading } from "./use-reading";
import { w } from "./words";

/** Two seconds of readings; fewer are no window yet. */
const WINDOW = 100;
/** After this long without one, ms, there is no sensor. */
const PATIENCE = 2500;

/** The phone's own zero, found by turning it; it holds until the page is left. */
let offset: Reading | null = null;
/** A side measured before, to hold the other against. */
let side: Reading | null = null;

const degrees = (value: number) => show(value, "°", 1);
const twice = (one: Reading) => Math.max(0.1, 2 * one.error);

export function AngleSheet({ field, onTake, onClose }: ToolProps) {
  const rises = useRef<number[]>([]);
  const [now, setNow] = useState<Reading | null>(null);
  const [silent, setSilent] = useState(false);
  const [first, setFirst] = useState<Reading | null>(null);
  const [result, setResult] = useState<Reading | null>(null);
  const [, setKept] = useState(side);
  const { state, start } = useReading(() =>
    readRise((degree) => {
      rises.current = [...rises.current.slice(1 - WINDOW), degree];
    }),
  );
  useEffect(() => {
    if (state !== "running") return;
    const since = Date.now();
    const timer = setInterval(() => {
      setNow(rises.current.length < WINDOW ? null : settled(rises.current));
      setSilent(rises.current.length === 0 && Date.now() - since > PATIENCE);
    }, 200);
    return () => clearInterval(timer);
  }, [state]);
  const read = () => {
    if (now === null) return;
    if (first === null) {
      setFirst(now);
    } else {
      const both = twoWay(first, now);
      offset = { value: both.offset, error: both.error, still: both.still };
      setResult(both);
    }
    // The next window begins after the phone was turned, not in it.
    rises.current = [];
    setNow(null);
  };
  const again = () => {
    setFirst(null);
    setResult(null);
  };
  const zeroed = first !== null && offset !== null ? against(first, offset) : null;
  const offered = result ?? zeroed;
  return (
    <Sheet title={w.angleTitle} onClose={onClose}>
      <p>{w.angle.how}</p>
      <p class="quiet">{w.angle.case}</p>
      {state === "refused" ? <p role="alert">{w.refused}</p> : null}
      {silent ? <p role="alert">{w.silent}</p> : null}
      {state !== "running" ? (
        <button type="button" class="button main wide" onClick={() => void start()}>
          {w.start}
        </button>
      ) : (
        <>
          <p class="sensed" aria-live="off">
            <span class="figure">{now === null ? "–" : degrees(now.value)}</span>
            <span class="figure quiet">{now === null ? "" : w.spread(degrees(twice(now)))}</span>
          </p>
          <p role="status">{now === null ? " " : now.still ? w.angle.still : w.angle.unsteady}</p>
          {result === null ? (
            <>
              <p>
                <strong>{first === null ? w.angle.first : w.angle.turned}</strong>
                {first === null ? null : <span class="figure quiet"> {degrees(first.value)}</span>}
              </p>
              <button type="button" class="button main wide" disabled={now?.still !== true} onClick={read}>
                {w.read}
              </button>
            </>
          ) : null}
        </>
      )}
      {first === null && now?.still && offset === null ? (
        <>
          <p class="quiet">{w.angle.single}</p>
          <button
            type="button"
            class="button small wide"
            onClick={() => {
              offset = now;
              setKept(side);
            }}
          >
            {w.angle.level}
          </button>
        </>
      ) : null}
      {offset === null ? null : <p class="quiet figure">{w.angle.zeroed(degrees(offset.value))}</p>}
      {offered === null ? null : (
        <>
          <p class="sensed">
            <span>{w.angle.result}</span>
            <strong class="figure">{degrees(offered.value)}</strong>
            <span class="figure">{w.spread(degrees(twice(offered)))}</span>
          </p>
          <p class="quiet">{w.angle.weak}</p>
          {side === null ? null : <p class="figure">{w.angle.differs(differing(against(offered, side)))}</p>}
          <button
            type="button"
            class="button main wide"
            onClick={() => onTake({ [field]: { value: tenth(offered.value), plusMinus: tenth(twice(offered)) } })}
          >
            {w.take(degrees(offered.value))}
          </button>
          <div class="buttons">
            <button type="button" class="button small" onClick={again}>
              {w.again}
            </button>
            <button
              type="button"
              class="button small"
              onClick={() => {
                side = offered;
                setKept(side);
                again();
              }}
            >
              {w.angle.keepSide}
            </button>
          </div>
        </>
      )}
      <p class="quiet">{w.private}</p>
    </Sheet>
  );
}

function differing(one: Reading): string {
  return `${degrees(one.value)} ${w.spread(degrees(twice(one)))}`;
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
