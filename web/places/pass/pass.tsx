import { useParams } from "@tanstack/react-router";
import { useTold } from "../../app/hands.tsx";
import { useMaybeService } from "../../app/service.tsx";
import { useSettings } from "../../app/settings.tsx";
import { Choice } from "../../parts/choice.tsx";
import { Views } from "../../parts/views.tsx";
import { NoService } from "../no-service.tsx";
import { Board } from "./board.tsx";
import { PlateCards } from "./cards.tsx";
import { PlateUpLine } from "./plate-up.tsx";

const VIEWS = { cards: PlateCards, line: PlateUpLine, board: Board } as const;
const NAMES = (["cards", "line", "board"] as const).map((id) => [id, `pass.${id}`] as const);

/** Pass: plate cards, the plate-up line, and the live board. */
export function PassPlace() {
  const { view } = useParams({ strict: false }) as { view?: string };
  const { say, settings, change } = useSettings();
  const { amounts } = useTold();
  const here = useMaybeService();
  if (!here) return <NoService />;
  const name = view && view in VIEWS ? (view as keyof typeof VIEWS) : "cards";
  const View = VIEWS[name];
  return (
    <>
      <div className="pass-head no-print">
        <Views place="pass" label="pass.views" views={NAMES} current={name} />
        <Choice
          label={say("settings.ground")}
          hideLabel
          value={settings.ground}
          onChange={(ground) => change({ ground })}
          options={[
            ["linen", say("settings.linen")],
            ["dark", say("settings.dark")],
          ]}
        />
      </div>
      {amounts ? <View /> : <p className="page quiet">{say("run.computing")}</p>}
    </>
  );
}
