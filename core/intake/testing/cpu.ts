/** Processor time of this process so far, ms: what a busy machine adds is not the reader's. */
export function cpuMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
