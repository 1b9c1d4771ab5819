// The HiGHS solver (MIT, University of Edinburgh, as WebAssembly) behind the port of the cutting steps. Loading is
// asynchronous and done once; afterwards every call is synchronous.
import loadHighs, {
  type Highs,
  type IndexSelection,
  type InitOptions,
  type Model,
  type VariableType,
} from 'highs';
import type { OpenProgram, Solver } from '../../core/sheets/stock/solver';

/** `from` says where the WebAssembly lies where the loader cannot find it itself. */
export async function loadSolver(from: InitOptions = {}): Promise<Solver> {
  const highs = await loadHighs(from);
  return { open: (atLeast) => openProgram(highs, atLeast) };
}

function openProgram(highs: Highs, atLeast: readonly number[]): OpenProgram {
  const model = highs.createModel();
  model.options.set({ output_flag: false, random_seed: 0, presolve: 'off' });
  for (const least of atLeast) model.addRow(least, highs.infinity, { indices: [], values: [] });
  let columns = 0;
  const all = () => ({ kind: 'range', from: 0, to: columns - 1 }) as const;
  return {
    add: (given) => {
      for (const { cost, rows, values } of given)
        model.addCol(cost, 0, highs.infinity, { indices: [...rows], values: [...values] });
      columns += given.length;
    },
    changeRows: (least) =>
      void model.changeRowsBounds(
        { kind: 'range', from: 0, to: least.length - 1 },
        [...least],
        least.map(() => highs.infinity),
      ),
    changeMost: (most) =>
      void model.changeColsBounds(
        all(),
        most.map(() => 0),
        most.map((m) => (m === Infinity ? highs.infinity : m)),
      ),
    solve: () => {
      model.run();
      if (!isOptimal(highs, model)) return null;
      const { colValue, rowDual } = model.getSolution();
      return { value: model.getObjectiveValue(), amounts: [...colValue], prices: [...rowDual] };
    },
    solveWhole: (nodes, below) => solvedWhole(highs, model, all(), { nodes, below }),
    close: () => model.dispose(),
  };
}

const isOptimal = (highs: Highs, model: Model) =>
  model.getModelStatus() === highs.constants.modelStatus.optimal;

/** Whole for as long as one search takes, then as before. */
function solvedWhole(
  highs: Highs,
  model: Model,
  all: IndexSelection,
  { nodes, below }: { readonly nodes: number; readonly below: number },
): readonly number[] | null {
  const { variableType, solutionStatus } = highs.constants;
  const count = all.kind === 'range' ? all.to + 1 : 0;
  const every = (type: VariableType) =>
    model.changeColsIntegrality(
      all,
      Array.from({ length: count }, () => type),
    );
  every(variableType.integer);
  // Costs are whole, so within less than one of the bound is the best.
  model.options.set({ presolve: 'on', mip_max_nodes: nodes, mip_abs_gap: 1 - GAP, mip_rel_gap: 0 });
  model.run();
  const found = model.info.get('primal_solution_status') === solutionStatus.feasible;
  const value = found ? model.getObjectiveValue() : Infinity;
  const amounts = found ? [...model.getSolution().colValue].map(Math.round) : [];
  every(variableType.continuous);
  model.options.set({ presolve: 'off' });
  return value < below ? amounts : null;
}

const GAP = 0.01;
