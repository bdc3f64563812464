/**
 * Listens for changes of the book on the server and calls back, at most once a second; of the log at once. Reconnects
 * by itself.
 * @returns stops listening.
 */
export function listen(onChange: () => void, onLog: () => void): () => void {
  if (typeof EventSource === "undefined") return () => undefined;
  const source = new EventSource("/api/events");
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const heard = () => {
    waiting ??= setTimeout(() => {
      waiting = undefined;
      onChange();
    }, 1000);
  };
  source.addEventListener("saved", heard);
  source.addEventListener("log", onLog);
  // After a break: what was written meanwhile.
  source.addEventListener("open", onLog);
  return () => {
    clearTimeout(waiting);
    source.close();
  };
}
