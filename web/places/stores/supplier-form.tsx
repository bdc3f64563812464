import { useState } from "react";
import { Button } from "react-aria-components";
import { type Supplier, WEEKDAYS } from "../../../core/purchasing/schema.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useBook } from "../../app/hands.tsx";
import { useMaybeService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Checks } from "../../parts/checks.tsx";
import { CountEntry } from "../../parts/count-entry.tsx";
import { Entry } from "./entry.tsx";
import {
  readSupplier,
  type SupplierDocuments,
  type SupplierDraft,
  type SupplierField,
  supplierDraft,
  type Wrong,
} from "./supplier-draft.ts";

/** A new supplier, or what is known of one: typed as a whole, read when it is kept. */
export function SupplierForm({
  of,
  keep,
  onKeep,
  onLeave,
}: {
  readonly of?: Supplier;
  /** What the button says. */
  readonly keep: string;
  readonly onKeep: (read: SupplierDocuments) => void;
  readonly onLeave?: () => void;
}) {
  const { say, write } = useWords();
  const { book } = useBook();
  const here = useMaybeService()?.kitchen;
  const [draft, setDraft] = useState(() => supplierDraft(of, book, here));
  const [wrong, setWrong] = useState<Wrong>({});
  const set = (more: Partial<SupplierDraft>) => {
    setDraft({ ...draft, ...more });
    const left = { ...wrong };
    for (const field of Object.keys(more) as SupplierField[]) delete left[field];
    setWrong(left);
  };
  const told = (field: SupplierField) => {
    const one = wrong[field];
    return one && say(one.key, one.values);
  };
  const text = (field: "name" | "cutoff" | "arrivesBy" | "minimum" | "charge" | "currency") => (
    <Entry
      label={say(`supplier.${field}`)}
      value={draft[field]}
      onChange={(value) => set({ [field]: value })}
      wrong={told(field)}
    />
  );
  const count = Object.keys(wrong).length;
  return (
    <form
      className="supplier-form"
      onSubmit={(event) => {
        event.preventDefault();
        const read = readSupplier(draft, book, of);
        if ("wrong" in read) setWrong(read.wrong);
        else onKeep(read);
      }}
    >
      {text("name")}
      <Checks
        label={say("supplier.days")}
        value={draft.days}
        options={WEEKDAYS.map((day) => [day, wordFor(say, "weekday", day)])}
        wrong={told("days")}
        onChange={(days) => set({ days })}
      />
      <div className="supplier-fields">
        <CountEntry
          label={say("supplier.daysBefore")}
          value={draft.daysBefore}
          most={60}
          onChange={(daysBefore) => set({ daysBefore })}
        />
        {text("cutoff")}
        {text("arrivesBy")}
        {text("minimum")}
        {text("charge")}
        {text("currency")}
      </div>
      {book.kitchens.length > 0 && (
        <Checks
          label={say("supplier.kitchens")}
          value={draft.kitchens}
          options={book.kitchens.map((one) => [one.id, one.name])}
          onChange={(kitchens) => set({ kitchens })}
        />
      )}
      {draft.kitchens.length === 0 && <p className="decide">▲ {say("supplier.kitchens.none")}</p>}
      <div className="row wrap">
        <Button type="submit" className="button">
          {keep}
        </Button>
        {onLeave && (
          <Button className="link-button" onPress={onLeave}>
            {say("list.leave")}
          </Button>
        )}
      </div>
      <p role="status">
        {count > 0 && (
          <span className="harm">
            ✕{" "}
            {say("supplier.wrong", {
              count,
              list: write.list(fieldsOf(wrong).map((f) => say(`supplier.${f}`))),
            })}
          </span>
        )}
      </p>
    </form>
  );
}

const fieldsOf = (wrong: Wrong) => Object.keys(wrong) as SupplierField[];
