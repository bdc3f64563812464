import { useState } from "react";
import type { Usable } from "../../../core/intake/index.ts";
import { useWords } from "../../app/settings.tsx";

/** The price of a usable kilogram; it unfolds how it came: price, pack, trim. */
export function UsableFigure({ usable, currency }: { readonly usable: Usable; readonly currency: string }) {
  const { say, write } = useWords();
  const [open, setOpen] = useState(false);
  return (
    <span className="figure-below">
      <button type="button" className="figure" aria-expanded={open} onClick={() => setOpen(!open)}>
        {write.money(usable.perKg, currency)}
        <span className="unseen">, {say("trace.how")}</span>
      </button>
      {open && (
        <span className="trace">
          <span>
            {say("list.how", {
              price: write.money(usable.price, currency),
              pack: write.mass(usable.packG),
              trim: usable.trimYield === 1 ? "none" : write.share(usable.trimYield),
              cut: usable.cut || "none",
            })}
          </span>
        </span>
      )}
    </span>
  );
}
