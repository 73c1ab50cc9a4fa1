/** The tools in one piece, fetched when the first of them is wanted. */

export { AngleSheet as angle } from "./angle-sheet";
export { StopSheet as stop } from "./stop-sheet";
export { ToneSheet as tone } from "./tone-sheet";
