/** What several languages need to put a sentence together. */

/** The parts that are there, a blank between them. */
export const told = (...parts: (string | null | false)[]): string => parts.filter((part) => part).join(" ");

/** One or several of a thing: "1 bike", "3 bikes". */
export const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;
