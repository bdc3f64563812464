import { Button } from "react-aria-components";
import type { PlanTask } from "../../../core/run/result.ts";
import { useBook } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { replaceable } from "./instead.ts";
import { type Pin, withoutPin, withPin } from "./pins.ts";
import { type Move, movable } from "./use-move.ts";

/** What the chef has decided of a task: pin it as it stands, move it, unpin it. */
export function Pinned({ task, move }: { readonly task: PlanTask; readonly move: Move }) {
  const { say, write } = useWords();
  const { store } = useBook();
  const { service, kitchen } = useService();
  const names = useNames();
  const pin = service.pins.find((each) => each.task === task.id);
  // What waits on equipment can be put on another unit.
  const free = movable(task) || replaceable(kitchen, task).length > 0;
  if (!free || task.kind === "milestone") return null;
  const asItStands: Pin = {
    task: task.id,
    ...(movable(task) ? { start: task.start } : {}),
    ...(task.hands.length > 0 ? { crew: [...task.hands] } : {}),
    ...(task.equipment.length > 0 ? { equipment: [...new Set(task.equipment.map((use) => use.id))] } : {}),
  };
  return (
    <div className="pinned">
      {pin && (
        <p>
          <strong>{say("pin.title")}</strong>{" "}
          {[
            ...(pin.start ? [say("pin.start", { start: write.clock(pin.start) })] : []),
            ...(pin.crew ? [say("pin.hands", { hands: write.list(pin.crew.map(names.person)) })] : []),
            ...(pin.equipment
              ? [say("pin.equipment", { equipment: write.list(pin.equipment.map(names.equipment)) })]
              : []),
          ].join(", ")}
        </p>
      )}
      <div className="row move-do">
        <Button className="button" onPress={() => move.to(task, task.startMin)}>
          {say(movable(task) ? "move.start" : "move.elsewhere")}
        </Button>
        <Button
          className="button quiet-button"
          onPress={() =>
            store.edit("services", pin ? withoutPin(service, task.id) : withPin(service, asItStands))
          }
        >
          {say(pin ? "pin.off" : "pin.here")}
        </Button>
      </div>
    </div>
  );
}
