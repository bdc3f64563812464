import type { Documents } from "../production/documents.ts";
import type { Supplier } from "../purchasing/schema.ts";
import type { Book, DocumentKind } from "./schema.ts";

/** Everything a book holds, by id. */
export interface Library extends Documents {
  readonly suppliers: ReadonlyMap<string, Supplier>;
}

/** The book's documents by id, with the place of each in the book file. Computed once a book. */
export function indexBook(book: Book): Library {
  const known = cache.get(book);
  if (known) return known;
  const places = new Map<string, string>();
  const byId = <T extends { id: string }>(kind: DocumentKind, list: readonly T[]): ReadonlyMap<string, T> => {
    list.forEach((document, i) => {
      places.set(`${kind} ${document.id}`, `/${kind}/${i}`);
    });
    return new Map(list.map((document) => [document.id, document]));
  };
  const documents: Library = {
    ingredients: byId("ingredients", book.ingredients),
    suppliers: byId("suppliers", book.suppliers),
    preparations: byId("preparations", book.preparations),
    dishes: byId("dishes", book.dishes),
    menus: byId("menus", book.menus),
    kitchens: byId("kitchens", book.kitchens),
    services: byId("services", book.services),
    pointer: (kind, id) => {
      const place = places.get(`${kind} ${id}`);
      if (!place) throw new Error(`book: there is no ${kind} "${id}"`);
      return place;
    },
  };
  cache.set(book, documents);
  return documents;
}

const cache = new WeakMap<Book, Library>();
