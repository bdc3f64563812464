import { EXIT, type Io, Misuse, shown } from "./io.ts";

if (Number(process.versions.node.split(".")[0]) < 24) {
  process.stderr.write(
    `tournant runs on Node 24 or newer, this is ${process.version}: start it with npx tournant\n`,
  );
  process.exit(EXIT.refused);
}

type Command = { readonly help: string; run(args: string[], io: Io): number | Promise<number> };

/** Loaded when called, so that a small command need not wait for the large ones. */
const COMMANDS: Readonly<Record<string, { what: string; load: () => Promise<{ default: Command }> }>> = {
  run: {
    what: "compute one service: amounts, plan, orders, cost, labels",
    load: () => import("./commands/run.ts"),
  },
  convert: { what: "an amount in another unit", load: () => import("./commands/convert.ts") },
  check: { what: "judge a book file", load: () => import("./commands/check.ts") },
  heat: { what: "temperatures inside a piece through stages", load: () => import("./commands/heat.ts") },
  schedule: { what: "plan tasks on resources", load: () => import("./commands/schedule.ts") },
  read: { what: "a recipe from text, a page or a table", load: () => import("./commands/read.ts") },
  prices: { what: "a supplier's price list beside the book", load: () => import("./commands/prices.ts") },
  import: { what: "ingredients from files of one's own", load: () => import("./commands/import.ts") },
  serve: { what: "serve the app on this machine", load: () => import("./commands/serve.ts") },
};

const HELP = `tournant: a chef's production tool

  tournant COMMAND [words] [--options]

${Object.entries(COMMANDS)
  .map(([name, { what }]) => `  ${name.padEnd(10)}${what}`)
  .join("\n")}

tournant COMMAND --help tells more. With --json, standard output holds JSON alone.
Exit: 0 computed, 1 refused input, 2 misuse, 3 with --strict when a plan does not fit.
`;

/** Runs the command line; the exit code. */
async function main(argv: readonly string[], io: Io): Promise<number> {
  const [name, ...args] = argv;
  if (name === undefined || name === "help" || name === "--help" || name === "-h") {
    (name === undefined ? io.note : io.out)(HELP);
    return name === undefined ? EXIT.misuse : EXIT.computed;
  }
  const known = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (!known) {
    io.note(`tournant: there is no command "${name}"\n\n${HELP}`);
    return EXIT.misuse;
  }
  const command = (await known.load()).default;
  if (args.includes("--help") || args.includes("-h")) {
    io.out(command.help);
    return EXIT.computed;
  }
  try {
    return await command.run(args, io);
  } catch (error) {
    if (!(error instanceof Misuse)) {
      io.note(`tournant ${name}: ${whyNot(error)}\n`);
      return EXIT.refused;
    }
    io.note(`tournant ${name}: ${error.message}\n\n${command.help}`);
    return EXIT.misuse;
  }
}

/** What ended a command from outside it; anything else is a fault of the program, and says so. */
function whyNot(error: unknown): string {
  const { code, path, message } = error as NodeJS.ErrnoException;
  if (code === "ENOSPC") return "the disk is full. Make room and try again.";
  if (typeof code === "string" && path !== undefined)
    return `${path} cannot be written or read (${code}). Check the name and the rights of the file.`;
  return `the program has failed (${message}). This is its fault: please tell its makers what was asked.`;
}

// Who reads the output may end before it does ("| head"): that is no failure.
for (const stream of [process.stdout, process.stderr])
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit(process.exitCode ?? EXIT.computed);
  });
process.exitCode = await main(process.argv.slice(2), {
  out: (text) => void process.stdout.write(text),
  note: (text) => void process.stderr.write(shown(text)),
});
