import type { Problem } from "../../core/book/problem.ts";
import type { Book } from "../../core/book/schema.ts";
import { TRIED } from "../../core/costing/changes.ts";
import type { Trial } from "../../core/costing/what-if.ts";
import { ANOTHER } from "../../core/production/another-amount.ts";
import type { Explained } from "../../core/production/explain.ts";
import type { TaskPin, TriedMove } from "../../core/run/try-move.ts";
import type { Another, FromWorker, Question, Stage, Told, ToWorker, Traced, Tried } from "./protocol.ts";

export interface RunState {
  /** Newest amounts for the newest question that was answered. */
  readonly amounts: Told | undefined;
  /** Newest plan; it may belong to an older question while the next is on its way. */
  readonly plan: Told | undefined;
  readonly planning: "idle" | "working" | "stopped";
  /** What the planner is at. */
  readonly stage: Stage;
  readonly progress: number;
  /** Why the last question could not be computed; what was computed before stays. */
  readonly problems: readonly Problem[];
  /** What `amounts` and `plan` belong to. */
  readonly question: Question | undefined;
  readonly ms: number;
}

/** What a worker must be able to do; a page's Worker, or a stand-in of a test. */
export interface Hand {
  postMessage(message: ToWorker): void;
  terminate(): void;
  onmessage: ((event: { data: FromWorker }) => void) | null;
}

type Without<M> = M extends { readonly id: number } ? Omit<M, "id"> : never;
/** What a worker is asked, without its number. */
type Asked = Without<ToWorker>;

/** Pause before a plan is begun, so that a slider in motion does not begin one each frame, ms. */
const SETTLE_MS = 160;

/**
 * Asks two workers: one for amounts, which is never kept waiting, one for plans, which is stopped when the question
 * changes. The latest question wins (A2).
 */
export class Runner {
  #amounts: Hand | undefined;
  #planner: Hand | undefined;
  #plannerBusy = false;
  #told = new WeakMap<Hand, number>();
  #next = 1;
  #asked: { id: number; question: Question } | undefined;
  #waiting: Question | undefined;
  #plan: { id: number; question: Question } | undefined;
  #settle: ReturnType<typeof setTimeout> | undefined;
  #book: { book: Book; version: number } | undefined;
  /** Questions on the way, by number: whom they were asked, and what their answer is given to. */
  readonly #open = new Map<number, { readonly hand: Hand; readonly answer: (answer: never) => void }>();
  readonly #listeners = new Set<() => void>();
  readonly #make: () => Hand;
  #state: RunState = {
    amounts: undefined,
    plan: undefined,
    planning: "idle",
    stage: "first",
    progress: 0,
    problems: [],
    question: undefined,
    ms: 0,
  };

  constructor(make: () => Hand) {
    this.#make = make;
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };
  readonly state = (): RunState => this.#state;

  /** Asks for everything about a service in this book. */
  ask(book: Book, version: number, question: Question): void {
    const other = this.#state.question?.service !== question.service;
    this.#book = { book, version };
    if (other) this.#set({ amounts: undefined, plan: undefined });
    this.#set({ question });
    if (this.#asked) this.#waiting = question;
    else this.#askAmounts(question);
    clearTimeout(this.#settle);
    this.#settle = setTimeout(() => this.#askPlan(question), SETTLE_MS);
  }

  /** Stops the plan being made; the best so far stays. */
  stop(): void {
    clearTimeout(this.#settle);
    if (!this.#plannerBusy) return;
    this.#dropPlanner();
    this.#set({ planning: "stopped" });
  }

  /** Makes the plan after it was stopped. */
  resume(): void {
    if (this.#state.question) this.#askPlan(this.#state.question);
  }

  /** Why a task of the plan stands where it stands; undefined while a plan is being made. */
  explain(task: string): Promise<Explained | undefined> {
    return this.#askPlanner({ type: "explain", task });
  }

  /** What would give if a task were pinned; undefined while a plan is being made. */
  tryMove(pin: TaskPin): Promise<TriedMove | undefined> {
    return this.#askPlanner({ type: "move", pin });
  }

  #askPlanner<T>(question: Asked): Promise<T | undefined> {
    const hand = this.#planner;
    if (!hand || this.#plannerBusy || this.#state.plan === undefined) return Promise.resolve(undefined);
    return this.#askOf(hand, question);
  }

  #askOf<T>(hand: Hand, question: Asked): Promise<T> {
    const id = this.#next++;
    return new Promise((answer) => {
      this.#open.set(id, { hand, answer });
      hand.postMessage({ ...question, id });
    });
  }

  /** How a figure came; figures of the plan are asked of the planner. */
  trace(path: string): Promise<Traced | undefined> {
    const tried = [TRIED, ANOTHER].some((prefix) => path.startsWith(`${prefix}/`));
    const ofPlan = !tried && this.#state.plan !== undefined && !this.#plannerBusy && this.#planner;
    const hand = ofPlan || this.#amounts;
    return hand ? this.#askOf(hand, { type: "trace", path }) : Promise.resolve(undefined);
  }

  /** What plates and menu would cost otherwise; nothing is kept. */
  tryCost(trial: Trial): Promise<Tried> {
    const { question } = this.#state;
    if (!this.#amounts || !question) return new Promise(() => {});
    this.#giveBook(this.#amounts);
    return this.#askOf(this.#amounts, { type: "cost", question, trial });
  }

  /** One formula at another amount, alone; nothing is kept. */
  another(of: Omit<Extract<ToWorker, { type: "another" }>, "type" | "id">): Promise<Another> {
    if (!this.#amounts) return new Promise(() => {});
    this.#giveBook(this.#amounts);
    return this.#askOf(this.#amounts, { type: "another", ...of });
  }

  close(): void {
    clearTimeout(this.#settle);
    this.#amounts?.terminate();
    this.#dropPlanner();
    this.#amounts = undefined;
  }

  #askAmounts(question: Question): void {
    this.#amounts ??= this.#hand();
    const id = this.#next++;
    this.#asked = { id, question };
    this.#giveBook(this.#amounts);
    this.#amounts.postMessage({ type: "ask", id, part: "amounts", question });
  }

  #askPlan(question: Question): void {
    if (this.#plannerBusy) this.#dropPlanner();
    this.#planner ??= this.#hand();
    const id = this.#next++;
    this.#plan = { id, question };
    this.#plannerBusy = true;
    this.#giveBook(this.#planner);
    this.#planner.postMessage({ type: "ask", id, part: "plan", question });
    this.#set({ planning: "working", stage: "first", progress: 0 });
  }

  #giveBook(hand: Hand): void {
    if (!this.#book || this.#told.get(hand) === this.#book.version) return;
    this.#told.set(hand, this.#book.version);
    hand.postMessage({ type: "book", version: this.#book.version, book: this.#book.book });
  }

  #hand(): Hand {
    const hand = this.#make();
    hand.onmessage = (event) => this.#hear(event.data);
    return hand;
  }

  #dropPlanner(): void {
    this.#planner?.terminate();
    // What was asked of it will not be answered any more.
    for (const [id, { hand }] of this.#open) if (hand === this.#planner) this.#answer(id, undefined);
    this.#planner = undefined;
    this.#plannerBusy = false;
    this.#plan = undefined;
  }

  #answer(id: number, answer: unknown): void {
    this.#open.get(id)?.answer(answer as never);
    this.#open.delete(id);
  }

  #hear(said: FromWorker): void {
    if (said.type === "traced") this.#answer(said.id, said.traced);
    else if (said.type === "tried") this.#answer(said.id, said.tried);
    else if (said.type === "another") this.#answer(said.id, said.another);
    else if (said.type === "explained") this.#answer(said.id, said.explained);
    else if (said.type === "moved") this.#answer(said.id, said.moved);
    else this.#hearState(said);
  }

  #hearState(said: Extract<FromWorker, { type: "told" | "progress" | "remedies" | "refused" }>): void {
    if (said.id === this.#asked?.id) {
      this.#asked = undefined;
      const waiting = this.#waiting;
      this.#waiting = undefined;
      if (said.type === "told") this.#set({ amounts: said.told, problems: [], ms: said.ms });
      if (said.type === "refused") this.#set({ problems: said.problems });
      if (waiting) this.#askAmounts(waiting);
      return;
    }
    if (said.id !== this.#plan?.id) return;
    if (said.type === "progress") this.#set({ progress: said.of > 0 ? said.done / said.of : 0 });
    // Each remedy as it is found; the plan they are for stands already.
    const { plan } = this.#state;
    if (said.type === "remedies" && plan)
      this.#set({ plan: { ...plan, plan: { ...plan.plan, remedies: said.remedies } } });
    if (said.type === "told") {
      if (said.last) this.#plannerBusy = false;
      this.#set({
        plan: said.told,
        planning: said.last ? "idle" : "working",
        stage: said.next ?? "first",
        progress: said.last ? 1 : 0,
      });
    }
    if (said.type === "refused") {
      this.#plannerBusy = false;
      this.#set({ planning: "idle", problems: said.problems });
    }
  }

  #set(more: Partial<RunState>): void {
    this.#state = { ...this.#state, ...more };
    for (const listener of this.#listeners) listener();
  }
}
