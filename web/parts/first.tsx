import { type ReactNode, useState } from "react";
import { Button } from "react-aria-components";
import { useWords } from "../app/settings.tsx";

/** The first of a list, and below it a button that shows the rest; nothing where there is none. */
export function useFirst<T>(all: readonly T[], most: number): { shown: readonly T[]; more: ReactNode } {
  const { say } = useWords();
  const [open, setOpen] = useState(false);
  if (open || all.length <= most) return { shown: all, more: null };
  return {
    shown: all.slice(0, most),
    more: (
      <Button className="link-button more" onPress={() => setOpen(true)}>
        {say("plan.showMore", { count: all.length - most })}
      </Button>
    ),
  };
}
