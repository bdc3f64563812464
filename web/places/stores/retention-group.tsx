import { RETENTION_GROUPS } from "../../../core/pantry/retention-groups.ts";
import type { Ingredient } from "../../../core/pantry/schema.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useBook } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";
import { Pick } from "../../parts/pick.tsx";

/** As which group of the retention table an ingredient cooks. */
export function RetentionGroupPick({ ingredient }: { readonly ingredient: Ingredient }) {
  const { store } = useBook();
  const { say } = useWords();
  const { retentionGroup, ...rest } = ingredient;
  const set = (typed: string) => {
    const group = RETENTION_GROUPS.find((each) => each === typed);
    store.edit("ingredients", group ? { ...rest, retentionGroup: group } : rest);
  };
  return (
    <Pick
      label={say("group.label")}
      value={retentionGroup ?? "none"}
      options={[
        ["none", say("group.none")] as const,
        ...RETENTION_GROUPS.map((group) => [group, wordFor(say, "group", group)] as const),
      ]}
      onChange={set}
    />
  );
}
