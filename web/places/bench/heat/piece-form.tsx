import { Button } from "react-aria-components";
import { PieceSchema } from "../../../../core/heat/schema.ts";
import { PAGE_INK, sectionDrawing, shapeDrawing } from "../../../../drawing/index.ts";
import { useWords } from "../../../app/settings.tsx";
import { Drawing } from "../../../parts/drawing.tsx";
import { Pick } from "../../../parts/pick.tsx";
import { TextEntry } from "../../../parts/text-entry.tsx";
import { type Draft, inputOf, type LayerDraft, MATERIAL } from "./draft.ts";
import { MaterialForm } from "./material-form.tsx";
import { NumberEntry } from "./number-entry.tsx";
import { useProblem } from "./problems.tsx";

const KINDS = ["slab", "cylinder", "finite-cylinder", "sphere", "brick"] as const;

export interface FormProps {
  readonly draft: Draft;
  readonly onChange: (draft: Draft) => void;
}

/** Shape, sizes, layers and what it is made of, with the shape drawn to scale. */
export function PieceForm({ draft, onChange }: FormProps) {
  const { say } = useWords();
  const set = (more: Partial<Draft>) => onChange({ ...draft, ...more });
  return (
    <section className="heat-form">
      <h3>{say("heat.piece")}</h3>
      <ShapePicture draft={draft} />
      <div className="fields">
        <Pick
          label={say("heat.shape")}
          value={draft.kind}
          onChange={(kind) => set({ kind: kind as Draft["kind"] })}
          options={KINDS.map((kind) => [kind, say(`heat.shape.${kind}`)])}
        />
        <Sizes draft={draft} onChange={onChange} />
      </div>
      <MaterialForm
        label={say(draft.layers.length > 0 ? "heat.material.core" : "heat.material")}
        value={draft.material}
        path="/material"
        onChange={(material) => set({ material })}
      />
      <Layers draft={draft} onChange={onChange} />
    </section>
  );
}

function Sizes({ draft, onChange }: FormProps) {
  const { say } = useWords();
  const set = (more: Partial<Draft>) => onChange({ ...draft, ...more });
  const size = (key: "thicknessMm" | "diameterMm" | "lengthMm", label: string) => (
    <NumberEntry
      label={label}
      unit="mm"
      value={draft[key]}
      paths={[`/shape/${key}`]}
      onChange={(value) => set({ [key]: value })}
    />
  );
  switch (draft.kind) {
    case "slab":
      return size("thicknessMm", say("heat.thickness"));
    case "cylinder":
    case "sphere":
      return size("diameterMm", say("heat.diameter"));
    case "finite-cylinder":
      return (
        <>
          {size("diameterMm", say("heat.diameter"))}
          {size("lengthMm", say("heat.length"))}
        </>
      );
    case "brick":
      return ([0, 1, 2] as const).map((i) => (
        <NumberEntry
          key={i}
          label={say(`heat.side.${i}`)}
          unit="mm"
          value={draft.sidesMm[i]}
          paths={[`/shape/sidesMm/${i}`]}
          onChange={(value) => {
            const [a, b, c] = draft.sidesMm.with(i, value);
            set({ sidesMm: [a, b, c] });
          }}
        />
      ));
  }
}

function Layers({ draft, onChange }: FormProps) {
  const { say } = useWords();
  const wrong = useProblem(["/shape/layers"]);
  const set = (layers: readonly LayerDraft[]) => onChange({ ...draft, layers });
  return (
    <>
      {draft.layers.length > 0 && <p className="field-label">{say("heat.layers")}</p>}
      {draft.layers.map((layer, i) => {
        const change = (more: Partial<LayerDraft>) => set(draft.layers.with(i, { ...layer, ...more }));
        return (
          // Layers have no name of their own that lasts; their place is what they are.
          // biome-ignore lint/suspicious/noArrayIndexKey: the place in the list is the layer
          <div className="heat-part" key={i}>
            <div className="fields">
              <TextEntry
                label={say("heat.layer.name", { n: i + 1 })}
                value={layer.name}
                onChange={(name) => change({ name })}
              />
              <NumberEntry
                label={say("heat.thickness")}
                unit="mm"
                value={layer.thicknessMm}
                paths={[`/shape/layers/${i}/thicknessMm`]}
                onChange={(thicknessMm) => change({ thicknessMm })}
              />
              <Button
                className="button remove"
                aria-label={say("heat.layer.remove", { n: i + 1 })}
                onPress={() => set(draft.layers.toSpliced(i, 1))}
              >
                ✕
              </Button>
            </div>
            <MaterialForm
              label={say("heat.material")}
              value={layer.material}
              path={`/shape/layers/${i}/material`}
              onChange={(material) => change({ material })}
            />
          </div>
        );
      })}
      {wrong && <p className="wrong">{wrong}</p>}
      <Button
        className="link-button"
        onPress={() => set([...draft.layers, { name: "", thicknessMm: 3, material: MATERIAL }])}
      >
        {say("heat.layer.add")}
      </Button>
    </>
  );
}

/** The piece to scale: its layers where it has some, else its outline; nothing while its sizes make no sense. */
function ShapePicture({ draft }: { readonly draft: Draft }) {
  const { say, write } = useWords();
  const read = PieceSchema.safeParse((inputOf(draft) as { shape: unknown }).shape);
  if (!read.success) return null;
  const piece = read.data;
  const title = say("heat.shape.drawn", { shape: say(`heat.shape.${piece.kind}`) });
  return (
    <div className="heat-shape">
      <Drawing of={shapeDrawing({ piece, title, writeMm: write.length }, PAGE_INK)} />
      {(piece.layers?.length ?? 0) > 0 && (
        <Drawing
          of={sectionDrawing({ piece, title, core: say("bench.core"), writeMm: write.length }, PAGE_INK)}
        />
      )}
    </div>
  );
}
