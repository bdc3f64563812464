import { COOKING_WAYS, type Step } from "../../../core/formula/schema.ts";
import { useWords } from "../../app/settings.tsx";
import { Pick } from "../../parts/pick.tsx";

type Cooks = NonNullable<Step["cooks"]>;

/** How a step cooks, and what becomes of its liquid: for what is left of the minerals. */
export function StepCooks({
  step,
  onChange,
}: {
  readonly step: Step;
  readonly onChange: (step: Step) => void;
}) {
  const { say } = useWords();
  const { cooks, ...rest } = step;
  const by = (typed: string) => {
    const way = COOKING_WAYS.find((each) => each === typed);
    onChange(way ? { ...rest, cooks: { by: way } } : rest);
  };
  const liquid = (of: Cooks, typed: string) =>
    onChange({
      ...rest,
      cooks: { by: of.by, ...(typed === "kept" || typed === "drained" ? { liquid: typed } : {}) },
    });
  return (
    <div className="row wrap step-cooks">
      <Pick
        label={say("cooks.label")}
        value={cooks?.by ?? "none"}
        options={[
          ["none", say("cooks.none")] as const,
          ...COOKING_WAYS.map((way) => [way, say(`cooks.${way}`)] as const),
        ]}
        onChange={by}
      />
      {cooks && (cooks.by === "boil" || cooks.by === "braise") && (
        <Pick
          label={say("cooks.liquid")}
          value={cooks.liquid ?? "none"}
          options={[
            ["none", say("cooks.liquid.auto")],
            ["kept", say("cooks.liquid.kept")],
            ["drained", say("cooks.liquid.drained")],
          ]}
          onChange={(typed) => liquid(cooks, typed)}
        />
      )}
    </div>
  );
}
