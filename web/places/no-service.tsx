import { useWords } from "../app/settings.tsx";
import { BookFile } from "../book/book-file.tsx";
import { Empty } from "../parts/empty.tsx";
import { NewService } from "./run/new-service.tsx";

/** A book without a service: what a service is, and where to begin. */
export function NoService() {
  const { say } = useWords();
  return (
    <div className="page">
      <Empty
        title={say("empty.service")}
        step={
          <>
            <NewService />
            <BookFile />
          </>
        }
      >
        {say("empty.service.what")}
      </Empty>
    </div>
  );
}
