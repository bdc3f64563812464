const CLOCK = /^D(?:([-+])(\d{1,2}))? (\d{2}):(\d{2})$/;

/**
 * Minutes from 00:00 of the date of service: "D 00:00" is 0, "D-1 23:00" is −60.
 * @throws RangeError when the text is no moment of a run.
 */
export function clockMinutes(clock: string): number {
  const read = CLOCK.exec(clock);
  if (!read) throw new RangeError(`"${clock}" is no moment of a run: write it as "D-1 14:00"`);
  const days = Number(read[2] ?? 0) * (read[1] === "-" ? -1 : 1);
  return days * 1440 + Number(read[3]) * 60 + Number(read[4]);
}

/** The moment of the run so many minutes from 00:00 of the date of service; whole minutes. */
export function clockText(minutes: number): string {
  const whole = Math.round(minutes);
  const day = Math.floor(whole / 1440);
  const ofDay = whole - day * 1440;
  const sign = day === 0 ? "" : day < 0 ? String(day) : `+${day}`;
  return `D${sign} ${String(Math.floor(ofDay / 60)).padStart(2, "0")}:${String(ofDay % 60).padStart(2, "0")}`;
}
