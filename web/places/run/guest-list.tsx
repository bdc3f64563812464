import { useState } from "react";
import { Button, Label, TextArea, TextField } from "react-aria-components";
import { ALLERGENS } from "../../../core/pantry/schema.ts";
import { DIETS, type Need } from "../../../core/plating/schema.ts";
import { type ReadGuest, readGuestList, withGuests } from "../../../core/production/guest-list.ts";
import type { GuestGroup } from "../../../core/production/schema.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useWords } from "../../app/settings.tsx";
import { Fold } from "../../parts/fold.tsx";
import { Pick } from "../../parts/pick.tsx";

const NEEDS: readonly Need[] = [...DIETS, ...ALLERGENS.map((a) => `no-${a}` as const)];
const OPEN = "open";
const LEAVE = "leave";

/** Guests typed or pasted, a guest a line; a word that is no need is asked about before anything is added. */
export function GuestList({
  guests,
  onChange,
}: {
  readonly guests: readonly GuestGroup[];
  readonly onChange: (guests: GuestGroup[]) => void;
}) {
  const { say } = useWords();
  const [text, setText] = useState("");
  const [read, setRead] = useState<readonly ReadGuest[]>([]);
  const [answers, setAnswers] = useState<Readonly<Record<string, string>>>({});
  const [added, setAdded] = useState(0);
  const words = [...new Set(read.flatMap((one) => one.asked.map((word) => word.toLowerCase())))];
  const open = words.filter((word) => (answers[word] ?? OPEN) === OPEN);
  const look = () => {
    setAdded(0);
    setRead(readGuestList(text));
  };
  const add = () => {
    onChange(
      withGuests(
        guests,
        read.map((one) => answered(one, answers)),
      ),
    );
    setAdded(read.length);
    setRead([]);
    setText("");
  };
  return (
    <Fold summary={<strong>{say("list.title")}</strong>}>
      <div className="guest-list">
        <TextField value={text} onChange={setText}>
          <Label className="field-label">{say("list.label")}</Label>
          <TextArea rows={4} placeholder={say("list.hint")} spellCheck={false} />
        </TextField>
        <p className="row">
          <Button className="button" onPress={look} isDisabled={text.trim() === ""}>
            {say("list.read")}
          </Button>
        </p>
        <div aria-live="polite">
          {added > 0 && <p className="done">✓ {say("list.added", { count: added })}</p>}
          {read.length > 0 && (
            <ul className="rows">
              {read.map((one) => (
                <ReadLine key={one.line} of={answered(one, answers)} guests={guests} />
              ))}
            </ul>
          )}
        </div>
        {words.map((word) => (
          <Pick
            key={word}
            label={say("list.asked", { word })}
            value={answers[word] ?? OPEN}
            options={[
              [OPEN, say("list.choose")],
              [LEAVE, say("list.noNeed")],
              ...NEEDS.map((need) => [need, wordFor(say, "need", need)] as const),
            ]}
            onChange={(answer) => setAnswers({ ...answers, [word]: answer })}
          />
        ))}
        {read.length > 0 && (
          <p className="row">
            <Button className="button" onPress={add} isDisabled={open.length > 0}>
              {say("list.add", { count: read.length })}
            </Button>
            {open.length > 0 && (
              <span className="decide">▲ {say("list.unanswered", { count: open.length })}</span>
            )}
          </p>
        )}
      </div>
    </Fold>
  );
}

/** A line with what a person has said of its unknown words. */
function answered(one: ReadGuest, answers: Readonly<Record<string, string>>): ReadGuest {
  const said = one.asked.map((word) => answers[word.toLowerCase()] ?? OPEN);
  const needs = said.filter((answer): answer is Need => (NEEDS as readonly string[]).includes(answer));
  return {
    ...one,
    needs: [...new Set([...one.needs, ...needs])],
    asked: one.asked.filter((_, i) => said[i] === OPEN),
  };
}

function ReadLine({ of, guests }: { readonly of: ReadGuest; readonly guests: readonly GuestGroup[] }) {
  const { say, write } = useWords();
  const there = guests.some((group) => of.seat !== undefined && group.seat === of.seat);
  const words = [
    ...of.needs.map((need) => wordFor(say, "need", need)),
    ...of.flags.map((flag) => wordFor(say, "flag", flag)),
  ];
  return (
    <li>
      <strong>{of.seat ?? say("list.noSeat")}</strong> {of.count > 1 && `${of.count} × `}
      {words.length > 0 ? write.list(words) : say("guests.none")}
      {of.asked.length > 0 && (
        <span className="decide"> ▲ {of.asked.map((word) => `“${word}”`).join(", ")}</span>
      )}
      {there && <span className="quiet"> {say("list.there")}</span>}
      {of.doubts.map((doubt) => (
        <span key={doubt} className="decide small block">
          ▲ {doubt}
        </span>
      ))}
    </li>
  );
}
