import { Checkbox, CheckboxGroup, Label, Text } from "react-aria-components";
import { GUEST_FLAGS, type GuestFlag, type GuestGroup } from "../../../core/production/schema.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useWords } from "../../app/settings.tsx";

/** What a guest asked for that no kitchen can promise: told as a flag, never judged as met. */
export function GuestFlags({
  group,
  onChange,
}: {
  readonly group: GuestGroup;
  readonly onChange: (group: GuestGroup) => void;
}) {
  const { say } = useWords();
  return (
    <CheckboxGroup
      className="needs"
      value={group.flags ?? []}
      onChange={(next) => onChange(withFlags(group, next as GuestFlag[]))}
    >
      <Label className="field-label">{say("guests.flags")}</Label>
      <div className="needs-list">
        {GUEST_FLAGS.map((flag) => (
          <Checkbox key={flag} value={flag} className="check">
            <span className="box" aria-hidden="true" />
            {wordFor(say, "flag", flag)}
          </Checkbox>
        ))}
      </div>
      <Text slot="description" className="quiet small block">
        {say("guests.flags.what")}
      </Text>
    </CheckboxGroup>
  );
}

/** "asked for: halal-style", after what a guest needs. */
export function FlagWords({ flags }: { readonly flags: readonly GuestFlag[] }) {
  const { say, write } = useWords();
  return (
    <span className="quiet">
      {" "}
      · {say("guests.flagged", { list: write.list(flags.map((flag) => wordFor(say, "flag", flag))) })}
    </span>
  );
}

/** A group with these flags; without any it has no list of them, as before. */
function withFlags(group: GuestGroup, flags: readonly GuestFlag[]): GuestGroup {
  const { flags: _, ...rest } = group;
  return flags.length > 0 ? { ...rest, flags: [...flags] } : rest;
}
