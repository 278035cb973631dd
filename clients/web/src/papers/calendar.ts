// Calendar files as RFC 5545 has them: what to sow and what bears, for any
// calendar a person keeps.

export interface Happening {
  /** The same for the same thing each time, so that a new file replaces the old one's. */
  uid: string;
  /** First day, YYYY-MM-DD. */
  from: string;
  /** Last day, inclusive. */
  to: string;
  title: string;
  words?: string;
  place?: string;
}

/** An iCalendar file of whole-day events. Stamp is the moment it is made. */
export function calendar(name: string, happenings: readonly Happening[], stamp: Date): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Freshet//phone//EN',
    'CALSCALE:GREGORIAN',
    'METHOD:PUBLISH',
    `X-WR-CALNAME:${text(name)}`,
    ...happenings.flatMap((h) => event(h, stamp)),
    'END:VCALENDAR',
  ];
  return lines.map(folded).join('\r\n') + '\r\n';
}

function event(h: Happening, stamp: Date): string[] {
  return [
    'BEGIN:VEVENT',
    `UID:${h.uid}`,
    `DTSTAMP:${stamp.toISOString().replaceAll(/[-:]|\.\d+/g, '')}`,
    `DTSTART;VALUE=DATE:${compact(h.from)}`,
    `DTEND;VALUE=DATE:${compact(dayAfter(h.to))}`, // the end is exclusive
    `SUMMARY:${text(h.title)}`,
    ...(h.words ? [`DESCRIPTION:${text(h.words)}`] : []),
    ...(h.place ? [`LOCATION:${text(h.place)}`] : []),
    'TRANSP:TRANSPARENT',
    'END:VEVENT',
  ];
}

const compact = (day: string): string => day.replaceAll('-', '');

function dayAfter(day: string): string {
  const date = new Date(day + 'T00:00:00Z');
  date.setUTCDate(date.getUTCDate() + 1);
  return date.toISOString().slice(0, 10);
}

/** TEXT values: backslash, semicolon, comma and line ends are written with a backslash. */
function text(value: string): string {
  return value
    .replaceAll(/[\u0000-\u0009\u000b-\u001f\u007f]/g, (c) => (c === '\r' ? '' : ' '))
    .replaceAll(/[\\;,]/g, '\\$&')
    .replaceAll('\n', '\\n');
}

/** Lines of at most 75 octets; the next begins with a space. No character is cut. */
function folded(line: string): string {
  const parts: string[] = [];
  let part = '';
  let octets = 0;
  for (const c of line) {
    const size = new TextEncoder().encode(c).length;
    if (octets + size > 75) {
      parts.push(part);
      part = '';
      octets = 1; // the space
    }
    part += c;
    octets += size;
  }
  parts.push(part);
  return parts.join('\r\n ');
}
