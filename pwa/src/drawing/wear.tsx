/** Readings, the line through them, the limit, and when it is reached at the earliest, most likely and latest. */

import { formatNumber } from "../units";
import type { FigureProps } from "./catalogue";
import { Drawing, round } from "./plan";
import { num, rows } from "./reading";
import { evenStep } from "./scale";
import "./scale.css";
import { drawingWords as say } from "./words";

const FIELD = { left: 44, right: 346, top: 16, bottom: 176 };

export function WearDrawing({ inputs, outputs }: FigureProps) {
  const readings = rows(inputs, "readings").flatMap((row) => {
    const [at, value] = [num(row, "at"), num(row, "value")];
    return at === null || value === null ? [] : [{ at, value }];
  });
  const [limit, now] = [num(inputs, "limit"), num(inputs, "now")];
  const [rate, atLimit, earliest, latest] = [
    num(outputs, "rate"),
    num(outputs, "at_limit"),
    num(outputs, "earliest"),
    num(outputs, "latest"),
  ];
  const ends = [...readings.map((one) => one.at), now, atLimit, earliest].filter((value) => value !== null);
  const values = [...readings.map((one) => one.value), limit].filter((value) => value !== null);
  const [low, soon] = ends.length === 0 ? [0, 1] : [Math.min(...ends), Math.max(...ends)];
  // A latest day far off would press the readings together: it runs out of the field, with an arrow.
  const high = Math.max(soon + (soon - low) * 0.08, Math.min(latest ?? soon, low + (soon - low) * 1.6), low + 1e-6);
  const [least, most] = values.length === 0 ? [0, 1] : [Math.min(...values), Math.max(...values)];
  const air = (most - least) * 0.14 || Math.abs(most) * 0.1 || 1;
  const [bottom, top] = [least >= 0 ? Math.max(0, least - air) : least - air, most + air];
  const x = (value: number) => round(FIELD.left + ((value - low) / (high - low)) * (FIELD.right - FIELD.left));
  const y = (value: number) => round(FIELD.bottom - ((value - bottom) / (top - bottom)) * (FIELD.bottom - FIELD.top));
  const inside = (value: number) => Math.min(FIELD.right, Math.max(FIELD.left, x(value)));
  const grid = (from: number, to: number, many: number) => {
    const step = evenStep(to - from, many);
    const digits = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
    const first = Math.ceil(from / step - 1e-9);
    return Array.from({ length: Math.max(0, Math.min(20, Math.floor(to / step + 1e-9) - first + 1)) }, (_, i) => ({
      value: (first + i) * step,
      text: formatNumber((first + i) * step, digits),
    }));
  };
  const sheet = { width: 360, height: 234, scale: 1, at: (across: number, up: number) => ({ x: across, y: -up }) };
  // The line of least squares goes through the mean of the readings.
  const mean = { at: average(readings.map((one) => one.at)), value: average(readings.map((one) => one.value)) };
  const fit = (at: number) => mean.value + (rate ?? 0) * (at - mean.at);
  const shown = (value: number | null) => (value === null ? null : formatNumber(value, 0));
  const to = atLimit !== null ? Math.max(atLimit, now ?? low) : high;
  const told = say.forecast(limit === null ? null : formatNumber(limit, 2), shown(atLimit), shown(earliest), shown(latest));
  return (
    <Drawing plan={sheet} says={told}>
      <path
        class="ladder-rule"
        d={grid(bottom, top, 5)
          .map((tick) => `M${FIELD.left} ${y(tick.value)} H${FIELD.right}`)
          .join(" ")}
      />
      {grid(bottom, top, 5).map((tick) => (
        <text key={tick.text} class="scale-figure" x={FIELD.left - 6} y={y(tick.value) + 4} text-anchor="end">
          {tick.text}
        </text>
      ))}
      <path
        class="scale-tick"
        d={grid(low, high, 6)
          .map((tick) => `M${x(tick.value)} ${FIELD.bottom} v8`)
          .join(" ")}
      />
      {grid(low, high, 6).map((tick) => (
        <text key={tick.text} class="scale-figure" x={x(tick.value)} y={FIELD.bottom + 21} text-anchor="middle">
          {tick.text}
        </text>
      ))}
      <path class="scale-line" d={`M${FIELD.left} ${FIELD.top} V${FIELD.bottom} H${FIELD.right}`} />
      {limit === null ? null : (
        <>
          {earliest !== null && latest !== null && (
            <rect
              class="band-care"
              x={inside(earliest)}
              y={y(limit) - 7}
              width={round(Math.max(1, inside(latest) - inside(earliest)))}
              height="14"
            />
          )}
          <path class="pointer pointer-stop" d={`M${FIELD.left} ${y(limit)} H${FIELD.right}`} />
          <text class="words stop" x={FIELD.left + 8} y={y(limit) - 7}>
            {say.limit} {formatNumber(limit, 2)}
          </text>
        </>
      )}
      {rate !== null && readings.length > 1 && (
        <path class="pointer pointer-blue" d={`M${x(low)} ${y(fit(low))} L${inside(to)} ${y(fit(Math.min(to, high)))}`} />
      )}
      {now === null ? null : (
        <>
          <path class="pointer pointer-dashed" d={`M${x(now)} ${FIELD.top} V${FIELD.bottom}`} />
          <text class="words" x={x(now)} y={FIELD.top - 4} text-anchor="middle">
            {say.now}
          </text>
        </>
      )}
      {readings.map((one) => (
        <circle key={`${one.at} ${one.value}`} class="tip" cx={x(one.at)} cy={y(one.value)} r="4.5" />
      ))}
      {atLimit !== null && limit !== null && (
        <circle class="member member-blue member-filled" cx={inside(atLimit)} cy={y(limit)} r="6" />
      )}
      <text class="blue" x={FIELD.right} y={FIELD.bottom + 46} text-anchor="end">
        {atLimit === null
          ? "?"
          : earliest === null || latest === null
            ? formatNumber(atLimit, 0)
            : `${formatNumber(atLimit, 0)} (${formatNumber(earliest, 0)} – ${formatNumber(latest, 0)})`}
      </text>
    </Drawing>
  );
}

function average(values: number[]): number {
  return values.length === 0 ? 0 : values.reduce((sum, one) => sum + one, 0) / values.length;
}
