import { variantWords } from "../../../words/variant.ts";
import { useWords } from "../../app/settings.tsx";

/** For whom a dish is changed: ", vegetarian, coeliac"; nothing for the dish as written. */
export function VariantWords({ of }: { readonly of: string }) {
  const { say } = useWords();
  const words = variantWords(say, of);
  return words === undefined ? null : <span className="quiet">, {words}</span>;
}
