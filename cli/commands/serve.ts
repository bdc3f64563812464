import { type Serving, serve, whyNot } from "../../server/serve.ts";
import { EXIT, type Io, readArgs, wholeNumber } from "../io.ts";

const help = `tournant serve [--port N] [--data FOLDER]

Serves the app on this machine alone (loopback) and prints its address. The book is kept in FOLDER (.data here),
or in PostgreSQL when DATABASE_URL is set. Build the page first with npm start, which does both.
`;

async function run(args: string[], io: Io): Promise<number> {
  const { options } = readArgs(args, { port: "text", data: "text" }, { least: 0, most: 0 });
  const port = wholeNumber("port", options.port, 0, 65535);
  let running: Serving;
  try {
    running = await serve({
      ...(port === undefined ? {} : { port }),
      ...(options.data === undefined ? {} : { data: options.data }),
    });
  } catch (error) {
    io.note(`tournant serve: ${whyNot(error, port)}\n`);
    return EXIT.refused;
  }
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => void running.close());
  io.out(`Tournant is at ${running.address}\n`);
  await running.closed;
  return EXIT.computed;
}

export default { help, run };
