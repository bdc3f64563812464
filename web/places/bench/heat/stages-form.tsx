import { Button } from "react-aria-components";
import { airOf } from "../../../../core/heat/media.ts";
import { type Medium, media } from "../../../../core/heat/media-data.ts";
import { organisms } from "../../../../core/heat/organisms.ts";
import { wordFor } from "../../../../words/catalogue.ts";
import { useWords } from "../../../app/settings.tsx";
import { Pick } from "../../../parts/pick.tsx";
import { type Draft, STAGE, type StageDraft, UNTILS } from "./draft.ts";
import { NumberEntry } from "./number-entry.tsx";
import type { FormProps } from "./piece-form.tsx";
import { useProblem } from "./problems.tsx";

const TABLES = [
  "fsis-poultry-7",
  "fsis-chicken-7",
  "fsis-turkey-7",
  "fsis-meat-6.5",
  "fsis-meat-7",
  "fsis-meat-5",
] as const;

/** What the piece goes through: where it starts, and each stage with its medium and its end. */
export function StagesForm({ draft, onChange }: FormProps) {
  const { say } = useWords();
  const set = (stages: readonly StageDraft[]) => onChange({ ...draft, stages });
  return (
    <section className="heat-form">
      <h3>{say("heat.stages")}</h3>
      <div className="fields">
        <NumberEntry
          label={say("heat.start")}
          unit="°C"
          value={draft.startC}
          paths={["/startC"]}
          onChange={(startC) => onChange({ ...draft, startC })}
        />
      </div>
      {draft.stages.map((stage, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the place in the list is the stage
        <div className="heat-part" key={i}>
          <div className="heat-part-head">
            <h4>
              {stage.name
                ? say("heat.stage.named", { n: i + 1, name: stage.name })
                : say("heat.stage", { n: i + 1 })}
            </h4>
            {draft.stages.length > 1 && (
              <Button
                className="button remove"
                aria-label={say("heat.stage.remove", { n: i + 1 })}
                onPress={() => set(draft.stages.toSpliced(i, 1))}
              >
                ✕
              </Button>
            )}
          </div>
          <StageForm
            draft={draft}
            stage={stage}
            at={`/stages/${i}`}
            onChange={(next) => set(draft.stages.with(i, next))}
          />
        </div>
      ))}
      <Button
        className="link-button"
        onPress={() =>
          set([...draft.stages, { ...STAGE, medium: "still-air", until: "minutes", minutes: 15 }])
        }
      >
        {say("heat.stage.add")}
      </Button>
    </section>
  );
}

interface StageProps {
  readonly draft: Draft;
  readonly stage: StageDraft;
  readonly at: string;
  readonly onChange: (stage: StageDraft) => void;
}

function StageForm({ draft, stage, at, onChange }: StageProps) {
  const { say, write } = useWords();
  const wrong = useProblem([at, `${at}/medium`, `${at}/underside`, `${at}/underside/medium`]);
  const set = (more: Partial<StageDraft>) => onChange({ ...stage, ...more });
  const medium = media.find((each) => each.id === stage.medium);
  const usual = medium && usualOf(medium, draft);
  const lies = draft.kind === "slab" || draft.kind === "finite-cylinder" || draft.kind === "brick";
  return (
    <>
      <div className="fields">
        <Pick
          label={say("heat.medium")}
          value={stage.medium}
          onChange={(id) => set({ medium: id, mediumC: undefined, coefficient: undefined })}
          options={[
            ...media.map((each) => [each.id, wordFor(say, "heat.medium", each.id)] as const),
            ["", say("heat.medium.any")],
          ]}
        />
        <NumberEntry
          label={say("heat.mediumC")}
          unit="°C"
          value={stage.mediumC}
          paths={[`${at}/mediumC`]}
          onChange={(mediumC) => set({ mediumC })}
          hint={usual === undefined ? undefined : say("heat.usual", { value: write.temperature(usual) })}
        />
        <NumberEntry
          label={say("heat.coefficient")}
          unit="W/(m² K)"
          value={stage.coefficient}
          paths={[`${at}/coefficient`]}
          onChange={(coefficient) => set({ coefficient })}
          hint={medium && say("heat.usual", { value: write.number(medium.coefficient) })}
        />
        {lies && (
          <Pick
            label={say("heat.underside")}
            value={stage.underside}
            onChange={(underside) => set({ underside, undersideC: undefined })}
            options={[
              ["", say("heat.underside.same")],
              ["insulated", say("heat.underside.insulated")],
              ...media.map((each) => [each.id, wordFor(say, "heat.medium", each.id)] as const),
            ]}
          />
        )}
        {lies && stage.underside !== "" && stage.underside !== "insulated" && (
          <NumberEntry
            label={say("heat.underside.at")}
            unit="°C"
            value={stage.undersideC}
            paths={[`${at}/underside/mediumC`]}
            onChange={(undersideC) => set({ undersideC })}
          />
        )}
      </div>
      {wrong && <p className="wrong">{wrong}</p>}
      <UntilForm draft={draft} stage={stage} at={at} onChange={onChange} />
    </>
  );
}

function UntilForm({ stage, at, onChange }: StageProps) {
  const { say } = useWords();
  const set = (more: Partial<StageDraft>) => onChange({ ...stage, ...more });
  const temperature = (label: string, key: "celsius" | "highC", paths: readonly string[]) => (
    <NumberEntry
      label={label}
      unit="°C"
      value={stage[key]}
      paths={paths}
      onChange={(v) => set({ [key]: v })}
    />
  );
  return (
    <div className="fields">
      <Pick
        label={say("heat.until")}
        value={stage.until}
        onChange={(until) => set({ until: until as StageDraft["until"] })}
        options={UNTILS.map((until) => [until, say(`heat.until.${until}`)])}
      />
      {stage.until === "minutes" && (
        <NumberEntry
          label={say("heat.minutes")}
          unit="min"
          value={stage.minutes}
          paths={[`${at}/minutes`]}
          onChange={(minutes) => set({ minutes })}
        />
      )}
      {stage.until === "core" && temperature(say("heat.target"), "celsius", [`${at}/untilCoreC`])}
      {stage.until === "peak" && temperature(say("heat.target"), "celsius", [`${at}/untilPeakCoreC`])}
      {stage.until === "surface" && temperature(say("heat.target"), "celsius", [`${at}/untilSurfaceC`])}
      {stage.until === "mean" && temperature(say("heat.target"), "celsius", [`${at}/untilMeanC`])}
      {stage.until === "doneness" && (
        <>
          {temperature(say("heat.target.low"), "celsius", [`${at}/untilDonenessC/0`, `${at}/untilDonenessC`])}
          {temperature(say("heat.target.high"), "highC", [`${at}/untilDonenessC/1`])}
        </>
      )}
      {stage.until === "log10" && (
        <>
          <NumberEntry
            label={say("heat.log10")}
            unit=""
            value={stage.log10}
            paths={[`${at}/untilLog10/log10`, `${at}/untilLog10`]}
            onChange={(log10) => set({ log10 })}
          />
          <Pick
            label={say("heat.organism")}
            value={stage.written ? "written" : stage.organism}
            onChange={(organism) => set({ organism, written: undefined })}
            options={[
              ...(stage.written ? [["written", say("heat.organism.written")] as const] : []),
              ...organisms.map(
                (each) => [each.id, say("heat.organism.of", { name: each.name, food: each.food })] as const,
              ),
            ]}
          />
        </>
      )}
      {stage.until === "table" && (
        <>
          <Pick
            label={say("heat.table")}
            value={stage.table}
            onChange={(table) => set({ table: table as StageDraft["table"] })}
            options={TABLES.map((table) => [table, say(`heat.table.${table}`)])}
          />
          {!stage.table.startsWith("fsis-meat") && (
            <NumberEntry
              label={say("heat.fat")}
              unit=""
              value={stage.fatPercent}
              paths={[`${at}/untilTable/fatPercent`, `${at}/untilTable`]}
              onChange={(fatPercent) => set({ fatPercent })}
            />
          )}
        </>
      )}
    </div>
  );
}

/** The temperature a medium has when none is given: that of boiling here, or its usual one. */
function usualOf({ celsius }: Medium, draft: Draft): number | undefined {
  if (celsius.by === "usual") return celsius.usual;
  if (celsius.by === "asked" || typeof draft.altitudeM === "string") return undefined;
  return airOf({ altitudeM: draft.altitudeM }).boilingC - celsius.below;
}
