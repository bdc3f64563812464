/**
 * Listens for changes of the book on the server and calls back, at most once a second. Reconnects by itself.
 * @returns stops listening.
 */
export function listen(onChange: () => void): () => void {
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
  return () => {
    clearTimeout(waiting);
    source.close();
  };
}
