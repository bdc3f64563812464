import { useNavigate } from "@tanstack/react-router";
import { useState } from "react";
import {
  Button,
  Dialog,
  DialogTrigger,
  FieldError,
  Input,
  Label,
  Popover,
  TextField,
} from "react-aria-components";
import { PreparationSchema } from "../../../core/formula/schema.ts";
import { useBook } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";
import { idOf } from "../../parts/id-of.ts";

/** Begins a preparation: a name, then its sheet opens with one line and one step to write on. */
export function NewPreparation() {
  const { say } = useWords();
  const { library, book, store } = useBook();
  const navigate = useNavigate();
  const [name, setName] = useState("");
  const [wrong, setWrong] = useState<string>();
  const begin = (close: () => void) => {
    const id = idOf(name);
    const first = book.ingredients[0];
    if (id === "") return setWrong(say("new.noName"));
    if (library.preparations.has(id)) return setWrong(say("new.taken", { name }));
    if (!first) return setWrong(say("new.noIngredient"));
    const station = book.kitchens[0]?.stations[0]?.id ?? "bench";
    const skill = book.kitchens[0]?.skills[0]?.id ?? "cook";
    store.edit(
      "preparations",
      PreparationSchema.parse({
        id,
        name: name.trim(),
        yield: { amount: { value: 1, unit: "kg" } },
        lines: [
          { id: "first", item: { ingredient: first.id }, amount: { value: 1, unit: "kg" }, step: "make" },
        ],
        steps: [
          {
            id: "make",
            name: say("new.step"),
            text: say("new.step.text"),
            work: { fixedMin: 10, hands: { least: 1, most: 1, split: "divides" }, skill, station },
          },
        ],
      }),
    );
    close();
    void navigate({ to: "/bench/preparation/$id", params: { id } });
  };
  return (
    <DialogTrigger>
      <Button className="button">{say("new.preparation")}</Button>
      <Popover className="over sheet" placement="bottom start">
        <Dialog aria-label={say("new.preparation")}>
          {({ close }) => (
            <form
              onSubmit={(event) => {
                event.preventDefault();
                begin(close);
              }}
            >
              <TextField
                validationBehavior="aria"
                className="entry"
                value={name}
                onChange={(next) => {
                  setName(next);
                  setWrong(undefined);
                }}
                isInvalid={wrong !== undefined}
                autoFocus
              >
                <Label className="field-label">{say("new.name")}</Label>
                <Input />
                <FieldError className="wrong">{wrong}</FieldError>
              </TextField>
              <Button type="submit" className="button">
                {say("new.begin")}
              </Button>
            </form>
          )}
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
