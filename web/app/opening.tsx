import { Button } from "react-aria-components";
import { useBookState, useHands } from "./hands.tsx";
import { useWords } from "./settings.tsx";

/** Before the book is there: quiet while it comes, and what to do when it does not. */
export function Opening() {
  const { say } = useWords();
  const { status } = useBookState();
  const { store } = useHands();
  if (status === "loading") return <p className="page quiet">{say("opening.loading")}</p>;
  return (
    <div className="page">
      <h1>{say("opening.unreachable")}</h1>
      <p className="large">{say("opening.unreachable.mend")}</p>
      <p>
        <Button className="button" onPress={() => void store.load()}>
          {say("opening.again")}
        </Button>
      </p>
    </div>
  );
}
