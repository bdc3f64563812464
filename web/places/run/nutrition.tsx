import { useState } from "react";
import { Button } from "react-aria-components";
import { useTold } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";
import { Choice } from "../../parts/choice.tsx";
import { Empty } from "../../parts/empty.tsx";
import { type Law, NutritionLabelView, useLabelName } from "../../parts/nutrition-label.tsx";
import { Pick } from "../../parts/pick.tsx";

/** Nutrition labels of every plate and preparation, one at a time, by either law. */
export function NutritionLabels() {
  const { amounts } = useTold();
  const { say } = useWords();
  const name = useLabelName();
  const [law, setLaw] = useState<Law>("eu");
  const [chosen, setChosen] = useState("");
  const labels = amounts?.nutrition ?? [];
  const keyed = labels.map((label, at) => ({
    label,
    at,
    key: `${label.dish ?? ""} ${label.variant ?? ""} ${label.preparation ?? ""}`,
  }));
  const shown = keyed.find(({ key }) => key === chosen) ?? keyed[0];
  if (!shown)
    return (
      <div className="page">
        <Empty title={say("nutrition.none")}>{say("nutrition.none.what")}</Empty>
      </div>
    );
  return (
    <div className="page">
      <div className="picks no-print">
        <Pick
          label={say("nutrition.what")}
          value={shown.key}
          options={keyed.map(({ key, label }) => [key, name(label)] as const)}
          onChange={setChosen}
        />
        <Choice
          label={say("nutrition.law")}
          value={law}
          options={[
            ["eu", say("nutrition.eu")],
            ["us", say("nutrition.us")],
          ]}
          onChange={setLaw}
        />
        <Button className="button" onPress={() => window.print()}>
          {say("nutrition.print")}
        </Button>
      </div>
      <NutritionLabelView label={shown.label} at={shown.at} law={law} />
    </div>
  );
}
