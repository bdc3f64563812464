/** A typed figure as the log keeps it: °C, decimal comma or point. */
export function toCelsius(typed: string, fahrenheit: boolean): number {
  const value = Number(typed.trim().replace(",", "."));
  return fahrenheit ? (value - 32) / 1.8 : value;
}
