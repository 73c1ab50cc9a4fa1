/** What is due, as an iCalendar file (RFC 5545) that any calendar takes in. */

export interface Day {
  uid: string;
  /** `2026-05-03` */
  date: string;
  title: string;
  text: string;
}

/** Text values escape backslash, semicolon, comma and line ends (RFC 5545, 3.3.11). */
function escaped(text: string): string {
  return text.replace(/\\/g, "\\\\").replace(/;/g, "\\;").replace(/,/g, "\\,").replace(/\r?\n/g, "\\n");
}

/** Lines longer than 75 octets are folded, never inside a character (RFC 5545, 3.1). */
function folded(line: string): string {
  const encoder = new TextEncoder();
  const parts: string[] = [];
  let part = "";
  let size = 0;
  for (const character of line) {
    const octets = encoder.encode(character).length;
    if (size + octets > (parts.length === 0 ? 75 : 74)) {
      parts.push(part);
      part = "";
      size = 0;
    }
    part += character;
    size += octets;
  }
  return [...parts, part].join("\r\n ");
}

function nextDay(date: string): string {
  const day = new Date(`${date}T00:00:00Z`);
  day.setUTCDate(day.getUTCDate() + 1);
  return day.toISOString().slice(0, 10);
}

/** All-day events, one a thing due; `stamp` is when the file was made. */
export function calendar(days: Day[], stamp: Date): string {
  const compact = (date: string) => date.replaceAll("-", "");
  const made = `${stamp.toISOString().slice(0, 19).replaceAll("-", "").replaceAll(":", "")}Z`;
  const lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Pinchbolt//Due//EN", "CALSCALE:GREGORIAN"];
  for (const day of days) {
    lines.push(
      "BEGIN:VEVENT",
      `UID:${day.uid}`,
      `DTSTAMP:${made}`,
      `DTSTART;VALUE=DATE:${compact(day.date)}`,
      `DTEND;VALUE=DATE:${compact(nextDay(day.date))}`,
      `SUMMARY:${escaped(day.title)}`,
      `DESCRIPTION:${escaped(day.text)}`,
      "TRANSP:TRANSPARENT",
      "END:VEVENT",
    );
  }
  lines.push("END:VCALENDAR");
  return `${lines.map(folded).join("\r\n")}\r\n`;
}
