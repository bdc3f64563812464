import type { DocumentKind } from "../../../core/book/schema.ts";
import { useBook, useBookState } from "../../app/hands.tsx";
import type { Kept } from "../../book/api.ts";
import { type AnyDocument, trialKey } from "../../book/trial.ts";

export interface KeptDocument {
  readonly kind: DocumentKind;
  readonly document: AnyDocument;
}

/**
 * Keeps documents together, all or none. Where something else is being tried on one of them already, all are only tried:
 * keeping them would keep unseen what somebody has not decided yet.
 */
export function useKeepTogether(): (documents: readonly KeptDocument[]) => Promise<Kept> {
  const { store } = useBook();
  const { trials } = useBookState();
  return async (documents) => {
    if (!documents.some(({ kind, document }) => trials.has(trialKey(kind, document.id))))
      return store.keepAll(documents);
    for (const { kind, document } of documents) store.edit(kind, document);
    return { outcome: "kept", revision: undefined };
  };
}
