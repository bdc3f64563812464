import { useMemo } from "react";
import { useBook } from "../../../app/hands.tsx";
import { useWords } from "../../../app/settings.tsx";
import { Pick } from "../../../parts/pick.tsx";
import { type MaterialDraft, PARTS } from "./draft.ts";
import { partsOf } from "./from-preparation.ts";
import { NumberEntry } from "./number-entry.tsx";
import { useProblem } from "./problems.tsx";

/** What a piece or a layer is made of: an ingredient of the book, a composition, or given properties. */
export function MaterialForm({
  label,
  value,
  path,
  onChange,
}: {
  readonly label: string;
  readonly value: MaterialDraft;
  /** Place of the material in the trial. */
  readonly path: string;
  readonly onChange: (value: MaterialDraft) => void;
}) {
  const { say } = useWords();
  const { book, library } = useBook();
  const known = useMemo(
    () =>
      book.ingredients
        .filter((ingredient) => partsOf(library, ingredient.id) !== undefined)
        .sort((a, b) => a.name.localeCompare(b.name)),
    [book, library],
  );
  const choose = (by: string) => {
    if (!by.startsWith("ingredient:")) return onChange({ ...value, by: by as MaterialDraft["by"] });
    const parts = partsOf(library, by.slice("ingredient:".length)) ?? value.parts;
    onChange({ ...value, by: by as MaterialDraft["by"], parts });
  };
  return (
    <div className="fields">
      <Pick
        label={label}
        value={value.by}
        onChange={choose}
        options={[
          ...(value.written ? [["written", say("heat.material.written")] as const] : []),
          ["parts", say("heat.material.parts")],
          ["given", say("heat.material.given")],
          ...known.map((ingredient) => [`ingredient:${ingredient.id}`, ingredient.name] as const),
        ]}
      />
      {value.by === "given" && <Given value={value} path={path} onChange={onChange} />}
      {(value.by === "parts" || value.by.startsWith("ingredient:")) && (
        <Parts value={value} path={path} onChange={onChange} />
      )}
    </div>
  );
}

function Given({ value, path, onChange }: Omit<Parameters<typeof MaterialForm>[0], "label">) {
  const { say } = useWords();
  return (
    <>
      <NumberEntry
        label={say("heat.conductivity")}
        unit="W/(m K)"
        value={value.conductivity}
        paths={[`${path}/conductivity`, path]}
        onChange={(conductivity) => onChange({ ...value, conductivity })}
      />
      <NumberEntry
        label={say("heat.density")}
        unit="kg/m³"
        value={value.density}
        paths={[`${path}/density`]}
        onChange={(density) => onChange({ ...value, density })}
      />
      <NumberEntry
        label={say("heat.specificHeat")}
        unit="J/(kg K)"
        value={value.specificHeat}
        paths={[`${path}/specificHeat`]}
        onChange={(specificHeat) => onChange({ ...value, specificHeat })}
      />
    </>
  );
}

/** Six parts of 100 g; changing one makes the composition one by hand. */
function Parts({ value, path, onChange }: Omit<Parameters<typeof MaterialForm>[0], "label">) {
  const { say, write } = useWords();
  const wrong = useProblem([path, `${path}/composition`, ...PARTS.map((p) => `${path}/composition/${p}`)]);
  const sum = PARTS.reduce((total, part) => {
    const each = value.parts[part];
    return typeof each === "number" ? total + each : total;
  }, 0);
  const blank = PARTS.every((part) => value.parts[part] === undefined);
  return (
    <fieldset className="parts-set">
      <legend className="field-label">{say("heat.parts.label")}</legend>
      <div className="fields">
        {PARTS.map((part) => (
          <NumberEntry
            key={part}
            label={say(`heat.part.${part}`)}
            unit="g"
            value={value.parts[part]}
            paths={typeof value.parts[part] === "string" ? [`${path}/composition/${part}`] : []}
            onChange={(typed) =>
              onChange({ ...value, by: "parts", parts: { ...value.parts, [part]: typed } })
            }
          />
        ))}
      </div>
      {wrong && (
        <p className="wrong">
          {say(blank ? "heat.parts.blank" : "heat.parts.problem", { sum: write.number(sum, 1) })}
        </p>
      )}
    </fieldset>
  );
}
