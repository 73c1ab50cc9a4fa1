/** The steerer in section, lying as it lies in the saw guide: crown to the left, the end to the right. */

import { show } from "../units";
import { words } from "../words";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { Axis, Drawing, type Extent, plan, round } from "./plan";

/** Outer half width of each thing in the drawing, mm. The steerer is 28.6 mm for the drawing only. */
const HALF = { steerer: 14.3, wall: 3, head: 22, spacer: 19, stem: 24, crown: 30 };

export function SteererDrawing({ inputs, outputs }: FigureProps) {
  const of = (name: string): number => (typeof inputs[name] === "number" ? (inputs[name] as number) : 0);
  const result = (name: string): number | null => (typeof outputs?.[name] === "number" ? (outputs[name] as number) : null);
  const uncut = of("steerer_uncut");
  const pieces = [
    { name: "lower_stack", half: HALF.spacer },
    { name: "head_tube", half: HALF.head },
    { name: "upper_stack", half: HALF.spacer },
    { name: "spacers_below", half: HALF.spacer },
    { name: "stem_height", half: HALF.stem },
    { name: "spacers_above", half: HALF.spacer },
  ];
  const sum = pieces.reduce((total, piece) => total + of(piece.name), 0);
  const cut = result("cut_length");
  const bySum = result("cut_by_sum");
  const byMark = result("cut_by_mark");
  const end = Math.max(uncut, sum, 60);
  const extent: Extent = { left: -26, right: end + 6, bottom: -HALF.crown, top: HALF.crown };
  const sheet = plan(extent, { left: 4, right: 14, bottom: 62, top: 64 });
  const x = (mm: number) => round(sheet.at(mm, 0).x);
  const y = (mm: number) => round(sheet.at(0, mm).y);
  const box = (from: number, to: number, half: number, style: string) => (
    <rect class={style} x={x(from)} y={y(half)} width={round(Math.max(0, x(to) - x(from)))} height={round(y(-half) - y(half))} />
  );
  let at = 0;
  const placed = pieces.map((piece) => {
    const from = at;
    at += of(piece.name);
    return { ...piece, from, to: at };
  });
  const stem = placed.find((piece) => piece.name === "stem_height");
  const plug = of("plug_depth");
  const steererEnd = cut ?? bySum ?? uncut;
  const line = cut ?? bySum;
  const labelled = placed.filter((piece) => piece.to - piece.from > 0);
  return (
    <Drawing plan={sheet} says={says()}>
      <Axis from={{ x: x(-24), y: y(0) }} to={{ x: x(end) + 12, y: y(0) }} />
      {/* crown */}
      <path
        class="member member-filled"
        d={`M${x(0)} ${y(HALF.crown)} V${y(-HALF.crown)} L${x(-26)} ${y(-HALF.crown)} M${x(0)} ${y(HALF.crown)} L${x(-26)} ${y(HALF.crown)}`}
      />
      {placed.map((piece) =>
        piece.to > piece.from ? (
          <g key={piece.name}>{box(piece.from, piece.to, piece.half, "member member-thin member-filled")}</g>
        ) : null,
      )}
      {/* the tube, its walls hatched as cut through */}
      {uncut > 0 && (
        <>
          <rect class="member-filled" x={x(0)} y={y(HALF.steerer)} width={round(x(uncut) - x(0))} height={round(y(-HALF.steerer) - y(HALF.steerer))} />
          <rect fill="url(#hatch)" x={x(0)} y={y(HALF.steerer)} width={round(x(uncut) - x(0))} height={round(y(HALF.steerer - HALF.wall) - y(HALF.steerer))} />
          <rect fill="url(#hatch)" x={x(0)} y={y(-HALF.steerer + HALF.wall)} width={round(x(uncut) - x(0))} height={round(y(-HALF.steerer) - y(-HALF.steerer + HALF.wall))} />
          {box(0, Math.min(steererEnd, uncut), HALF.steerer, "member")}
          {uncut > steererEnd && box(steererEnd, uncut, HALF.steerer, "member member-guess")}
        </>
      )}
      {plug > 0 && line !== null && box(Math.max(0, line - plug), line, HALF.steerer - HALF.wall - 1.5, "member member-thin")}
      {stem === undefined || stem.to <= stem.from ? null : (
        <text class="words" x={round((x(stem.from) + x(stem.to)) / 2)} y={y(HALF.stem) - 6} text-anchor="middle">
          {words.drawing.stem}
        </text>
      )}
      {/* the cut */}
      {line === null ? null : (
        <>
          <path class={cut === null ? "cut cut-open" : "cut"} d={`M${x(line)} ${y(HALF.crown) - 14} V${y(-HALF.crown) + 44}`} />
          <Dimension
            from={{ x: x(0), y: y(-HALF.crown) + 34 }}
            to={{ x: x(line), y: y(-HALF.crown) + 34 }}
            text={show(line, "mm", 1) + (cut === null ? " ?" : "")}
            tone={cut === null ? "stop" : "blue"}
          />
          {uncut > line && (
            <Dimension
              from={{ x: x(line), y: y(-HALF.crown) + 34 }}
              to={{ x: x(uncut), y: y(-HALF.crown) + 34 }}
              text={show(uncut - line, "mm", 1)}
            />
          )}
        </>
      )}
      {byMark !== null && bySum !== null && Math.abs(byMark - bySum) > 0.05 && (
        <path class="cut cut-other" d={`M${x(byMark)} ${y(HALF.head)} V${y(-HALF.head)} M${x(bySum)} ${y(HALF.head)} V${y(-HALF.head)}`} />
      )}
      {/* the chain of parts above */}
      {labelled.map((piece) => (
        <g key={piece.name}>
          <path class="extension" d={`M${x(piece.from)} ${y(piece.half) - 3} V20 M${x(piece.to)} ${y(piece.half) - 3} V20`} />
          {x(piece.to) - x(piece.from) > 26 ? (
            <Dimension from={{ x: x(piece.from), y: 25 }} to={{ x: x(piece.to), y: 25 }} text={show(piece.to - piece.from, "mm", 1).replace(/ .*/, "")} />
          ) : (
            <text x={round((x(piece.from) + x(piece.to)) / 2)} y={14} text-anchor="middle">
              {show(piece.to - piece.from, "mm", 1).replace(/ .*/, "")}
            </text>
          )}
        </g>
      ))}
    </Drawing>
  );

  function says(): string {
    if (cut !== null) return words.drawing.steererCut(show(cut, "mm", 1), show(uncut - cut, "mm", 1));
    if (bySum !== null) return words.drawing.steererOpen(show(bySum, "mm", 1));
    return words.drawing.steerer;
  }
}
