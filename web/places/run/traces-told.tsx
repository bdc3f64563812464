import { useTold } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";

/** Whether what passes on shared equipment is told yet, and how far it is judged. */
export function TracesTold() {
  const { plan, behind } = useTold();
  const { say } = useWords();
  return <p className="quiet">{say(plan && !behind ? "seating.checked" : "seating.planFirst")}</p>;
}
