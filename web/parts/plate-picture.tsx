import { type MouseEvent, useMemo } from "react";
import type { Dish, Placement } from "../../core/plating/schema.ts";
import { PAGE_INK, placementVolume, plateDrawing } from "../../drawing/index.ts";
import { useBook } from "../app/hands.tsx";
import { useNames } from "../app/names.ts";
import { useWords } from "../app/settings.tsx";
import { Drawing } from "./drawing.tsx";

/** A plate to scale; a tap on a piece or its number brings it out. */
export function PlatePicture({
  dish,
  placements,
  chosen,
  onChoose,
}: {
  readonly dish: Dish;
  readonly placements: readonly Placement[];
  readonly chosen?: number | undefined;
  readonly onChoose?: (n: number | undefined) => void;
}) {
  const { library } = useBook();
  const names = useNames();
  const { say, write } = useWords();
  const drawing = useMemo(
    () =>
      plateDrawing(
        {
          plate: dish.plate,
          placements,
          volumeOf: (placement) => placementVolume(placement, library),
          title: say("plate.title", {
            name: dish.name,
            list: write.list(
              [...placements]
                .sort((a, b) => a.n - b.n)
                .map((p) => `${p.n} ${names.item(p.preparation ?? p.ingredient ?? "")}`),
            ),
          }),
          guest: say("plate.guest"),
          scale: write.length(50),
          chosen,
        },
        PAGE_INK,
      ),
    [dish, placements, library, names, say, write, chosen],
  );
  const tap = (event: MouseEvent) => {
    const n = (event.target as Element).closest("[data-n]")?.getAttribute("data-n");
    onChoose?.(n && Number(n) !== chosen ? Number(n) : undefined);
  };
  return (
    // The numbers beside the plate are buttons of their own; a tap on the picture is a shortcut to them.
    // biome-ignore lint/a11y/noStaticElementInteractions: see above
    // biome-ignore lint/a11y/useKeyWithClickEvents: see above
    <div className="plate" onClick={onChoose && tap}>
      <Drawing of={drawing} />
    </div>
  );
}
