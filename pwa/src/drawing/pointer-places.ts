/** Where the texts of a scale's pointers stand, so that none runs into another and no pointer crosses a text. */

export interface Pointer {
  value: number;
  text: string;
  tone?: "ink" | "blue" | "stop";
  dashed?: boolean;
}

export interface Placed extends Pointer {
  x: number;
  /** Where the text begins and ends across the sheet. */
  from: number;
  to: number;
  /** Which line it stands on, the lowest being 0. */
  level: number;
}

/** The height of one line of texts. */
export const LINE = 19;
const FIGURE = 8.7;
/** Between a pointer and a text beside it. */
const OFF = 6;
/** The sheet's edges. */
const [LEFT, RIGHT] = [2, 358];

/** Over the pointer, or beside it as a flag to the left or the right. */
function ways(pointer: Pointer, x: number, level: number): Placed[] {
  const width = pointer.text.length * FIGURE;
  const over = Math.max(LEFT, Math.min(RIGHT - width, x - width / 2));
  return [over, x - OFF - width, x + OFF]
    .filter((from) => from >= LEFT && from + width <= RIGHT)
    .map((from) => ({ ...pointer, x, from, to: from + width, level }));
}

function clash(a: Placed, b: Placed): boolean {
  const texts = a.level === b.level && a.from < b.to + FIGURE && b.from < a.to + FIGURE;
  const crosses = (pole: Placed, text: Placed) => text.level <= pole.level && pole.x > text.from - 3 && pole.x < text.to + 3;
  return texts || crosses(a, b) || crosses(b, a);
}

/** The first way all of `rest` can stand with those already `done`, on no more than `most` + 1 lines. */
function tried(rest: { pointer: Pointer; x: number }[], done: Placed[], most: number): Placed[] | null {
  const [next, ...others] = rest;
  if (next === undefined) return done;
  for (let level = 0; level <= most; level += 1) {
    for (const way of ways(next.pointer, next.x, level)) {
      if (done.some((one) => clash(one, way))) continue;
      const all = tried(others, [...done, way], most);
      if (all !== null) return all;
    }
  }
  return null;
}

/** The texts on as few lines as will do. Pointers that stand on one another cannot be kept apart: then a line each. */
export function placed(at: (value: number) => number, pointers: Pointer[]): Placed[] {
  const all = [...pointers].sort((a, b) => a.value - b.value).map((pointer) => ({ pointer, x: at(pointer.value) }));
  for (let most = 0; most < all.length; most += 1) {
    const found = tried(all, [], most);
    if (found !== null) return found;
  }
  return all.flatMap(({ pointer, x }, level) => ways(pointer, x, level)[0] ?? []);
}

export function lines(all: Placed[]): number {
  return all.reduce((most, one) => Math.max(most, one.level + 1), 0);
}
