import { wordFor } from "../../../words/catalogue.ts";
import { useWords } from "../../app/settings.tsx";

/** For whom a dish is changed: ", vegetarian, coeliac"; nothing for the dish as written. */
export function VariantWords({ of }: { readonly of: string }) {
  const { say } = useWords();
  if (of === "" || of === "standard") return null;
  return (
    <span className="quiet">
      ,{" "}
      {of
        .split("+")
        .map((need) => wordFor(say, "need", need))
        .join(", ")}
    </span>
  );
}
