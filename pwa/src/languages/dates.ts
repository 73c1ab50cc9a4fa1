/** Days as the phone's country writes them. */

import { locale } from "./chosen";

/**
 * What the browser knows of countries is read when the first day is written, not when the program is: that takes it a twentieth of a
 * second, four times as long on a slow phone.
 */
export function dates(options: Intl.DateTimeFormatOptions): (date: Date) => string {
  let made: Intl.DateTimeFormat | null = null;
  return (date) => {
    made ??= new Intl.DateTimeFormat(locale, options);
    return made.format(date);
  };
}
