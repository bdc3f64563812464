import { createHash } from "node:crypto";
import { existsSync, readFileSync, statSync } from "node:fs";
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

/** Serves the built page; an address without a file is the app's own and gets its first page. */
export function staticFiles(folder: string): Handler {
  return (c) => {
    let wanted: string;
    try {
      wanted = normalize(decodeURIComponent(new URL(c.req.url).pathname));
    } catch {
      return problem(c, 400, "the address cannot be read", "check it");
    }
    const file = join(folder, wanted);
    const inside = file.startsWith(folder + sep) && existsSync(file) && statSync(file).isFile();
    if (!inside && extname(wanted) !== "")
      return problem(c, 404, `there is no ${wanted}`, "check the address");
    const path = inside ? file : join(folder, "index.html");
    if (!existsSync(path))
      return problem(c, 503, "the page is not built", "start with npm start, which builds it");
    const body = readFileSync(path);
    const etag = `"${createHash("sha256").update(body).digest("base64url").slice(0, 27)}"`;
    // The build puts a hash of the content into the names under assets/: such a file never changes.
    c.header(
      "cache-control",
      wanted.startsWith("/assets/") ? "public, max-age=31536000, immutable" : "no-cache",
    );
    c.header("etag", etag);
    if (c.req.header("if-none-match") === etag) return c.body(null, 304);
    c.header("content-type", TYPES[extname(path)] ?? "application/octet-stream");
    return c.body(body);
  };
}
