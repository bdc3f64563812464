import { mkdtemp, rm } from "node:fs/promises";
import { createServer, type Server } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { getRequestListener } from "@hono/node-server";
import { demoBook } from "../data/demo/book.ts";
import { demoHistory } from "../data/demo/history.ts";
import { openEmbedded, openPostgres } from "../persistence/open.ts";
import { troubleOf } from "../persistence/trouble.ts";
import { createApp } from "./app.ts";
import { Desk } from "./desk.ts";
import { Jobs } from "./jobs.ts";
import { PlanFolder } from "./plan-folder.ts";

const ROOT = join(import.meta.dirname, "..");
const FIRST_PORT = 4173;

export interface ServeOptions {
  /** Default: 4173 or the next that is free. */
  readonly port?: number;
  /** Folder of the embedded book. */
  readonly data?: string;
  /** PostgreSQL instead of the embedded book. */
  readonly databaseUrl?: string | undefined;
  /** Folder of the built page. */
  readonly page?: string;
  readonly now?: () => Date;
}

export interface Serving {
  readonly address: string;
  /** Settles when the server has ended. */
  readonly closed: Promise<void>;
  close(): Promise<void>;
}

/** Opens the book (made and seeded with the demo when there is none) and serves the app on loopback alone. */
export async function serve(options: ServeOptions = {}): Promise<Serving> {
  const now = options.now ?? (() => new Date());
  const url = options.databaseUrl ?? process.env.DATABASE_URL;
  const store = url
    ? await openPostgres(url)
    : await openEmbedded(join(options.data ?? join(ROOT, ".data"), "book.db"));
  const desk = new Desk(store, now);
  // Made anew with each server: what another version of the sums found does not stand in for this one's.
  const plans = await mkdtemp(join(tmpdir(), "tournant-plans-"));
  const jobs = new Jobs(plans);
  let stopHearing = async () => {};
  const app = createApp(desk, jobs, new PlanFolder(plans), {
    page: options.page ?? join(ROOT, "dist", "web"),
    now: () => now().getTime(),
  });
  const server = createServer(getRequestListener(app.fetch));
  let port: number;
  try {
    await desk.seed(demoBook, demoHistory);
    stopHearing = await desk.hearOthers();
    port = await listen(server, options.port);
  } catch (error) {
    await jobs.close();
    await rm(plans, { recursive: true, force: true });
    await stopHearing();
    await store.close();
    throw error;
  }
  const closed = Promise.withResolvers<void>();
  let closing: Promise<void> | undefined;
  const close = () => {
    closing ??= (async () => {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
      await jobs.close();
      await rm(plans, { recursive: true, force: true });
      await stopHearing();
      await store.close();
      closed.resolve();
    })();
    return closing;
  };
  return { address: `http://127.0.0.1:${port}`, closed: closed.promise, close };
}

/** Why the server cannot start, in words for whoever started it. */
export function whyNot(error: unknown, port?: number): string {
  const { code, message } = error as NodeJS.ErrnoException;
  if (code === "EADDRINUSE") return `port ${port} is taken. Choose another with --port, or leave it out.`;
  if (code === "EACCES" && port !== undefined && (error as { syscall?: string }).syscall === "listen")
    return `port ${port} may not be used. Choose one above 1023 with --port.`;
  const trouble = troubleOf(error);
  return trouble ? `${trouble.what}. To mend: ${trouble.mend}.` : message;
}

/** Listens on the port asked for, or on the first free one from 4173. */
async function listen(server: Server, wanted: number | undefined): Promise<number> {
  for (let port = wanted ?? FIRST_PORT; ; port++) {
    try {
      await new Promise<void>((resolve, reject) => {
        server.once("error", reject);
        server.listen(port, "127.0.0.1", () => {
          server.off("error", reject);
          resolve();
        });
      });
      return (server.address() as { port: number }).port;
    } catch (error) {
      const busy = (error as NodeJS.ErrnoException).code === "EADDRINUSE";
      if (!busy || wanted !== undefined || port > FIRST_PORT + 50) throw error;
    }
  }
}
