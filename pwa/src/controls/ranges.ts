/**
 * How far the figures of fields that no calculation declares may go, in base units: beyond, typed or imported, one is a slip of
 * the pen. A field of a calculation has its own range from its declaration in the kernel.
 */

type Range = [least: number, most: number];

/** Grams: one part, or a set of them. */
export const PART_MASS: Range = [0, 50_000];
/** Grams: the whole bike on the scale. */
export const BIKE_MASS: Range = [0, 60_000];
/** Grams: a goal a bike can have, as the budget takes it. */
export const GOAL_MASS: Range = [100, 100_000];
/** Of whatever money the workshop counts in. */
export const PRICE: Range = [0, 1_000_000];
/** How many of one part a bike has. */
export const COUNT: Range = [1, 500];
/** Millimetres, degrees or teeth: a dimension of a part, a length cut. */
export const DIMENSION: Range = [0, 3_000];
/** Whatever a maker marks on a part: mm, N·m, kg, kPa. */
export const MARKING: Range = [0, 5_000];
/** Newton metres on a bicycle. */
export const TORQUE: Range = [0.1, 250];
/** Newton metres on the scale of a tool. */
export const TOOL_SCALE: Range = [0, 500];
/** Per cent a tool may be off. */
export const TOOL_ACCURACY: Range = [0, 30];

/** One ride, of a day or across a continent: kilometres, hours, metres climbed. */
export const RIDE_KM: Range = [0, 10_000];
export const RIDE_HOURS: Range = [0, 1_000];
export const RIDE_CLIMB: Range = [0, 150_000];

/** Between two services: kilometres, hours, days. */
export const SERVICE_KM: Range = [0, 100_000];
export const SERVICE_HOURS: Range = [0, 10_000];
export const SERVICE_DAYS: Range = [0, 3_650];
