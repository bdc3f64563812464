import { GUEST_FLAGS, type GuestFlag, type GuestGroup } from "../../../core/production/schema.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useWords } from "../../app/settings.tsx";
import { Checks } from "../../parts/checks.tsx";

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
    <Checks
      label={say("guests.flags")}
      value={group.flags ?? []}
      options={GUEST_FLAGS.map((flag) => [flag, wordFor(say, "flag", flag)])}
      what={say("guests.flags.what")}
      onChange={(flags) => onChange(withFlags(group, flags))}
    />
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
