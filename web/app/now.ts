import { useEffect, useState } from "react";
import { useService } from "./service.tsx";

/** Minute of the run that the clock on the wall shows, read anew each half minute; undefined outside of the run. */
export function useNow(): number | undefined {
  const { clock, service } = useService();
  const [now, setNow] = useState(Date.now);
  useEffect(() => {
    const tick = setInterval(() => setNow(Date.now()), 30_000);
    return () => clearInterval(tick);
  }, []);
  const zero = Date.parse(clock.zonedOf(0).replace(/\[.*$/, ""));
  const minute = Math.floor((now - zero) / 60_000);
  const end = clock.minuteOf("D 23:59") + 240;
  return minute >= 0 && minute <= end && service ? minute : undefined;
}
