import { useMemo, useState } from "react";
import { Button, Dialog, DialogTrigger, Input, Label, Popover, SearchField } from "react-aria-components";
import { Finder, type Named } from "../../core/book/find.ts";
import { useWords } from "../app/settings.tsx";

/** Names that are offered at once; more is found by typing more. */
const MOST = 12;

const finders = new WeakMap<readonly Named[], Finder<Named>>();

/** A list made ready for searching, once a list. */
export function finderOf(list: readonly Named[]): Finder<Named> {
  const known = finders.get(list) ?? new Finder(list);
  finders.set(list, known);
  return known;
}

/** One of very many, found by typing; `more` are choices that are always offered. */
export function FindPick({
  label,
  text,
  list,
  more = [],
  onPick,
}: {
  readonly label: string;
  /** What is chosen now, in words. */
  readonly text: string;
  readonly list: readonly Named[];
  readonly more?: readonly { readonly id: string; readonly name: string }[];
  readonly onPick: (id: string) => void;
}) {
  return (
    <DialogTrigger>
      <Button className="pick-button find-pick" aria-label={`${label}: ${text}`}>
        {text}
        <span aria-hidden="true"> ▾</span>
      </Button>
      <Popover className="over sheet" placement="bottom start">
        <Dialog aria-label={label}>
          {({ close }) => (
            <Offered
              {...{ label, list, more }}
              onPick={(id) => {
                onPick(id);
                close();
              }}
            />
          )}
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}

function Offered({
  label,
  list,
  more,
  onPick,
}: {
  readonly label: string;
  readonly list: readonly Named[];
  readonly more: readonly { readonly id: string; readonly name: string }[];
  readonly onPick: (id: string) => void;
}) {
  const { say } = useWords();
  const [typed, setTyped] = useState("");
  const found = useMemo(() => finderOf(list).find(typed), [list, typed]);
  return (
    <>
      <SearchField className="entry" value={typed} onChange={setTyped} autoFocus>
        <Label className="field-label">{label}</Label>
        <Input />
      </SearchField>
      <ul className="find-list">
        {[...more, ...found.slice(0, MOST)].map((one) => (
          <li key={one.id}>
            <Button className="find-item" onPress={() => onPick(one.id)}>
              {one.name}
            </Button>
          </li>
        ))}
      </ul>
      {found.length > MOST && (
        <p className="quiet small">{say("find.more", { count: found.length - MOST })}</p>
      )}
    </>
  );
}
