import loadHighs, { type Highs } from "highs";
import type {
  MixedInteger,
  MixedIntegerAnswer,
  MixedIntegerModel,
} from "../core/purchasing/mixed-integer.ts";

/**
 * Opens HiGHS, compiled to WebAssembly, as the mixed-integer solver of the orders. It runs on one thread and stops by a
 * count of steps, never by the clock, so that the same question has the same answer.
 * @param wasm address of its code where it does not lie beside its loader.
 */
export async function openSolver(wasm?: string): Promise<MixedInteger> {
  // Its types speak of the CommonJS build; what is imported is the module, whose default is the loader itself.
  const load = loadHighs as unknown as typeof loadHighs.default;
  const highs = await load(wasm === undefined ? {} : { locateFile: () => wasm });
  return (model) => solve(highs, model);
}

function solve(highs: Highs, { columns, rows, start, gap, steps }: MixedIntegerModel): MixedIntegerAnswer {
  const [starts, indices, values]: [number[], number[], number[]] = [[0], [], []];
  for (const { terms } of rows) {
    for (const [column, coefficient] of terms) {
      indices.push(column);
      values.push(coefficient);
    }
    starts.push(indices.length);
  }
  const bound = (value: number) => (Number.isFinite(value) ? value : Math.sign(value) * highs.infinity);
  const [numRows, numCols] = [rows.length, columns.length];
  const problem = {
    ...{ numRows, numCols },
    colCost: columns.map((column) => column.cost),
    colLower: columns.map((column) => bound(column.lower)),
    colUpper: columns.map((column) => bound(column.upper)),
    rowLower: rows.map((row) => bound(row.lower)),
    rowUpper: rows.map((row) => bound(row.upper)),
    integrality: columns.map((column) => (column.whole ? 1 : 0) as 0 | 1),
    matrix: { numRows, numCols, format: "csr" as const, starts, indices, values },
  };
  return highs.withModel(problem, (model): MixedIntegerAnswer => {
    model.options.set({
      output_flag: false,
      random_seed: 0,
      mip_rel_gap: 0,
      mip_abs_gap: gap,
      mip_heuristic_effort: 0,
      // Orders have none worth looking for: the same answers in a sixth less time.
      mip_detect_symmetry: false,
    });
    model.setSolution({ colValue: [...start] });
    const { mipInterrupt } = highs.constants.callbackType;
    model.run({
      [mipInterrupt]: (event) => {
        if (Number(event.data.mip_total_lp_iterations ?? 0) >= steps) event.interrupt();
      },
    });
    const status = model.getModelStatus();
    const { optimal, infeasible } = highs.constants.modelStatus;
    if (status === infeasible)
      return { values: undefined, objective: Infinity, bound: Infinity, status: "infeasible" };
    const found =
      Number(model.info.get("primal_solution_status")) === highs.constants.solutionStatus.feasible;
    return {
      values: found ? [...model.getSolution().colValue] : undefined,
      objective: found ? model.getObjectiveValue() : Infinity,
      bound: Number(model.info.get("mip_dual_bound")),
      status: status === optimal ? "optimal" : "stopped",
    };
  });
}
