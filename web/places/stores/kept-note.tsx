import { useWords } from "../../app/settings.tsx";
import type { Kept } from "../../book/api.ts";

/** What became of keeping something: refused with why and how to mend it, or only tried here. */
export function KeptNote({ said }: { readonly said: Kept | undefined }) {
  const { say } = useWords();
  return (
    <div role="status">
      {said?.outcome === "refused" &&
        said.problems.slice(0, 5).map((one) => (
          <p key={one.what} className="harm">
            ✕ {one.what}: {one.mend}
          </p>
        ))}
      {said !== undefined && said.outcome !== "refused" && said.outcome !== "kept" && (
        <p className="decide">▲ {say("supplier.tried")}</p>
      )}
    </div>
  );
}
