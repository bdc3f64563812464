// For the durability test: saves without end, saying each revision once it is acknowledged.
import { writeSync } from "node:fs";
import { openEmbedded } from "./open.ts";

const store = await openEmbedded(process.argv[2]!);
for (let base = 0; ; ) {
  const answer = await store.save(
    [{ kind: "ingredients", id: "sea-salt", document: { base }, baseRevision: base }],
    "2027-01-28T09:00:00Z",
    "test",
  );
  if (!answer.ok) throw new Error("refused");
  base = answer.revision;
  writeSync(1, `${base}\n`);
}
