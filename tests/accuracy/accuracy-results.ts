/** All points and tasks asked and scored: what the table, the command and the gate look at. */
import { openApi } from './ask-api.ts';
import { type MeasuredTask, readTasks } from './measured-task.ts';
import { BOILING_POINTS } from './points-boiling-point.ts';
import { COOK_TIME_POINTS } from './points-cook-time.ts';
import { HEAT_POINTS } from './points-heat.ts';
import { POINTS_NOT_SCORED } from './points-not-scored.ts';
import { UPTAKE_POINTS } from './points-uptake.ts';
import { MODELS, type Model, middleOf, type PublishedPoint } from './published-point.ts';
import { type Scored, type Summary, score, summarise } from './score.ts';
import { predict } from './task-requests.ts';

export const POINTS: readonly PublishedPoint[] = [
  ...BOILING_POINTS,
  ...UPTAKE_POINTS,
  ...COOK_TIME_POINTS,
  ...HEAT_POINTS,
];

/** The tasks that the program is held to. */
export const TASKS: readonly MeasuredTask[] = readTasks('measured-tasks.json');
/** Lots that were looked up later, each when what the one before had shown was mended. */
export const LATER_LOTS: readonly { name: string; tasks: readonly MeasuredTask[] }[] = [
  { name: 'later', tasks: readTasks('later-tasks.json') },
  { name: 'after that', tasks: readTasks('blind-tasks.json') },
  { name: 'last', tasks: readTasks('unseen-tasks.json') },
  { name: 'in a fourth round', tasks: readTasks('fourth-tasks.json') },
];
export const ALL_TASKS: readonly MeasuredTask[] = [...TASKS, ...LATER_LOTS.flatMap((lot) => lot.tasks)];

/** A class of tasks is also a set of points of its model. */
const MODEL_OF_CLASS: Readonly<Record<string, Model>> = {
  'boil fuel': 'fuel of a whole task',
  'cook fuel': 'fuel of a whole task',
  'boil time': 'heat-up',
  other: 'heat-up',
  soak: 'uptake',
  box: 'cooling',
  'boil-off': 'evaporation',
};

function modelOf({ id, class: name, given }: MeasuredTask): Model {
  if (name === 'cook time') {
    if ((given.gaugeKPa ?? 0) > 0 || (given.tCook ?? 0) > 101) return 'cook time under pressure';
    return (given.altitude ?? 0) > 100 || (given.tCook ?? 100) < 99 ? 'cook time at altitude' : 'cook time at the boil';
  }
  const model = MODEL_OF_CLASS[name];
  if (model === undefined) throw new Error(`${id}: the class ${name} belongs to no model`);
  return model;
}

export interface ModelScore {
  model: Model;
  unit: string;
  n: number;
  meanError: number;
  largestError: number;
  largestAt: string;
  inside: number;
  banded: number;
}

export interface ScoredTask {
  task: MeasuredTask;
  scored: Scored;
}

export interface ScoredLot {
  name: string;
  rows: readonly ScoredTask[];
  summary: Summary;
}

export interface AccuracyResults {
  models: readonly ModelScore[];
  tasks: readonly ScoredTask[];
  summary: Summary;
  lots: readonly ScoredLot[];
  /** Ids of the points and tasks that were scored. */
  scoredIds: readonly string[];
  /** Ids that are listed with a reason instead. */
  listedIds: readonly string[];
}

/** Asks everything. Takes about a second. */
export async function accuracyResults(): Promise<AccuracyResults> {
  const api = await openApi();
  const errors: { model: Model; id: string; error: number; inside: boolean | null }[] = [];
  for (const point of POINTS) {
    const measured = middleOf(point.printed, point.unit);
    const scored = score(point.id, measured, await point.predict(api));
    const error = MODELS[point.model] === 'K' ? scored.prediction.p50 - measured : 100 * scored.error;
    errors.push({ model: point.model, id: point.id, error, inside: scored.inside });
  }
  const scoreTasks = async (tasks: readonly MeasuredTask[]): Promise<ScoredTask[]> => {
    const rows: ScoredTask[] = [];
    for (const task of tasks) {
      if (task.notScored !== undefined) continue;
      const scored = score(task.id, task.measured.value, await predict(task, api));
      rows.push({ task, scored });
      const model = modelOf(task);
      const error = MODELS[model] === 'K' ? scored.prediction.p50 - scored.measured : 100 * scored.error;
      errors.push({ model, id: task.id, error, inside: scored.inside });
    }
    return rows;
  };
  const tasks = await scoreTasks(TASKS);
  const lots: ScoredLot[] = [];
  for (const { name, tasks: lot } of LATER_LOTS) {
    const rows = await scoreTasks(lot);
    lots.push({ name, rows, summary: summarise(rows.map((row) => row.scored)) });
  }
  const models = (Object.keys(MODELS) as Model[]).map((model): ModelScore => {
    const rows = errors.filter((row) => row.model === model);
    const sizes = rows.map((row) => Math.abs(row.error));
    const largestError = Math.max(...sizes);
    const banded = rows.filter((row) => row.inside !== null);
    return {
      model,
      unit: MODELS[model],
      n: rows.length,
      meanError: sizes.reduce((sum, size) => sum + size, 0) / rows.length,
      largestError,
      largestAt: rows[sizes.indexOf(largestError)]?.id ?? '',
      inside: banded.filter((row) => row.inside === true).length,
      banded: banded.length,
    };
  });
  return {
    models,
    tasks,
    summary: summarise(tasks.map((row) => row.scored)),
    lots,
    scoredIds: [
      ...POINTS.map((point) => point.id),
      ...tasks.map((row) => row.task.id),
      ...lots.flatMap((lot) => lot.rows.map((row) => row.task.id)),
    ],
    listedIds: [
      ...POINTS_NOT_SCORED.map((point) => point.id),
      ...ALL_TASKS.filter((task) => task.notScored !== undefined).map((task) => task.id),
    ],
  };
}
