/** Days and times of day as a text writes them. */

/** Minutes of a clock time, or nothing where it is none. */
export function minutesOf(text: string): number | undefined {
  const [h, m] = text.split(":").map(Number);
  if (h === undefined || m === undefined || h > 24 || m > 59 || (h === 24 && m > 0) || !/:\d\d$/.test(text)) return undefined;
  return h * 60 + m;
}

/** What is said of a date that is none. */
export const noDay = (text: string): string => `${text} is no day of the calendar: write it like 2026-10-04.`;

/** Whether the text is a day of the calendar, ISO 8601. */
export function isDate(text: string): boolean {
  const time = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
}
