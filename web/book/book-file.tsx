import { useState } from "react";
import { Button, FileTrigger } from "react-aria-components";
import { useHands } from "../app/hands.tsx";
import { useWords } from "../app/settings.tsx";
import { importBook, type Kept } from "./api.ts";

/** Takes the whole book out as one file, or reads one in; a file that is not right is told where. */
export function BookFile() {
  const { say } = useWords();
  const { store } = useHands();
  const [done, setDone] = useState<Kept>();
  const read = async (files: FileList | null) => {
    const file = files?.[0];
    if (!file) return;
    const kept = await importBook(await file.text());
    setDone(kept);
    if (kept.outcome === "kept") await store.load();
  };
  return (
    <div className="book-file">
      <p className="field-label">{say("book.file")}</p>
      <p className="row">
        <a className="button" href="/api/book/export" download>
          {say("book.export")}
        </a>
        <FileTrigger acceptedFileTypes={["application/json", ".json"]} onSelect={(files) => void read(files)}>
          <Button className="button">{say("book.import")}</Button>
        </FileTrigger>
      </p>
      <div role="status">
        {done?.outcome === "kept" && <p className="done">✓ {say("book.imported")}</p>}
        {done?.outcome === "unreachable" && <p className="decide">▲ {say("trial.unreachable")}</p>}
        {done?.outcome === "refused" &&
          done.problems.slice(0, 8).map((problem) => (
            <p key={`${problem.path}${problem.what}`} className="harm">
              ✕ {problem.path} {problem.what}: {problem.mend}
            </p>
          ))}
      </div>
    </div>
  );
}
