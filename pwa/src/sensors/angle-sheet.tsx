/** The phone as an angle gauge: read, turned end for end, read again. */

import { useEffect, useRef, useState } from "preact/hooks";
import { show } from "../units";
import { against, type Reading, settled, twoWay } from "./angle";
import { type ToolProps, tenth } from "./phone-button";
import { readRise } from "./readings";
import { Sensed, ToolSheet } from "./tool-sheet";
import { useReading } from "./use-reading";
import { w } from "./words";

/** Two seconds of readings; fewer are no window yet. */
const WINDOW = 100;
/** After this long without one, ms, there is no sensor. */
const PATIENCE = 2500;

/** The phone's own zero, found by turning it; it holds until the page is left. */
let zero: Reading | null = null;
/** A side measured before, to hold the other against. */
let side: Reading | null = null;

const degrees = (value: number) => show(value, "°", 1);

export function AngleSheet({ field, onTake, onClose }: ToolProps) {
  const rises = useRef<number[]>([]);
  const heard = useRef(false);
  const [now, setNow] = useState<Reading | null>(null);
  const [first, setFirst] = useState<Reading | null>(null);
  const [both, setBoth] = useState<Reading | null>(null);
  const reading = useReading(() =>
    readRise((degree) => {
      heard.current = true;
      rises.current = [...rises.current.slice(1 - WINDOW), degree];
    }),
  );
  useEffect(() => {
    if (reading.state !== "running") return;
    const since = Date.now();
    const timer = setInterval(() => {
      setNow(rises.current.length < WINDOW ? null : settled(rises.current));
      if (!heard.current && Date.now() - since > PATIENCE) reading.fail("none");
    }, 200);
    return () => clearInterval(timer);
  }, [reading.state]);
  const from = (one: Reading | null) => {
    setFirst(one);
    setBoth(null);
    // The next window begins after the phone was turned, not in it.
    rises.current = [];
    setNow(null);
  };
  const read = () => {
    if (now === null) return;
    if (first === null) return from(now);
    const found = twoWay(first, now);
    zero = { ...found, value: found.offset };
    setBoth(found);
  };
  const offered = both ?? (first !== null && zero !== null ? against(first, zero) : null);
  return (
    <ToolSheet title={w.angleTitle} words={w.angle} reading={reading} onClose={onClose}>
      {offered === null ? (
        <>
          {zero !== null ? null : first === null ? (
            <p>{w.angle.first}</p>
          ) : (
            <p>
              {w.angle.turned} <span class="figure quiet">{degrees(first.value)}</span>
            </p>
          )}
          <Sensed figure={now === null ? "–" : degrees(now.value)} spread={now === null ? null : degrees(now.plusMinus)} />
          <p role="status">{now === null ? " " : now.still ? w.angle.still : w.angle.unsteady}</p>
          <button type="button" class="button main wide" disabled={now?.still !== true} onClick={read}>
            {w.angle.read}
          </button>
        </>
      ) : null}
      {first === null && zero === null ? (
        <>
          <p class="quiet">{w.angle.single}</p>
          <button
            type="button"
            class="button small"
            disabled={now?.still !== true}
            onClick={() => {
              zero = now;
              from(null);
            }}
          >
            {w.angle.level}
          </button>
        </>
      ) : null}
      {zero === null ? null : <p class="quiet figure">{w.angle.zeroed(degrees(zero.value))}</p>}
      {offered === null ? null : (
        <>
          <Sensed label={w.angle.result} figure={degrees(offered.value)} spread={degrees(offered.plusMinus)} />
          {side === null ? null : <Differs one={against(offered, side)} />}
          <button
            type="button"
            class="button main wide"
            onClick={() => onTake({ [field]: { value: tenth(offered.value), plusMinus: tenth(offered.plusMinus) } })}
          >
            {w.take(degrees(offered.value))}
          </button>
          <div class="buttons">
            <button type="button" class="button small" onClick={() => from(null)}>
              {w.again}
            </button>
            <button
              type="button"
              class="button small"
              onClick={() => {
                side = offered;
                from(null);
              }}
            >
              {w.angle.keep}
            </button>
          </div>
        </>
      )}
    </ToolSheet>
  );
}

function Differs({ one }: { one: Reading }) {
  return <Sensed label={w.angle.differs} figure={degrees(one.value)} spread={degrees(one.plusMinus)} />;
}
