/** How far repeated readings lie apart, and how well their mean is known for it. */

/** Student's t for 95 % by degrees of freedom, rounded up; with more than eight the last is on the safe side. */
const STUDENT = [12.71, 4.31, 3.19, 2.78, 2.58, 2.45, 2.37, 2.31];

export function mean(values: number[]): number {
  return values.reduce((sum, one) => sum + one, 0) / values.length;
}

/** Standard deviation of a sample. */
export function deviation(values: number[]): number {
  const middle = mean(values);
  return Math.sqrt(values.reduce((sum, one) => sum + (one - middle) ** 2, 0) / (values.length - 1));
}

/** The ± of a mean, 95 %, of readings independent of one another. */
export function doubt(values: number[]): number {
  return ((STUDENT[values.length - 2] ?? 2.31) * deviation(values)) / Math.sqrt(values.length);
}
