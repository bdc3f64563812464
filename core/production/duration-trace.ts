import type { Step } from "../formula/schema.ts";
import type { Cell, Ledger, Rule } from "../ledger/ledger.ts";
import { sumOfProducts } from "../ledger/rules.ts";
import { nothing, stated } from "../ledger/stated.ts";
import type { NotedNode, Tracer } from "../ledger/tracer.ts";
import {
  commonWorkMinutes,
  dividedWorkMinutes,
  loadsNeeded,
  ofLoad,
  partOfBatch,
  passiveMinutes,
  plateUpMinutes,
  roomByMass,
  roomTaken,
  thawMinutes,
  wholeUp,
} from "./plan-rules.ts";
import { roomOfStep } from "./room.ts";
import type { Site } from "./site.ts";
import type { Task, Way } from "./tasks.ts";

type Input = Cell | string;

/** Writes down how durations and masses of tasks came, and gives the paths of the nodes (README, P22). */
export class DurationTrace {
  readonly #site: Site;
  readonly #tracer: Tracer;
  readonly #ledger: Ledger;
  readonly #noted = new Set<string>();
  readonly #needs: ReadonlyMap<string, Site["amounts"]["cells"]["preparations"][number]>;
  readonly #sheets = new Map<string, { readonly inG: Cell; readonly outG: Cell }>();

  constructor(site: Site, tracer: Tracer) {
    this.#site = site;
    this.#tracer = tracer;
    this.#ledger = site.amounts.ledger;
    this.#needs = new Map(site.amounts.cells.preparations.map((n) => [n.cells.preparation.id, n]));
    for (const [id, sizes] of site.amounts.cells.sheets)
      for (const size of ["first", "rest"] as const)
        for (const { step, inG, outG } of sizes[size].steps)
          this.#sheets.set(`${id}/${step}/${size}`, { inG, outG });
  }

  /** Path of the node of one way's minutes. */
  minutes(task: Task, way: Way): string {
    const path = `calc:/plan/minutes/${task.id}/${way.hands}`;
    this.#note(path, way.minutes, "min", ...this.#ofMinutes(task, way, path));
    return path;
  }

  #ofMinutes(task: Task, way: Way, path: string): [Rule | "given", Input[]] {
    const { ledger, book } = this.#reading();
    const prep = this.#site.docs.preparations.get(task.preparation);
    const step = prep?.steps.find((s) => s.id === task.step);
    const { from, pointer } = task.how;
    if (from === "plating") return [plateUpMinutes, [this.#handSeconds(task), this.#constant(way.hands)]];
    if (from === "thaw") return [thawMinutes, [this.thawed(task), this.#pieceG(pointer)]];
    if (!step || from === "fixed") return ["given", []];
    const read = (key: string, value: number | undefined) =>
      value === undefined ? nothing(ledger) : book(`${pointer}/${key}`, "min", value);
    if (from === "look") return [wholeUp, [read("attended/min", step.attended!.min)]];
    if (from === "target") {
      const filled = this.#site.fillTarget(prep!, step, task);
      if (!("minutes" in filled)) return ["given", []];
      const at = filled.path ?? `${path}/heated`;
      if (filled.path === undefined) this.#note(at, filled.minutes, "min", "given", []);
      return [wholeUp, [at]];
    }
    const grams = this.mass(task, step, "inG");
    if (from === "passive") {
      const passive = step.passive!;
      const [fixed, perKg]: Input[] =
        "min" in passive
          ? [read("passive/min", passive.min), nothing(ledger)]
          : [read("passive/fixedMin", passive.fixedMin), read("passive/perKgMin", passive.perKgMin)];
      return [passiveMinutes, [fixed!, perKg!, grams]];
    }
    const work = step.work!;
    const kitchen = this.#site.docs.pointer("kitchens", this.#site.kitchen.id);
    const around = book(`${kitchen}/around`, "ratio", this.#site.kitchen.around);
    const figures: Input[] = [
      read("work/fixedMin", work.fixedMin),
      read("work/perKgMin", work.perKgMin),
      grams,
      read("work/perPieceMin", work.perPieceMin),
      this.#pieces(task),
      read("work/perBatchMin", work.perBatchMin),
    ];
    return work.hands.split === "each"
      ? [commonWorkMinutes, [...figures, around]]
      : [dividedWorkMinutes, [...figures, this.#constant(Math.max(1, way.hands)), around]];
  }

  /** Mass of a task's step: the sheet's of its batch, or its share when the step goes in loads. */
  mass(task: Task, step: Step, which: "inG" | "outG"): Input {
    const cells = this.#sheets.get(`${task.preparation}/${step.id}/${this.#sizeOf(task)}`);
    if (!cells) return this.#constant(task[which]);
    return task.share === 1 ? cells[which] : this.#shareOf(task, step, cells[which], which, "g");
  }

  /** Pieces of a task's step. */
  #pieces(task: Task): Input {
    const need = this.#needOf(task);
    const cell = need?.batches[this.#sizeOf(task)].pieces;
    if (cell === undefined) return nothing(this.#ledger);
    const step = need!.cells.preparation.steps.find((s) => s.id === task.step)!;
    return task.share === 1 ? cell : this.#shareOf(task, step, cell, "pieces", "piece");
  }

  #shareOf(task: Task, step: Step, whole: Cell, what: string, unit: string): string {
    const path = `calc:/plan/loads/${task.preparation}/${step.id}/${task.batch}/${what}`;
    const loads = this.loads(task, step);
    this.#note(path, ofLoad(this.#ledger.value(whole), Math.round(1 / task.share)), unit, ofLoad, [
      whole,
      loads,
    ]);
    return path;
  }

  /** Path of the node of how many loads a step of a batch goes in. */
  loads(task: Task, step: Step): string {
    const path = `calc:/plan/loads/${task.preparation}/${step.id}/${task.batch}`;
    if (this.#noted.has(path)) return path;
    const loads = Math.round(1 / task.share);
    const prep = this.#site.docs.preparations.get(task.preparation)!;
    const whole = { inG: task.inG * loads, outG: task.outG * loads, pieces: task.pieces * loads };
    const { decided } = roomOfStep({ ...this.#site, doubts: [], lacks: [] }, prep, step, whole);
    if (!decided) {
      this.#note(path, loads, "load", "given", []);
      return path;
    }
    const { book } = this.#reading();
    const use = step.uses[decided.use]!;
    const unit = this.#site.kitchen.equipment[decided.equipment]!;
    const capacity = unit.capacity[decided.capacity]!;
    const at = `${this.#site.docs.pointer("kitchens", this.#site.kitchen.id)}/equipment/${decided.equipment}`;
    this.#note(path, loads, "load", loadsNeeded, [
      this.room(task, step, decided.use, `${path}/room`, true),
      book(`${at}/capacity/${decided.capacity}/value`, use.space.unit, capacity.value),
    ]);
    return path;
  }

  /** Path of the node of the room one use takes, of the whole batch or of the task's load. */
  room(task: Task, step: Step, index: number, path: string, wholeBatch = false): string {
    const { book } = this.#reading();
    const use = step.uses[index]!;
    const size = this.#sizeOf(task);
    const at = this.#site.docs.pointer("preparations", task.preparation);
    const s = this.#site.docs.preparations.get(task.preparation)!.steps.indexOf(step);
    const space = book(`${at}/steps/${s}/uses/${index}/space/value`, use.space.unit, use.space.value);
    const cells = this.#sheets.get(`${task.preparation}/${step.id}/${size}`);
    if (use.per === "kg" && cells) {
      const inputs = wholeBatch
        ? [space, cells.inG, cells.outG]
        : [space, this.mass(task, step, "inG"), this.mass(task, step, "outG")];
      const scale = wholeBatch ? 1 / task.share : 1;
      const kg = roomByMass(use.space.value, task.inG * scale, task.outG * scale);
      this.#note(path, kg, use.space.unit, roomByMass, inputs);
      return path;
    }
    const need = this.#needOf(task);
    const pieces = need?.batches[size].pieces;
    const per: Input =
      use.per === "batch"
        ? wholeBatch || task.share === 1
          ? this.#constant(1)
          : this.#perLoad(task, step)
        : wholeBatch && pieces !== undefined
          ? pieces
          : this.#pieces(task);
    const count =
      use.per === "batch" ? (wholeBatch ? 1 : task.share) : task.pieces / (wholeBatch ? task.share : 1);
    this.#note(path, roomTaken(use.space.value, count), use.space.unit, roomTaken, [space, per]);
    return path;
  }

  #perLoad(task: Task, step: Step): string {
    const path = `calc:/plan/loads/${task.preparation}/${step.id}/${task.batch}/part`;
    this.#note(path, ofLoad(1, Math.round(1 / task.share)), "batch", ofLoad, [
      this.#constant(1),
      this.loads(task, step),
    ]);
    return path;
  }

  #handSeconds(task: Task): string {
    const path = `calc:/plan/hand-seconds/${task.step}/${task.preparation}`;
    if (this.#noted.has(path)) return path;
    const { ledger, book } = this.#reading();
    const pairs: Input[] = [];
    let total = 0;
    for (const row of this.#site.amounts.cells.plates) {
      if (row.course !== task.step || row.row.dish.id !== task.preparation) continue;
      const each = `${path}/${row.row.form.name}`;
      const gestures = row.row.form.placed.flatMap(({ placement, at }) => [
        book(`${at}/seconds`, "s", placement.seconds),
        book(`${at}/hands`, "hands", placement.hands),
      ]);
      const seconds = sumOfProducts(...gestures.map((cell) => ledger.value(cell)));
      this.#note(each, seconds, "s", sumOfProducts, gestures);
      pairs.push(row.plates, each);
      total += ledger.value(row.plates) * seconds;
    }
    this.#note(path, total, "s", sumOfProducts, pairs);
    return path;
  }

  /** Grams that a thawing task thaws. */
  thawed(task: Task): Input {
    const [, prep, line] = task.id.split("/");
    const uses = this.#site.amounts.cells.ingredients.flatMap((each) => each.uses);
    const use = uses.find((u) => u.preparation === prep && u.line === line);
    const need = this.#needOf(task);
    if (!use || !need) return this.#constant(task.inG);
    const path = `calc:/plan/thawed/${prep}/${line}/${task.batch}`;
    const batch = need.batches[this.#sizeOf(task)].g;
    this.#note(path, task.inG, "g", partOfBatch, [use.g, batch, need.batches.madeG]);
    return path;
  }

  #pieceG(linePointer: string): Input {
    const index = Number(linePointer.split("/").at(-1));
    const prep = [...this.#site.amounts.preparations.keys()].find((id) =>
      linePointer.startsWith(`${this.#site.docs.pointer("preparations", id)}/`),
    );
    const item = prep === undefined ? undefined : this.#site.docs.preparations.get(prep)?.lines[index]?.item;
    if (!item || !("ingredient" in item)) return nothing(this.#ledger);
    const { pieces } = this.#site.docs.ingredients.get(item.ingredient)!;
    if (pieces.length === 0) return nothing(this.#ledger);
    const heaviest = pieces.reduce((best, p, i) => (p.g > pieces[best]!.g ? i : best), 0);
    const at = this.#site.docs.pointer("ingredients", item.ingredient);
    return this.#reading().book(`${at}/pieces/${heaviest}/g`, "g", pieces[heaviest]!.g);
  }

  #needOf(task: Task) {
    return this.#needs.get(task.preparation);
  }

  #sizeOf(task: Task): "first" | "rest" {
    const need = this.#needOf(task);
    return need && task.batch > this.#ledger.value(need.batches.firstCount) ? "rest" : "first";
  }

  #constant(value: number): Cell {
    return stated(this.#ledger, `const:/number/${value}`, "", value);
  }

  #reading() {
    const ledger = this.#ledger;
    const book = (pointer: string, unit: string, value: number) =>
      stated(ledger, `book:${pointer}`, unit, value);
    return { ledger, book };
  }

  #note(path: string, value: number, unit: string, rule: Rule | "given", inputs: readonly Input[]): void {
    if (this.#noted.has(path)) return;
    this.#noted.add(path);
    const node: NotedNode = { value, unit, rule: rule === "given" ? rule : rule.name, inputs };
    this.#tracer.note(path, node);
  }
}
