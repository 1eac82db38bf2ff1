/**
 * From a measured task to requests and back to the quantity that was measured. Sources name few of the conditions that a
 * request needs. What is missing is supplied by the same rules for every task, never task by task:
 *
 * | source | request |
 * |---|---|
 * | `stove` | `three_stone` three-stone, `mud_u` mud-u, `rocket`, `wood_gas` wood-gas, `charcoal`, `lpg_home` lpg-home, `propane_camp` propane-camp, `alcohol_jet` alcohol-jet, `alcohol_pot` alcohol-pot, `ethanol_canister`, `gel`, `electric_coil` electric-plate |
 * | `net_power` | electric-plate of efficiency 1 without start-up: a stated heat into the pot |
 * | `fuel` | `gas` propane, `denatured` denatured-alcohol, `canister` canister-mix; the others by their own names |
 * | `waterL`, `t0`, `tEnd`, `altitude`, `holdMin`, `extraHeatKJ` | `waterL`, `startC`, `endC`, `elevationM` (0), `holdMinutes` (0), `extraHeatKJ` |
 * | `powerKW`, `startMJ` | `stove.powerKW`, `stove.startUpMJ` |
 * | `fWind` (share of heat left) | `windFuelFactor` 1 / fWind; without it the air is still |
 * | `noPot` | `vessel` null |
 * | `potKind: camp` | aluminium, 1 L up to 0.7 L of water, else 1.5 L |
 * | `potKind: ti` | titanium mug, 0.75 L |
 * | `potKind: kettle` | stainless steel, 1.5 L or 1.5 times the contents |
 * | no pot named | stainless steel, 1.5 times the contents, at least 1.5 L |
 * | no lid named | `loose`; `open` none; `openSimmer` none during the hold |
 * | `foodKg`, `foodCp` | `foods`, with the specific heat of the food's row unless one is given |
 * | air not named | 20 C |
 * | `soaked` | 12 h at 22 C, that water poured away; `salt` in the soak, `soda` in the cooking water |
 * | `kind: vacuum` | flask of the size of its fill; `insulated`: polystyrene of the thickness and conductivity given; `bare`: none |
 */
import type {
  CookTimeQuestion,
  CoolingQuestion,
  FuelUseQuestion,
} from '../../api/cooking/calculators/calculator-types.ts';
import { FUELS } from '../../api/physics/fuels-table.ts';
import type { FuelId, StoveTypeId } from '../../api/physics/table-ids.ts';
import type { Api } from './ask-api.ts';
import type { GivenConditions, MeasuredTask } from './measured-task.ts';
import type { Prediction } from './score.ts';

const STOVES: Readonly<Record<string, StoveTypeId>> = {
  three_stone: 'three-stone',
  mud_u: 'mud-u',
  rocket: 'rocket',
  wood_gas: 'wood-gas',
  charcoal: 'charcoal',
  lpg_home: 'lpg-home',
  propane_camp: 'propane-camp',
  alcohol_jet: 'alcohol-jet',
  alcohol_pot: 'alcohol-pot',
  ethanol_canister: 'ethanol-canister',
  gel: 'gel',
  electric_coil: 'electric-plate',
  net_power: 'electric-plate',
};

const FUEL_NAMES: Readonly<Record<string, FuelId>> = {
  gas: 'propane',
  propane: 'propane',
  butane: 'butane',
  canister: 'canister-mix',
  denatured: 'denatured-alcohol',
  ethanol: 'ethanol',
  methanol: 'methanol',
  isopropanol: 'isopropanol',
  gel: 'ethanol-gel',
  wood: 'wood',
  charcoal: 'charcoal',
  electricity: 'electricity',
};

const FOODS: Readonly<Record<string, string>> = {
  rice: 'white-rice',
  brown_rice: 'brown-rice',
  pasta: 'pasta',
  potato: 'potato-diced',
  potato_dice: 'potato-diced',
  barley: 'pearl-barley',
  bean: 'pinto-bean',
  lentil: 'lentil-brown',
  black_eyed: 'black-eyed-pea',
  black: 'black-bean',
  great_northern: 'great-northern-bean',
  pinto: 'pinto-bean',
  kidney: 'kidney-bean',
  navy: 'navy-bean',
  common_bean: 'pinto-bean',
  chickpea: 'chickpea',
  soybean: 'soybean',
  adzuki: 'adzuki-bean',
  mung: 'mung-bean',
  whole_pea: 'whole-pea',
  split_pea: 'split-pea',
  cowpea: 'black-eyed-pea',
};

/** The foods of the four tasks whose source names them in its conditions only. */
const FOOD_BY_WORD: readonly (readonly [RegExp, string])[] = [
  [/\brice\b/, 'rice'],
  [/spaghetti|pasta/, 'pasta'],
  [/potato/, 'potato'],
  [/barley/, 'barley'],
  [/bean/, 'bean'],
];

function named<T>(table: Readonly<Record<string, T>>, name: string | undefined, task: MeasuredTask): T {
  const found = name === undefined ? undefined : table[name];
  if (found === undefined) throw new Error(`${task.id}: no rule for ${name}`);
  return found;
}

function foodOf(task: MeasuredTask): string {
  const name = task.given.food ?? FOOD_BY_WORD.find(([word]) => word.test(task.conditions))?.[1];
  return named(FOODS, name, task);
}

function vesselOf(given: GivenConditions): FuelUseQuestion['vessel'] {
  if (given.noPot === true) return null;
  const contentsL = (given.waterL ?? 0) + 0.75 * (given.foodKg ?? 0);
  const lid = given.lid ?? (given.open === true ? 'none' : 'loose');
  const sizes = {
    camp: { material: 'aluminium', capacityL: contentsL <= 0.7 ? 1 : Math.max(1.5, 1.2 * contentsL) },
    ti: { material: 'titanium', capacityL: Math.max(0.75, 1.2 * contentsL) },
    finned: { material: 'aluminium', capacityL: contentsL <= 0.7 ? 1 : Math.max(1.5, 1.2 * contentsL) },
    kettle: { material: 'stainless', capacityL: Math.max(1.5, 1.5 * contentsL) },
    cooker: { material: 'stainless', capacityL: Math.max(3, 2 * contentsL) },
    none: { material: 'stainless', capacityL: Math.max(1.5, 1.5 * contentsL) },
  } as const;
  const size = sizes[given.potKind ?? 'none'];
  const vessel = {
    kind: given.potKind === 'cooker' ? 'pressure-cooker' : 'pot',
    capacityL: given.capacityL ?? size.capacityL,
    material: given.material ?? size.material,
    lid,
    ...(given.diameterMm === undefined ? {} : { diameterMm: given.diameterMm }),
    ...(given.massKg === undefined ? {} : { massKg: given.massKg }),
    ...(given.gaugeKPa === undefined ? {} : { gaugeKPa: given.gaugeKPa }),
    ...(given.potKind === 'finned' ? { finned: true } : {}),
  };
  return vessel as FuelUseQuestion['vessel'];
}

/** The request that asks for the fuel, heat or time of a task. */
export function fuelRequest(task: MeasuredTask): FuelUseQuestion {
  const { given } = task;
  const isNet = given.stove === 'net_power';
  return {
    stove: {
      typeId: named(STOVES, given.stove, task),
      ...(given.powerKW === undefined ? {} : { powerKW: given.powerKW }),
      ...(isNet ? { efficiency: 1, startUpMJ: 0 } : {}),
      ...(given.startMJ === undefined ? {} : { startUpMJ: given.startMJ }),
      ...(given.flame === undefined ? {} : { flame: given.flame }),
    },
    fuelId: named(FUEL_NAMES, given.fuel, task),
    ...(given.moisturePercent === undefined ? {} : { fuelMoisturePercent: given.moisturePercent }),
    vessel: vesselOf(given),
    waterL: given.waterL ?? 0,
    ...(given.foodKg === undefined
      ? {}
      : {
          foods: [
            {
              foodId: foodOf(task),
              massG: given.foodKg * 1000,
              ...(given.foodCp === undefined ? {} : { specificHeatKJPerKgK: given.foodCp }),
            },
          ],
        }),
    startC: given.t0 ?? 20,
    ...(given.tEnd === undefined ? {} : { endC: given.tEnd }),
    airC: given.tAir ?? 20,
    elevationM: given.altitude ?? 0,
    wind: 'still',
    ...(given.fWind === undefined ? {} : { windFuelFactor: 1 / given.fWind }),
    holdMinutes: given.holdMin ?? 0,
    ...(given.openSimmer === true ? { lidDuringHold: 'none' as const } : {}),
    ...(given.extraHeatKJ === undefined ? {} : { extraHeatKJ: given.extraHeatKJ }),
  };
}

/** Every quantity times a factor. */
const times = (p: Prediction, factor: number): Prediction => ({
  p50: p.p50 * factor,
  ...(p.p10 === undefined ? {} : { p10: p.p10 * factor }),
  ...(p.p90 === undefined ? {} : { p90: p.p90 * factor }),
});

async function fuelOf(task: MeasuredTask, api: Api): Promise<Prediction> {
  const q = fuelRequest(task);
  const answer = await api.fuelUse(q);
  const unit = task.measured.unit;
  if (task.given.stove === 'net_power') return times(answer.heatToPotMJ, 1000);
  if (unit === 'MJ') return answer.fuelMJ;
  if (unit === 'kWh') return times(answer.fuelMJ, 1 / 3.6);
  if (unit === 'Wh/g') return times(answer.fuelMJ, 1000 / 3.6 / ((task.given.foodKg as number) * 1000));
  if (answer.fuelKg === null) throw new Error(`${task.id}: ${unit} of electricity`);
  if (unit === 'g') return times(answer.fuelKg, 1000);
  if (unit === 'mL') return times(answer.fuelKg, 1000 / (FUELS[q.fuelId].densityKgPerL as number));
  throw new Error(`${task.id}: no rule for ${unit}`);
}

/**
 * Open over lidded minutes of one pot. What both have in common cancels; what is left of each band is the part of the
 * causes that only the loss of the pot has, by the shares that the answers list.
 */
async function openOverLidded(task: MeasuredTask, api: Api): Promise<Prediction> {
  const ask = (open: boolean) => api.fuelUse(fuelRequest({ ...task, given: { ...task.given, open } }));
  const [open, lidded] = await Promise.all([ask(true), ask(false)]);
  const ratio = open.minutesToBoil.p50 / lidded.minutesToBoil.p50;
  const part = (answer: typeof open, cause: string, end: 'p10' | 'p90'): number => {
    const fuel = answer.fuelMJ;
    const share = answer.spread.find((entry) => entry.cause === cause)?.share ?? 0;
    return Math.sqrt(share) * Math.abs(Math.log(fuel[end] / fuel.p50));
  };
  const up = Math.hypot(part(open, 'open pot', 'p90'), part(lidded, 'lid', 'p10'));
  const down = Math.hypot(part(open, 'open pot', 'p10'), part(lidded, 'lid', 'p90'));
  return { p50: ratio, p10: ratio * Math.exp(-down), p90: ratio * Math.exp(up) };
}

/** The question for a cook time. */
export function cookRequest(task: MeasuredTask): CookTimeQuestion {
  const { given } = task;
  const foodId = foodOf(task);
  const soaks = given.soaked === true && given.food !== 'potato_dice';
  return {
    foodId,
    ...(given.tCook === undefined ? { elevationM: given.altitude ?? 0 } : { temperatureC: given.tCook }),
    ...(given.gaugeKPa === undefined ? {} : { gaugeKPa: given.gaugeKPa }),
    ...(soaks
      ? { soak: { hours: 12, waterC: 22, discardWater: true, ...(given.salt === true ? { additive: 'salt' } : {}) } }
      : {}),
    ...(given.soda === true ? { cookingAdditive: 'bicarbonate' } : {}),
  } as CookTimeQuestion;
}

/** Hours in warmer water over hours in colder for the same uptake, by asking until the uptakes agree. */
async function soakTimeRatio(task: MeasuredTask, api: Api): Promise<Prediction> {
  const { temp1, temp2 } = task.given;
  const foodId = foodOf(task);
  const HOURS = 10;
  const goal = await api.soaking({ foodId, hours: HOURS, waterC: temp1 as number });
  const hoursTo = async (uptake: number, end: 'p10' | 'p50' | 'p90'): Promise<number> => {
    let low = 0.1;
    let high = 72;
    for (let i = 0; i < 25; i += 1) {
      const middle = Math.sqrt(low * high);
      const answer = await api.soaking({ foodId, hours: middle, waterC: temp2 as number });
      if (answer.uptakeGPerG[end] < uptake) low = middle;
      else high = middle;
    }
    return Math.sqrt(low * high);
  };
  const { p10, p50, p90 } = goal.uptakeGPerG;
  // What the lot takes up in the end is common to both soaks: each end is held against its own.
  const ends = await Promise.all([hoursTo(p10, 'p10'), hoursTo(p50, 'p50'), hoursTo(p90, 'p90')]);
  const [slow, middle, fast] = ends.map((hours) => hours / HOURS) as [number, number, number];
  return { p50: middle, p10: Math.min(slow, middle, fast), p90: Math.max(slow, middle, fast) };
}

/** The question for a box or a flask. */
export function coolingRequest(task: MeasuredTask): CoolingQuestion {
  const { given } = task;
  const fillL = given.waterL as number;
  const capacityL = given.capacityL ?? fillL;
  const flask = given.kind === 'vacuum';
  return {
    vessel: flask
      ? { kind: 'flask', capacityL }
      : {
          kind: 'pot',
          capacityL,
          ...(given.material === undefined ? {} : { material: given.material }),
          ...(given.lid === undefined ? {} : { lid: given.lid }),
        },
    fillL,
    startC: given.t0 as number,
    airC: given.tAir as number,
    hours: given.hours as number,
    ...(given.kind === 'insulated'
      ? {
          insulation: {
            materialId: given.materialId ?? 'eps',
            thicknessMm: given.mm as number,
            ...(given.k === undefined ? {} : { conductivityWPerMK: given.k }),
          },
        }
      : {}),
    ...(given.reading === undefined ? {} : { reading: { ...given.reading, startC: given.t0 as number } }),
  } as CoolingQuestion;
}

async function dropOf(task: MeasuredTask, api: Api): Promise<Prediction> {
  const q = coolingRequest(task);
  const last = (await api.cooling(q)).temperatureC.at(-1);
  if (last === undefined) throw new Error(`${task.id}: no row`);
  return { p50: q.startC - last.p50, p10: q.startC - last.p90, p90: q.startC - last.p10 };
}

/** What the program, asked as a client would, says of the measured quantity. */
export async function predict(task: MeasuredTask, api: Api): Promise<Prediction> {
  const { given } = task;
  switch (task.class) {
    case 'boil fuel':
    case 'cook fuel':
      return fuelOf(task, api);
    case 'boil time':
      return (await api.fuelUse(fuelRequest(task))).minutesToBoil;
    case 'boil-off':
      return (await api.fuelUse(fuelRequest(task))).boiledOffL;
    case 'other':
      return openOverLidded(task, api);
    case 'cook time':
      return (await api.cookTime(cookRequest(task))).minutes;
    case 'soak':
      return given.temp1 === undefined
        ? (await api.soaking({ foodId: foodOf(task), hours: given.hours as number, waterC: given.temp as number }))
            .uptakeGPerG
        : soakTimeRatio(task, api);
    case 'box':
      return dropOf(task, api);
    default:
      throw new Error(`${task.id}: no rule for the class ${task.class}`);
  }
}
