import {
  createContext,
  type ReactNode,
  useContext,
  useDeferredValue,
  useEffect,
  useMemo,
  useState,
  useSyncExternalStore,
} from "react";
import { indexBook, type Library } from "../../core/book/index-book.ts";
import type { Book } from "../../core/book/schema.ts";
import { type BookState, BookStore } from "../book/book-store.ts";
import { listen } from "../book/events.ts";
import type { FromWorker, Told, ToWorker } from "../compute/protocol.ts";
import { type Hand, Runner, type RunState } from "../compute/runner.ts";
import { Entries } from "../offline/entries.ts";
import type { Entry } from "../offline/entry.ts";

interface Hands {
  readonly store: BookStore;
  readonly runner: Runner;
  readonly entries: Entries;
}

const Here = createContext<Hands | undefined>(undefined);

function makeWorker(): Hand {
  const worker = new Worker(new URL("../worker.ts", import.meta.url), { type: "module" });
  const hand: Hand = {
    onmessage: null,
    postMessage: (message: ToWorker) => worker.postMessage(message),
    terminate: () => worker.terminate(),
  };
  worker.onmessage = (event: MessageEvent<FromWorker>) => hand.onmessage?.({ data: event.data });
  return hand;
}

/** The book, the worker and the log, one of each for the whole page. */
export function HandsProvider({ children }: { readonly children: ReactNode }) {
  const [hands] = useState<Hands>(() => ({
    store: new BookStore(),
    runner: new Runner(makeWorker),
    entries: new Entries(),
  }));
  useEffect(() => {
    void hands.store.load();
    const stop = listen(
      () => void hands.store.load(),
      () => void hands.entries.refresh(),
    );
    const online = () => {
      void hands.store.load();
      void hands.entries.send().then(() => hands.entries.refresh(true));
    };
    window.addEventListener("online", online);
    const again = setInterval(() => {
      void hands.entries.send();
      void hands.entries.refresh(true);
    }, 30_000);
    return () => {
      stop();
      clearInterval(again);
      window.removeEventListener("online", online);
    };
  }, [hands]);
  return <Here value={hands}>{children}</Here>;
}

export function useHands(): Hands {
  const hands = useContext(Here);
  if (!hands) throw new Error("the book is used outside of its provider");
  return hands;
}

export function useBookState(): BookState {
  const { store } = useHands();
  return useSyncExternalStore(store.subscribe, store.state);
}

const indexed = new WeakMap<Book, Library>();

/** A book is indexed once, not by every part of a page that asks for it. */
function libraryOf(book: Book): Library {
  const library = indexed.get(book) ?? indexBook(book);
  indexed.set(book, library);
  return library;
}

/** The book that is there; places are drawn only when it is. */
export function useBook(): { readonly book: Book; readonly library: Library; readonly store: BookStore } {
  const { store } = useHands();
  const { book } = useBookState();
  if (!book) throw new Error("a place was drawn before the book came");
  return { book, library: libraryOf(book), store };
}

export function useRunState(): RunState {
  const { runner } = useHands();
  return useSyncExternalStore(runner.subscribe, runner.state);
}

/** Newest figures: amounts follow every change at once, the plan's own come with the plan. */
interface ToldHere {
  readonly amounts: Told | undefined;
  readonly plan: Told | undefined;
  /** The plan belongs to an older question than the amounts, or is still being made. */
  readonly behind: boolean;
}

const Figures = createContext<ToldHere>({ amounts: undefined, plan: undefined, behind: true });

/** Hands new figures to the places without making an entry or slider wait for them to be drawn. */
export function ToldProvider({ children }: { readonly children: ReactNode }) {
  const { amounts, plan, planning } = useRunState();
  const behind = planning !== "idle" || plan === undefined;
  const told = useMemo(() => ({ amounts: amounts ?? plan, plan, behind }), [amounts, plan, behind]);
  return <Figures value={useDeferredValue(told)}>{children}</Figures>;
}

export function useTold(): ToldHere {
  return useContext(Figures);
}

export function useEntries(): {
  readonly list: readonly Entry[];
  readonly entries: Entries;
} {
  const { entries } = useHands();
  const list = useSyncExternalStore(entries.subscribe, entries.list);
  return { list, entries };
}

/** How many entries wait to be sent; apart, since it changes twice with every mark. */
export function useWaiting(): number {
  const { entries } = useHands();
  return useSyncExternalStore(entries.subscribe, entries.waiting);
}
