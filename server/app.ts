import { createRoute, OpenAPIHono, z } from "@hono/zod-openapi";
import { bodyLimit } from "hono/body-limit";
import { streamSSE } from "hono/streaming";
import { boundsProblems } from "../core/book/bounds.ts";
import { bookJsonSchema, DOCUMENT_KINDS } from "../core/book/index.ts";
import { problemsOf } from "../core/book/problem.ts";
import type { FoundPlans } from "../core/schedule/index.ts";
import { troubleOf } from "../persistence/trouble.ts";
import { type Desk, type PutAnswer, UnreadableBook } from "./desk.ts";
import { ownPagesOnly, problem, strictHeaders, writeLimit } from "./guard.ts";
import { Busy, type Jobs, RunRequestSchema } from "./jobs.ts";
import { judgeEntries } from "./log-bodies.ts";
import { FoundSchema } from "./plan-folder.ts";
import { staticFiles } from "./static.ts";

const MB = 1024 * 1024;
/** Pages that listen at once; each holds a connection. */
const MOST_LISTENING = 200;

const KindSchema = z
  .enum(DOCUMENT_KINDS as [string, ...string[]])
  .transform((kind) => kind as (typeof DOCUMENT_KINDS)[number]);
const ProblemsSchema = z.object({
  problems: z.array(z.object({ path: z.string(), what: z.string(), mend: z.string() })),
});
const AnySchema = z.unknown();
const LogEntrySchema = z.strictObject({
  id: z.uuid(),
  service: z.string().min(1).max(200),
  at: z.iso.datetime({ offset: true }),
  by: z.string().min(1).max(200),
  corrects: z.uuid().optional(),
  body: z.record(z.string(), z.unknown()),
});
const json = <S extends z.ZodType>(schema: S, description: string) => ({
  content: { "application/json": { schema } },
  description,
});
const refusals = {
  400: json(ProblemsSchema, "the call is off"),
  404: json(ProblemsSchema, "there is no such thing"),
  409: json(
    z.object({ theirs: AnySchema, clashes: z.array(z.string()) }),
    "another was quicker; what stands now",
  ),
  422: json(ProblemsSchema, "refused: what, where and how to mend it"),
};

/** The API and the page. Everything it needs is passed in. */
export function createApp(
  desk: Desk,
  jobs: Jobs,
  plans: FoundPlans,
  options: { readonly page: string; readonly now: () => number },
) {
  const app = new OpenAPIHono({
    defaultHook: (answer, c) => {
      if (answer.success) return;
      const { data } = answer as { data?: unknown };
      return c.json({ problems: problemsOf(answer.error.issues, data) }, 400);
    },
  });
  app.use(strictHeaders, ownPagesOnly, writeLimit(600, 60_000, options.now));
  const limit = (megabytes: number) =>
    bodyLimit({
      maxSize: megabytes * MB,
      onError: (c) => problem(c, 413, `the body is larger than ${megabytes} MB`, "send less at once"),
    });
  const [ofBook, ofOthers] = [limit(64), limit(4)];
  const LARGE = new Set(["/api/book/import", "/api/documents", "/api/plans/find", "/api/plans/keep"]);
  app.use("/api/*", (c, next) => (LARGE.has(c.req.path) ? ofBook : ofOthers)(c, next));

  app.openapi(
    createRoute({
      method: "get",
      path: "/api/book",
      responses: { 200: json(z.object({ book: AnySchema, revision: z.number() }), "the book as it stands") },
    }),
    async (c) => c.json(await desk.book(), 200),
  );
  app.get("/api/book/export", async (c) => {
    const { book, revision } = await desk.book();
    c.header("content-disposition", `attachment; filename="book-${revision}.json"`);
    return c.json(book);
  });
  app.openapi(
    createRoute({
      method: "post",
      path: "/api/book/import",
      request: { body: json(AnySchema, "a book file") },
      responses: { 200: json(z.object({ revision: z.number() }), "the book stands"), ...refusals },
    }),
    async (c) => answerOf(c, await desk.importBook(c.req.valid("json"), by(c.req.header("x-cook")))),
  );

  app.openapi(
    createRoute({
      method: "post",
      path: "/api/documents",
      request: {
        body: json(
          z.strictObject({
            documents: z
              .array(
                z.strictObject({
                  ...{ kind: KindSchema, document: AnySchema, baseRevision: z.number().int().nonnegative() },
                }),
              )
              .min(1)
              .max(10_000),
          }),
          "documents that are saved together, each with the revision it was changed from",
        ),
      },
      responses: { 200: json(z.object({ revision: z.number() }), "all saved, as one revision"), ...refusals },
    }),
    async (c) => answerOf(c, await desk.putAll(c.req.valid("json").documents, by(c.req.header("x-cook")))),
  );

  const document = { params: z.object({ kind: KindSchema, id: z.string().min(1).max(200) }) };
  app.openapi(
    createRoute({
      method: "get",
      path: "/api/documents/{kind}/{id}",
      request: document,
      responses: { 200: json(AnySchema, "the document and its revision"), ...refusals },
    }),
    async (c) => {
      const { kind, id } = c.req.valid("param");
      const saved = await desk.get(kind, id);
      return saved ? c.json(saved, 200) : c.json(noSuch(kind, id), 404);
    },
  );
  app.openapi(
    createRoute({
      method: "get",
      path: "/api/documents/{kind}/{id}/history",
      request: document,
      responses: { 200: json(z.object({ history: z.array(AnySchema) }), "every state, newest first") },
    }),
    async (c) => {
      const { kind, id } = c.req.valid("param");
      return c.json({ history: [...(await desk.history(kind, id))] }, 200);
    },
  );
  app.openapi(
    createRoute({
      method: "put",
      path: "/api/documents/{kind}/{id}",
      request: {
        ...document,
        body: json(
          z.strictObject({ document: AnySchema, baseRevision: z.number().int().nonnegative() }),
          "the document and the revision it was changed from",
        ),
      },
      responses: {
        200: json(z.object({ revision: z.number(), document: AnySchema, merged: z.boolean() }), "saved"),
        ...refusals,
      },
    }),
    async (c) => {
      const { kind, id } = c.req.valid("param");
      const { document, baseRevision } = c.req.valid("json");
      return answerOf(c, await desk.put(kind, id, document, baseRevision, by(c.req.header("x-cook"))));
    },
  );
  app.openapi(
    createRoute({
      method: "delete",
      path: "/api/documents/{kind}/{id}",
      request: { ...document, query: z.object({ baseRevision: z.coerce.number().int().positive() }) },
      responses: { 200: json(z.object({ revision: z.number() }), "taken out"), ...refusals },
    }),
    async (c) => {
      const { kind, id } = c.req.valid("param");
      return answerOf(
        c,
        await desk.remove(kind, id, c.req.valid("query").baseRevision, by(c.req.header("x-cook"))),
      );
    },
  );

  app.openapi(
    createRoute({
      method: "get",
      path: "/api/log/{service}",
      request: {
        params: z.object({ service: z.string() }),
        query: z.object({ after: z.coerce.number().int().nonnegative().default(0) }),
      },
      responses: { 200: json(z.object({ entries: z.array(AnySchema) }), "the log in order") },
    }),
    async (c) =>
      c.json(
        { entries: [...(await desk.log(c.req.valid("param").service, c.req.valid("query").after))] },
        200,
      ),
  );
  app.openapi(
    createRoute({
      method: "get",
      path: "/api/log",
      request: {
        query: z.object({
          after: z.coerce.number().int().nonnegative().default(0),
          most: z.coerce.number().int().positive().max(10_000).default(5000),
        }),
      },
      responses: { 200: json(z.object({ entries: z.array(AnySchema) }), "the log of all services in order") },
    }),
    async (c) => {
      const { after, most } = c.req.valid("query");
      return c.json({ entries: [...(await desk.wholeLog(after, most))] }, 200);
    },
  );
  app.openapi(
    createRoute({
      method: "post",
      path: "/api/log",
      request: {
        body: json(
          z.strictObject({ entries: z.array(LogEntrySchema).min(1).max(1000) }),
          "entries with ids made by the client",
        ),
      },
      responses: {
        200: json(
          z.object({ added: z.number(), refused: z.array(AnySchema).optional() }),
          "kept, but for those that are named as refused; those already known stay as they were",
        ),
        ...refusals,
      },
    }),
    async (c) => {
      const { entries } = c.req.valid("json");
      const problems = boundsProblems({ entries });
      if (problems.length > 0) return c.json({ problems }, 422);
      const { good, refused } = judgeEntries(entries);
      if (good.length === 0)
        return c.json({ problems: refused.flatMap((one) => [...one.problems]), refused: [...refused] }, 422);
      const added = await desk.appendLog(good);
      return c.json({ added, ...(refused.length > 0 ? { refused: [...refused] } : {}) }, 200);
    },
  );

  const QuestionSchema = z.string().min(2);
  app.openapi(
    createRoute({
      method: "post",
      path: "/api/plans/find",
      request: {
        body: json(z.strictObject({ asked: QuestionSchema }), "a planning problem with its effort, as text"),
      },
      responses: {
        200: json(z.object({ found: FoundSchema.nullable() }), "the plan found for it before, if any"),
      },
    }),
    (c) => c.json({ found: plans.find(c.req.valid("json").asked) ?? null }, 200),
  );
  app.openapi(
    createRoute({
      method: "post",
      path: "/api/plans/keep",
      request: {
        body: json(
          z.strictObject({ asked: QuestionSchema, found: FoundSchema }),
          "a plan found; whoever takes it judges it anew",
        ),
      },
      responses: { 200: json(z.object({}), "kept until the server ends"), ...refusals },
    }),
    (c) => {
      const { asked, found } = c.req.valid("json");
      plans.keep(asked, found);
      return c.json({}, 200);
    },
  );

  app.openapi(
    createRoute({
      method: "post",
      path: "/api/run/{service}",
      request: {
        params: z.object({ service: z.string() }),
        body: json(RunRequestSchema, "what to change for this run"),
      },
      responses: { 202: json(z.object({ job: z.string() }), "being computed: ask /api/jobs/{job}") },
    }),
    async (c) => {
      const { book } = await desk.book();
      return c.json({ job: jobs.start(book, c.req.valid("param").service, c.req.valid("json")) }, 202);
    },
  );
  app.openapi(
    createRoute({
      method: "get",
      path: "/api/jobs/{job}",
      request: { params: z.object({ job: z.string() }) },
      responses: { 200: json(AnySchema, "its state, and the result when it is done"), ...refusals },
    }),
    (c) => {
      const state = jobs.state(c.req.valid("param").job);
      return state ? c.json(state, 200) : c.json(noSuch("job", c.req.valid("param").job), 404);
    },
  );
  app.openapi(
    createRoute({
      method: "delete",
      path: "/api/jobs/{job}",
      request: { params: z.object({ job: z.string() }) },
      responses: { 200: json(z.object({ cancelled: z.boolean() }), "ended") },
    }),
    (c) => c.json({ cancelled: jobs.cancel(c.req.valid("param").job) }, 200),
  );
  app.get("/api/pack/:file{.+\\.pdf}", async (c) => {
    const request = RunRequestSchema.safeParse({
      ...(c.req.query("covers") === undefined ? {} : { covers: Number(c.req.query("covers")) }),
      ...(c.req.query("kitchen") === undefined ? {} : { kitchen: c.req.query("kitchen") }),
    });
    if (!request.success)
      return problem(c, 400, "covers or kitchen cannot be read", "give covers as a whole number");
    const { book } = await desk.book();
    const service = c.req.param("file").replace(/\.pdf$/, "");
    const answer = await jobs.pack(book, service, request.data, c.req.raw.signal);
    if (!answer.ok) return c.json({ problems: answer.problems }, 422);
    c.header("content-type", "application/pdf");
    c.header("content-disposition", `inline; filename="${encodeURIComponent(c.req.param("file"))}"`);
    return c.body(answer.pdf as Uint8Array<ArrayBuffer>);
  });

  let listening = 0;
  app.get("/api/events", (c) => {
    if (listening >= MOST_LISTENING)
      return problem(c, 503, "too many pages listen already", "close some of them");
    return streamSSE(c, async (stream) => {
      const seen = Number(c.req.header("last-event-id") ?? Number.NaN);
      const write = (revision: number, documents: unknown) =>
        stream.writeSSE({
          id: String(revision),
          event: "saved",
          data: JSON.stringify({ revision, documents }),
        });
      listening++;
      const stopBook = desk.listen((change) => void write(change.revision, change.documents));
      // Without an id: what a page missed of the book is counted by revisions alone.
      const stopLog = desk.listenLog(
        (services) => void stream.writeSSE({ event: "log", data: JSON.stringify({ services }) }),
      );
      let beat: NodeJS.Timeout | undefined;
      const ended = new Promise<void>((resolve) => {
        stream.onAbort(resolve);
        if (stream.aborted) resolve();
      });
      try {
        if (Number.isFinite(seen)) {
          const missed = await desk.since(seen);
          if (missed.length > 0)
            await write(
              missed.at(-1)!.revision,
              missed.map(({ kind, id }) => ({ kind, id })),
            );
        }
        const here = () => stream.writeSSE({ event: "here", data: "{}" });
        await here();
        beat = setInterval(() => void here(), 20_000);
        await ended;
      } finally {
        clearInterval(beat);
        stopBook();
        stopLog();
        listening--;
      }
    });
  });
  app.get("/api/schema/book.json", (c) => c.json(bookJsonSchema()));
  app.doc31("/api/openapi.json", { openapi: "3.1.0", info: { title: "Tournant", version: "1" } });
  app.all("/api/*", (c) =>
    problem(c, 404, `there is no ${c.req.method} ${c.req.path}`, "see /api/openapi.json"),
  );
  app.get("*", staticFiles(options.page));

  app.onError((error, c) => {
    if ("getResponse" in error)
      return problem(c, 400, "the body cannot be read", "send JSON with content-type application/json");
    if (error instanceof Busy)
      return problem(c, 503, "too much is being computed already", "wait until some of it is done");
    if (error instanceof UnreadableBook) return c.json({ problems: error.problems }, 500);
    const trouble = troubleOf(error);
    if (trouble) {
      console.error(`${trouble.what}: ${error.message}`);
      return problem(c, 503, trouble.what, trouble.mend);
    }
    // What went wrong is for whoever runs the server, not for whoever calls it.
    console.error(error);
    return problem(c, 500, "something went wrong here", "try again; the server's own messages say more");
  });
  return app;
}

function by(header: string | undefined): string {
  return header?.slice(0, 200) || "someone";
}

function noSuch(kind: string, id: string) {
  return { problems: [{ path: "", what: `there is no "${id}" among the ${kind}`, mend: "check its id" }] };
}

// biome-ignore lint/suspicious/noExplicitAny: one answer for routes of different types; each status has its shape above
function answerOf(c: any, answer: PutAnswer) {
  if (answer.status === "refused") return c.json({ problems: answer.problems }, 422);
  if (answer.status === "conflict") return c.json({ theirs: answer.theirs, clashes: answer.clashes }, 409);
  return c.json({ revision: answer.revision, document: answer.document, merged: answer.merged }, 200);
}
