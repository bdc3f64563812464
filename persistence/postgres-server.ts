import { spawn, spawnSync } from "node:child_process";
import { chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Folder with initdb and postgres; undefined where there is none. */
export function postgresBin(): string | undefined {
  const base = "/usr/lib/postgresql";
  const known = existsSync(base) ? readdirSync(base).map((version) => join(base, version, "bin")) : [];
  return [process.env.POSTGRES_BIN, ...known.reverse()].find((bin) => bin && existsSync(join(bin, "initdb")));
}

/** A PostgreSQL server of our own on loopback, for tests; `stop` ends it and takes its files away. */
export async function startPostgres(bin: string): Promise<{ url: string; stop(): Promise<void> }> {
  const folder = mkdtempSync(join(tmpdir(), "tournant-postgres-"));
  const port = await freePort();
  // PostgreSQL refuses to run as root; Debian's package brings a user for it.
  const root = process.getuid?.() === 0;
  const asUser = (command: string, args: string[]): [string, string[]] =>
    root
      ? ["setpriv", ["--reuid", "postgres", "--regid", "postgres", "--clear-groups", command, ...args]]
      : [command, args];
  if (root) {
    const id = (flag: string) => Number(spawnSync("id", [flag, "postgres"], { encoding: "utf8" }).stdout);
    chownSync(folder, id("-u"), id("-g"));
  }
  const data = join(folder, "data");
  const made = spawnSync(
    ...asUser(join(bin, "initdb"), ["-D", data, "-U", "chef", "-A", "trust", "-E", "UTF8", "--no-sync"]),
    {
      encoding: "utf8",
      cwd: folder,
    },
  );
  if (made.status !== 0) throw new Error(`initdb: ${made.stderr}`);
  const server = spawn(
    ...asUser(join(bin, "postgres"), [
      "-D",
      data,
      "-p",
      String(port),
      "-k",
      folder,
      "-c",
      "listen_addresses=127.0.0.1",
      "-c",
      "fsync=off",
    ]),
    { stdio: ["ignore", "ignore", "pipe"], cwd: folder },
  );
  await new Promise<void>((resolve, reject) => {
    let said = "";
    server.stderr!.on("data", (chunk: Buffer) => {
      said += chunk;
      if (said.includes("ready to accept connections")) resolve();
    });
    server.on("exit", (code) => reject(new Error(`postgres ended (${code}): ${said}`)));
  });
  return {
    url: `postgres://chef@127.0.0.1:${port}/postgres`,
    async stop() {
      const ended = new Promise((resolve) => server.once("exit", resolve));
      server.kill("SIGINT");
      await ended;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((resolve) => probe.listen(0, "127.0.0.1", resolve));
  const { port } = probe.address() as { port: number };
  await new Promise((resolve) => probe.close(resolve));
  return port;
}
