import { parseArgs } from "node:util";

if (Number(process.versions.node.split(".")[0]) < 24) {
  console.error(`Tournant runs on Node 24 or newer, this is ${process.version}: start it with npm start`);
  process.exit(1);
}
const { values } = parseArgs({ options: { port: { type: "string" }, data: { type: "string" } } });
const port = values.port === undefined ? undefined : Number(values.port);
if (port !== undefined && !(Number.isInteger(port) && port >= 0 && port < 65536)) {
  console.error(`--port is "${values.port}": give a whole number below 65536`);
  process.exit(2);
}
const { serve, whyNot } = await import("./serve.ts");
try {
  const running = await serve({
    ...(port === undefined ? {} : { port }),
    ...(values.data === undefined ? {} : { data: values.data }),
  });
  console.log(`Tournant is at ${running.address}`);
  console.log("Stop it with Ctrl-C. What you write is kept.");
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => void running.close());
  await running.closed;
} catch (error) {
  console.error(`Tournant could not start: ${whyNot(error, port)}`);
  process.exitCode = 1;
}
