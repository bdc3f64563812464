import { RunRefusal, run } from "../core/run/run.ts";
import { openSolver } from "../solver/highs.ts";
import type { WorkerAnswer, WorkerTask } from "./jobs.ts";
import { PlanFolder } from "./plan-folder.ts";

const solver = openSolver();

/** Computes one service, and its pack when asked, off the server's own thread. */
export default async function work({
  book,
  service,
  request,
  pack,
  plans,
}: WorkerTask): Promise<WorkerAnswer> {
  try {
    const given = Object.fromEntries(Object.entries(request).filter(([, value]) => value !== undefined));
    const result = run(book, service, { ...given, solver: await solver, found: new PlanFolder(plans) });
    if (!pack) return { ok: true, result };
    const { writePack } = await import("../print/pack.ts");
    return { ok: true, result, pdf: await writePack(book, result) };
  } catch (error) {
    if (error instanceof RunRefusal) return { ok: false, problems: error.problems };
    throw error;
  }
}
