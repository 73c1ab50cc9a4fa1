/** Reading a calculation's inputs and outputs for a drawing: null where nothing has been typed or worked out yet. */

export type Values = Record<string, unknown> | null;

export function num(values: Values, name: string): number | null {
  return finite(values?.[name]);
}

/** A number for the drawing: the one given, or one that is usual and then drawn dashed. */
export function or(value: number | null, usual: number): number {
  return value ?? usual;
}

export function nums(values: Values, name: string): number[] {
  const list = values?.[name];
  return Array.isArray(list) ? list.map(finite).filter((one) => one !== null) : [];
}

export function rows(values: Values, name: string): Record<string, unknown>[] {
  const list = values?.[name];
  return Array.isArray(list) ? list.filter((one) => typeof one === "object" && one !== null) : [];
}

export function said(values: Values, name: string): string | null {
  const value = values?.[name];
  return typeof value === "string" && value !== "" ? value : null;
}

function finite(value: unknown): number | null {
  return typeof value === "number" && Number.isFinite(value) ? value : null;
}
