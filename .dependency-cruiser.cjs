// The order of the rooms in core/: a room imports only rooms above it in this list.
const rooms = [
  "numerics",
  "ledger",
  "quantity",
  "money",
  "heat",
  "pantry",
  "formula",
  "plating",
  "schedule",
  "production",
  "purchasing",
  "costing",
  "safety",
  "learning",
  "intake",
  "book",
  "inspection",
  "run",
];
const esc = (list) => list.join("|");
module.exports = {
  forbidden: [
    { name: "no-cycles", severity: "error", from: {}, to: { circular: true } },
    ...rooms.map((room, i) => ({
      name: `core-${room}-imports-only-rooms-above`,
      severity: "error",
      from: { path: `^core/${room}/` },
      // The shape of a result may be read by who judges it: types alone, no code.
      to: {
        path: `^core/(${esc(rooms.slice(i + 1)) || "-"})/`,
        ...(room === "inspection" ? { pathNot: "^core/run/result\\.ts$" } : {}),
      },
    })),
    {
      name: "core-is-pure",
      comment: "no I/O, no clock, no page: core/ imports only core/ and a few pure libraries",
      severity: "error",
      from: { path: "^core/", pathNot: "\\.test\\.tsx?$|^core/[a-z]+/testing/" },
      to: { pathNot: "^core/|node_modules/(zod|temporal-polyfill|papaparse|@types/papaparse)/" },
    },
    {
      name: "core-room-is-known",
      comment: "a new folder in core/ must take its place in the list of rooms",
      severity: "error",
      from: { path: "^core/", pathNot: `^core/(${esc(rooms)})/` },
      to: {},
    },
    {
      name: "schedule-knows-no-food",
      severity: "error",
      from: { path: "^core/schedule/" },
      to: { path: "^core/", pathNot: "^core/(numerics|schedule)/" },
    },
    {
      name: "inspector-shares-nothing-with-what-it-judges",
      comment:
        "the checker may read documents (schema files) and exact numbers; never the scheduler, the task builder or the pipeline",
      severity: "error",
      from: { path: "^core/inspection/", pathNot: "\\.test\\.ts$" },
      to: {
        path: "^core/",
        pathNot:
          "^core/(inspection|numerics|quantity)/|^core/[a-z]+/schema[^/]*\\.ts$|^core/run/result\\.ts$",
      },
    },
    {
      name: "persistence-knows-only-core",
      severity: "error",
      from: { path: "^persistence/", pathNot: "\\.test\\.ts$" },
      to: { path: "^(server|drawing|web|print|cli)/" },
    },
    {
      name: "drawing-knows-only-core-and-words",
      severity: "error",
      from: { path: "^drawing/" },
      to: { path: "^(persistence|server|web|print|cli)/" },
    },
    {
      name: "words-know-no-screen",
      severity: "error",
      from: { path: "^words/" },
      to: { path: "^(persistence|server|drawing|web|print|cli)/" },
    },
    {
      name: "web-knows-no-server",
      severity: "error",
      from: { path: "^web/", pathNot: "\\.test\\.tsx?$" },
      to: { path: "^(persistence|server|print|cli)/" },
    },
    {
      name: "print-knows-no-screen",
      severity: "error",
      from: { path: "^print/" },
      to: { path: "^(persistence|server|web|cli)/" },
    },
    {
      name: "solver-knows-only-the-port",
      severity: "error",
      from: { path: "^solver/" },
      to: {
        path: "^(core|persistence|server|drawing|words|web|print|cli)/",
        pathNot: "^core/purchasing/mixed-integer\\.ts$",
      },
    },
    {
      name: "tests-are-not-shipped",
      severity: "error",
      from: { pathNot: "\\.test\\.tsx?$|^tests/|^perf/" },
      to: { path: "\\.test\\.tsx?$" },
    },
    {
      name: "evidence-is-for-tests",
      severity: "error",
      from: { path: "^(core|persistence|server|drawing|words|web|print|cli)/", pathNot: "\\.test\\.tsx?$" },
      to: { path: "^evidence/" },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: { extensions: [".ts", ".tsx", ".mjs", ".js", ".json"] },
  },
};
