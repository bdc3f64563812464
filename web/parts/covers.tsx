import { useEffect, useState } from "react";
import {
  Button,
  Group,
  Input,
  Label,
  NumberField,
  Slider,
  SliderThumb,
  SliderTrack,
} from "react-aria-components";
import { FEWEST_COVERS, MOST_COVERS, SLIDER_COVERS } from "../app/search.ts";
import { useCovers, useService } from "../app/service.tsx";
import { useWords } from "../app/settings.tsx";

/** Covers by slider or by number; everything follows while it moves. */
export function Covers() {
  const { service } = useService();
  const { covers, setCovers } = useCovers();
  const { say } = useWords();
  const [shown, setShown] = useState(covers);
  useEffect(() => setShown(covers), [covers]);
  const set = (next: number, settled: boolean) => {
    if (!Number.isFinite(next)) return;
    setShown(next);
    setCovers(next, settled);
  };
  const least = Math.min(SLIDER_COVERS[0], service.covers);
  const most = Math.max(SLIDER_COVERS[1], service.covers);
  return (
    <div className="covers">
      <NumberField
        className="covers-field"
        value={shown}
        minValue={FEWEST_COVERS}
        maxValue={MOST_COVERS}
        step={1}
        formatOptions={{ maximumFractionDigits: 0, useGrouping: false }}
        onChange={(next) => set(next, true)}
      >
        <Label className="covers-label">{say("covers.label")}</Label>
        <Group className="covers-group">
          <Button slot="decrement" className="step">
            −
          </Button>
          <Input className="covers-input" />
          <Button slot="increment" className="step">
            +
          </Button>
        </Group>
      </NumberField>
      <Slider
        className="covers-slider"
        aria-label={say("covers.label")}
        minValue={Math.min(least, shown)}
        maxValue={Math.max(most, shown)}
        value={shown}
        onChange={(next) => set(next as number, false)}
        onChangeEnd={(next) => set(next as number, true)}
      >
        <SliderTrack className="track">
          <SliderThumb className="thumb" />
        </SliderTrack>
        <span className="ends small quiet" aria-hidden="true">
          <span>{least}</span>
          <span>{most}</span>
        </span>
      </Slider>
      {covers !== service.covers && (
        <Button className="button quiet-button" onPress={() => set(service.covers, true)}>
          {say("covers.back", { count: service.covers })}
        </Button>
      )}
    </div>
  );
}
