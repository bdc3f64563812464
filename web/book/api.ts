import type { Book, DocumentKind } from "../../core/book/schema.ts";

/** The book as the server has it. The revision counts all saves; the page only hands it back. */
export interface Served {
  readonly book: Book;
  readonly revision: number;
}

export interface ServedProblem {
  readonly path?: string;
  readonly what: string;
  readonly mend: string;
}

/** What came of keeping a document. */
export type Kept =
  | {
      readonly outcome: "kept";
      readonly revision: Served["revision"] | undefined;
      /** The document as it stands now: joined with what others changed elsewhere in it. */
      readonly document?: unknown;
    }
  /** Someone else changed it since; nothing was written. */
  | { readonly outcome: "changed elsewhere" }
  | { readonly outcome: "refused"; readonly problems: readonly ServedProblem[] }
  | { readonly outcome: "unreachable" };

export async function fetchBook(): Promise<Served> {
  const answer = await fetch("/api/book", {
    headers: { accept: "application/json" },
  });
  if (!answer.ok) throw new Error(`the book did not come: the server answered ${answer.status}`);
  return (await answer.json()) as Served;
}

/** Writes one document, if it is still as it was at `baseRevision`. */
export async function putDocument(
  kind: DocumentKind,
  id: string,
  document: unknown,
  baseRevision: Served["revision"],
): Promise<Kept> {
  let answer: Response;
  try {
    answer = await fetch(`/api/documents/${kind}/${encodeURIComponent(id)}`, {
      method: "PUT",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ document, baseRevision }),
    });
  } catch {
    return { outcome: "unreachable" };
  }
  const said = (await answer.json().catch(() => ({}))) as {
    revision?: Served["revision"];
    document?: unknown;
    problems?: ServedProblem[];
    error?: string;
  };
  if (answer.ok) return { outcome: "kept", revision: said.revision, document: said.document };
  if (answer.status === 409) return { outcome: "changed elsewhere" };
  return {
    outcome: "refused",
    problems: said.problems ?? [
      {
        what: said.error ?? `the server answered ${answer.status}`,
        mend: "try again, or put the change back",
      },
    ],
  };
}

/** Writes several documents as one revision, all or none. */
export async function putDocuments(
  documents: readonly { kind: DocumentKind; document: unknown; baseRevision: Served["revision"] }[],
): Promise<Kept> {
  let answer: Response;
  try {
    answer = await fetch("/api/documents", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ documents }),
    });
  } catch {
    return { outcome: "unreachable" };
  }
  const said = (await answer.json().catch(() => ({}))) as {
    revision?: Served["revision"];
    problems?: ServedProblem[];
  };
  if (answer.ok) return { outcome: "kept", revision: said.revision };
  if (answer.status === 409) return { outcome: "changed elsewhere" };
  const none = { what: `the server answered ${answer.status}`, mend: "try again" };
  return { outcome: "refused", problems: said.problems ?? [none] };
}

/** Sends a whole book file; the server judges it. */
export async function importBook(text: string): Promise<Kept> {
  let answer: Response;
  try {
    answer = await fetch("/api/book/import", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: text,
    });
  } catch {
    return { outcome: "unreachable" };
  }
  const said = (await answer.json().catch(() => ({}))) as {
    revision?: Served["revision"];
    problems?: ServedProblem[];
    error?: string;
  };
  if (answer.ok) return { outcome: "kept", revision: said.revision };
  return {
    outcome: "refused",
    problems: said.problems ?? [
      {
        what: said.error ?? `the server answered ${answer.status}`,
        mend: "choose a book file that was exported here",
      },
    ],
  };
}
