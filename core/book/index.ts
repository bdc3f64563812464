export { indexBook, type Library } from "./index-book.ts";
export { mergeDocuments } from "./merge.ts";
export {
  type Parsed,
  parseBook,
  parseBookText,
  parseDocument,
  withDocument,
  withDocuments,
  withoutDocument,
} from "./parse.ts";
export { atPointer, type Problem, pointerOf } from "./problem.ts";
export {
  BOOK_FORMAT,
  BOOK_VERSION,
  type Book,
  type BookInput,
  BookSchema,
  bookJsonSchema,
  DOCUMENT_KINDS,
  DOCUMENT_SCHEMAS,
  type DocumentKind,
} from "./schema.ts";
