import { Button } from "react-aria-components";
import type { Choice } from "../../../../core/intake/index.ts";
import { useWords } from "../../../app/settings.tsx";

/** Answers that are ready, the likeliest first and strongest: one tap settles the doubt. */
export function Choices({
  choices,
  onTake,
}: {
  readonly choices: readonly Choice[];
  readonly onTake: (choice: Choice) => void;
}) {
  const { say } = useWords();
  const words = (choice: Choice) => {
    if (choice.kind === "country") return say(`measures.${choice.country}`);
    if (choice.kind === "oven") return choice.oven === null ? say("oven.none") : choice.name;
    return choice.label;
  };
  return (
    <div className="row wrap paste-choices">
      {choices.map((choice, i) => (
        <Button
          key={JSON.stringify(choice)}
          className={i === 0 ? "button" : "button quiet-button"}
          onPress={() => onTake(choice)}
        >
          {words(choice)}
        </Button>
      ))}
    </div>
  );
}
