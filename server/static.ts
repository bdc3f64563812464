import { createHash } from "node:crypto";
import { readFileSync, realpathSync, statSync } from "node:fs";
import { extname, join, normalize, sep } from "node:path";
import type { Handler } from "hono";
import { problem } from "./guard.ts";

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".webmanifest": "application/manifest+json",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".ttf": "font/ttf",
  ".woff2": "font/woff2",
  ".wasm": "application/wasm",
};

/** The file of that name, if it truly lies in the folder: a link that leads out of it does not. */
function fileIn(folder: string, name: string): string | undefined {
  try {
    const file = realpathSync(join(folder, name));
    return file.startsWith(realpathSync(folder) + sep) && statSync(file).isFile() ? file : undefined;
  } catch {
    return undefined;
  }
}

/** Whether the caller has this state already (RFC 9110, 13.1.2: a list, compared weakly, or any by "*"). */
function isKnown(header: string | undefined, etag: string): boolean {
  const known = (header ?? "").split(",").map((one) => one.trim().replace(/^W\//, ""));
  return known.includes("*") || known.includes(etag);
}

/** Serves the built page; an address without a file is the app's own and gets its first page. */
export function staticFiles(folder: string): Handler {
  return (c) => {
    let wanted: string;
    try {
      wanted = normalize(decodeURIComponent(new URL(c.req.url).pathname));
    } catch {
      return problem(c, 400, "the address cannot be read", "check it");
    }
    const file = fileIn(folder, wanted);
    // Under assets/ there are files alone: what is not there must not be kept for a year as the first page.
    if (!file && (extname(wanted) !== "" || wanted.startsWith("/assets/")))
      return problem(c, 404, `there is no ${wanted}`, "check the address");
    const path = file ?? fileIn(folder, "index.html");
    if (path === undefined)
      return problem(c, 503, "the page is not built", "start with npm start, which builds it");
    const body = readFileSync(path);
    const etag = `"${createHash("sha256").update(body).digest("base64url").slice(0, 27)}"`;
    // The build puts a hash of the content into the names under assets/: such a file never changes.
    c.header(
      "cache-control",
      wanted.startsWith("/assets/") ? "public, max-age=31536000, immutable" : "no-cache",
    );
    c.header("etag", etag);
    if (isKnown(c.req.header("if-none-match"), etag)) return c.body(null, 304);
    c.header("content-type", TYPES[extname(path)] ?? "application/octet-stream");
    return c.body(body);
  };
}
