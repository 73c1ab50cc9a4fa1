/**
 * The steerer in section, lying as it lies in the saw guide: crown to the left, the end to the right. Lengths are to scale; across
 * the axis it is drawn wider, so that wall and plug can be told apart.
 */

import { show, unitOf } from "../units";
import { words } from "../words";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { figure } from "./figures";
import { Axis, Drawing, plan, round } from "./plan";

/** Half widths across the axis, sheet units. */
const HALF = { steerer: 24, wall: 6, head: 36, spacer: 31, stem: 41, crown: 52, plug: 14 };
const MIDDLE = 118;
const HEIGHT = 236;
/** Rows of dimensions: small parts, large parts, the cut. */
const ROW = { small: 14, chain: 34, names: 52, cut: 208, cutText: 212 };
const FIGURE = 8.8;

const PIECES = [
  { name: "lower_stack", half: HALF.spacer },
  { name: "head_tube", half: HALF.head },
  { name: "upper_stack", half: HALF.spacer },
  { name: "spacers_below", half: HALF.spacer },
  { name: "stem_height", half: HALF.stem },
  { name: "spacers_above", half: HALF.spacer },
];

export function SteererDrawing({ inputs, outputs }: FigureProps) {
  const of = (name: string): number => (typeof inputs[name] === "number" ? (inputs[name] as number) : 0);
  const result = (name: string): number | null => (typeof outputs?.[name] === "number" ? (outputs[name] as number) : null);
  const uncut = of("steerer_uncut");
  const cut = result("cut_length");
  const bySum = result("cut_by_sum");
  const byMark = result("cut_by_mark");
  let from = 0;
  const pieces = PIECES.map((piece) => {
    const placed = { ...piece, from, to: from + of(piece.name) };
    from = placed.to;
    return placed;
  }).filter((piece) => piece.to > piece.from);
  const end = Math.max(uncut, from, 60);
  const sheet = {
    ...plan({ left: -22, right: end, bottom: 0, top: 1 }, { left: 2, right: 10, bottom: 0, top: 0 }),
    height: HEIGHT,
  };
  const x = (mm: number) => round(sheet.at(mm, 0).x);
  const y = (across: number) => MIDDLE - across;
  const line = cut ?? bySum;
  const kept = Math.min(line ?? uncut, uncut);
  const plug = of("plug_depth");
  const box = (left: number, right: number, half: number, style: string) => (
    <rect class={style} x={x(left)} y={y(half)} width={round(Math.max(0, x(right) - x(left)))} height={2 * half} />
  );
  const wall = (top: number) => (
    <rect fill="url(#hatch)" x={x(0)} y={y(top)} width={round(Math.max(0, x(kept) - x(0)))} height={HALF.wall} />
  );
  // Figures of parts too short for a dimension line stand above, pushed apart so that none covers another.
  let free = 0;
  const chain = pieces.map((piece) => {
    const text = figure(piece.to - piece.from);
    const wide = text.length * FIGURE;
    const middle = (x(piece.from) + x(piece.to)) / 2;
    const roomy = x(piece.to) - x(piece.from) > wide + 24;
    const at = roomy ? middle : Math.max(middle, free + wide / 2 + 4);
    if (!roomy) free = at + wide / 2;
    return { ...piece, text, middle, at, roomy };
  });
  return (
    <figure>
      <Drawing plan={sheet} says={says()}>
        <path
          class="member member-thin"
          d={`M${x(-22)} ${y(HALF.crown - 8)} L${x(0)} ${y(HALF.crown)} V${y(-HALF.crown)} L${x(-22)} ${y(-HALF.crown + 8)}`}
        />
        {pieces.map((piece) => (
          <g key={piece.name}>{box(piece.from, piece.to, piece.half, "member member-thin member-filled")}</g>
        ))}
        {uncut > 0 && (
          <>
            {uncut > kept && box(kept, uncut, HALF.steerer, "member member-guess")}
            {box(0, kept, HALF.steerer, "member member-filled")}
            {wall(HALF.steerer)}
            {wall(-HALF.steerer + HALF.wall)}
            <path
              class="member member-thin"
              d={`M${x(0)} ${y(HALF.steerer - HALF.wall)} H${x(kept)} M${x(0)} ${y(-HALF.steerer + HALF.wall)} H${x(kept)}`}
            />
          </>
        )}
        {plug > 0 && line !== null && box(Math.max(0, line - plug), line, HALF.plug, "member member-thin")}
        {plug > 0 && line !== null && x(line) - x(line - plug) > 40 && (
          <text class="words" x={round((x(line) + x(Math.max(0, line - plug))) / 2)} y={MIDDLE + 4} text-anchor="middle">
            {words.drawing.plug}
          </text>
        )}
        <Axis
          from={{ x: x(-22), y: MIDDLE }}
          to={{ x: x(plug > 0 && line !== null ? Math.max(0, line - plug) : kept), y: MIDDLE }}
        />
        {chain.map((piece) => (
          <g key={piece.name}>
            <path
              class="extension"
              d={`M${x(piece.from)} ${y(piece.half) - 3} V${ROW.chain - 5} M${x(piece.to)} ${y(piece.half) - 3} V${ROW.chain - 5}`}
            />
            {piece.roomy ? (
              <Dimension from={{ x: x(piece.from), y: ROW.chain }} to={{ x: x(piece.to), y: ROW.chain }} text={piece.text} />
            ) : (
              <>
                <path
                  class="dimension-line"
                  d={`M${x(piece.from)} ${ROW.chain} H${x(piece.to)} M${round(piece.middle)} ${ROW.chain} L${round(piece.at)} ${ROW.small + 4}`}
                />
                <text x={round(piece.at)} y={ROW.small} text-anchor="middle">
                  {piece.text}
                </text>
              </>
            )}
            {piece.name === "head_tube" || piece.name === "stem_height" ? (
              <text class="words" x={round(piece.middle)} y={y(piece.half) - 5} text-anchor="middle">
                {piece.name === "head_tube" ? words.drawing.headTube : words.drawing.stem}
              </text>
            ) : null}
          </g>
        ))}
        {line === null ? null : (
          <>
            {byMark !== null && bySum !== null && Math.abs(byMark - bySum) > 0.05 && (
              <path
                class="cut cut-other"
                d={`M${x(byMark)} ${y(HALF.stem + 6)} V${y(-HALF.stem - 6)} M${x(bySum)} ${y(HALF.stem + 6)} V${y(-HALF.stem - 6)}`}
              />
            )}
            <path class={cut === null ? "cut cut-open" : "cut"} d={`M${x(line)} ${y(HALF.crown + 4)} V${ROW.cut + 6}`} />
            <path class="extension" d={`M${x(0)} ${y(-HALF.crown) + 3} V${ROW.cut + 5}`} />
            <Dimension
              from={{ x: x(0), y: ROW.cut }}
              to={{ x: x(line), y: ROW.cut }}
              text={cut === null ? `${figure(line)} ?` : figure(line)}
              tone={cut === null ? "stop" : "blue"}
            />
            {uncut > line && (
              <>
                <path class="extension" d={`M${x(uncut)} ${y(-HALF.steerer) + 3} V${ROW.cut + 5}`} />
                <Dimension from={{ x: x(line), y: ROW.cut }} to={{ x: x(uncut), y: ROW.cut }} text={figure(uncut - line)} />
              </>
            )}
          </>
        )}
      </Drawing>
      <figcaption class="quiet">{words.drawing.lengthsToScale(unitOf("mm"))}</figcaption>
    </figure>
  );

  function says(): string {
    if (cut !== null) return words.drawing.steererCut(show(cut, "mm", 1, "up"), show(uncut - cut, "mm", 1, "down"));
    if (bySum !== null) return words.drawing.steererOpen(show(bySum, "mm", 1, "up"));
    return words.drawing.steerer;
  }
}
