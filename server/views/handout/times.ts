/** Days and hours as one says them. */

const DAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"];
const MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];

/** `2026-10-14` as `Wednesday 14 October 2026`; as it is where it is no date of the calendar. */
export function day(date: string): string {
  const at = new Date(`${date}T00:00:00Z`);
  const weekday = DAYS[at.getUTCDay()];
  const month = MONTHS[at.getUTCMonth()];
  return weekday === undefined || month === undefined ? date : `${weekday} ${at.getUTCDate()} ${month} ${at.getUTCFullYear()}`;
}

/** Minutes since midnight of the day of the meeting as `18:30`; past midnight `00:15 next day`. */
export function clock(minutes: number): string {
  const two = (n: number): string => String(n).padStart(2, "0");
  const within = ((minutes % 1440) + 1440) % 1440;
  return `${two(Math.floor(within / 60))}:${two(Math.round(within % 60))}${minutes >= 1440 ? " next day" : ""}`;
}
