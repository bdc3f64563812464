import { useSettings } from "../../app/settings.tsx";

/** Writes an instant as day, month and hour, where the tablet stands. */
export function useMoment(): (at: string) => string {
  const { write, settings } = useSettings();
  return (at) =>
    new Date(at).toLocaleString(write.preferences.locale, {
      day: "numeric",
      month: "short",
      hour: "2-digit",
      minute: "2-digit",
      hour12: settings.clock === "12",
    });
}
