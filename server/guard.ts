import type { Context, MiddlewareHandler } from "hono";

/** A refusal as every route gives it. */
export function problem(
  c: Context,
  status: 400 | 403 | 404 | 405 | 409 | 413 | 415 | 422 | 429 | 500 | 503,
  what: string,
  mend: string,
) {
  return c.json({ problems: [{ path: "", what, mend }] }, status);
}

const LOOPBACK = new Set(["localhost", "127.0.0.1", "[::1]"]);
const SAFE = new Set(["GET", "HEAD", "OPTIONS"]);

/**
 * Answers only to this machine's own names and, for writes, only to its own pages: a foreign page cannot reach the
 * book by a name that points here, nor send a form to it.
 */
export const ownPagesOnly: MiddlewareHandler = async (c, next) => {
  const host = (c.req.header("host") ?? "").replace(/:\d+$/, "");
  if (!LOOPBACK.has(host))
    return problem(c, 403, "this server answers only on this machine", "open it by 127.0.0.1 or localhost");
  const origin = c.req.header("origin");
  // Also what only reads: a pack that a foreign page asks for as a picture costs this machine seconds.
  if (!SAFE.has(c.req.method) || c.req.path.startsWith("/api/")) {
    if (origin !== undefined && origin !== `http://${c.req.header("host")}`)
      return problem(c, 403, "another site asked for this", "ask for it in Tournant's own page");
    const site = c.req.header("sec-fetch-site");
    if (site !== undefined && site !== "same-origin" && site !== "none")
      return problem(c, 403, "another site asked for this", "ask for it in Tournant's own page");
  }
  return next();
};

const HEADERS: Readonly<Record<string, string>> = {
  "content-security-policy":
    "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self'; worker-src 'self' blob:; connect-src 'self'; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'",
  "x-content-type-options": "nosniff",
  "referrer-policy": "no-referrer",
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-resource-policy": "same-origin",
  "permissions-policy": "camera=(), microphone=(), geolocation=()",
};

export const strictHeaders: MiddlewareHandler = async (c, next) => {
  await next();
  // The book changes under an address: no copy of it may stand in for it.
  if (c.req.path.startsWith("/api/") && !c.res.headers.has("cache-control"))
    c.res.headers.set("cache-control", "no-store");
  for (const [name, value] of Object.entries(HEADERS)) c.res.headers.set(name, value);
};

/** At most `most` writes in a window, over all callers: a page gone wild cannot fill the disk. */
export function writeLimit(most: number, windowMs: number, now: () => number): MiddlewareHandler {
  let from = now();
  let count = 0;
  return async (c, next) => {
    if (SAFE.has(c.req.method)) return next();
    // A clock put back must not close the door until it has caught up.
    if (now() - from > windowMs || now() < from) [from, count] = [now(), 0];
    if (++count > most) {
      c.header("retry-after", String(Math.ceil((from + windowMs - now()) / 1000)));
      return problem(c, 429, "too many changes at once", "wait a minute and try again");
    }
    return next();
  };
}
