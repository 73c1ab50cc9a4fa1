/** Prices are in the workshop's own currency, which the record does not name. */

import { locale } from "../../languages/chosen";

const figures = new Intl.NumberFormat(locale, { minimumFractionDigits: 2, maximumFractionDigits: 2 });

export function money(value: number): string {
  return figures.format(value);
}
