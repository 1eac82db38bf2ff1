/**
 * Households from a seed, for measuring the planner on more than its demonstration. Invented, but of the trade: people,
 * heights, cold, stoves, pots and kits as they are met. A third has no box, a third no pressure cooker, half of the kits
 * have no pulses, a sixth is freeze-dried. Each box was tried once, as the rehearsal sheet asks, and kept as the tables say.
 */
import { answerCooling } from '../../api/cooking/calculators/answer-cooling.ts';
import type { Ingredient, Kit, MealSlot } from '../../api/cooking/dishes/kit.ts';
import type { HouseholdDocument, Stove, Vessel } from '../../api/cooking/household/kitchen.ts';
import type { CoolingMeasurement } from '../../api/cooking/measurements/measurements.ts';
import type { PlanRequest, StockEntry } from '../../api/planning/plan-types.ts';
import { seeded } from '../seeded.ts';

export interface GeneratedHousehold {
  household: HouseholdDocument;
  kits: Kit[];
  stock: StockEntry[];
  /** One reading of each box. */
  measurements: CoolingMeasurement[];
  request: PlanRequest;
}

export interface GeneratorSettings {
  days: number;
  kits: number;
  /** 3 to 6 where absent. */
  people?: number;
  /** Servings in store over servings eaten, at the least: whole sets of each kit, and of some one more; 1.4 where absent. */
  stores?: number;
}

const grams = (masses: Record<string, number>): Ingredient[] =>
  Object.entries(masses).map(([foodId, massG]) => ({ foodId, massG }));

type Recipe = Pick<Kit, 'style' | 'suits'> & { name: string; pulses: boolean; parts: Record<string, number>[] };

const MAIN: MealSlot[] = ['midday', 'evening'];
/** With oil for energy: dry goods alone do not feed people in the cold. */
const SPICES = { 'onion-flakes': 25, 'bouillon-powder': 20, oil: 130 };

/** Dishes for five servings; the generator takes them with and without pulses in turn. */
const WITH_PULSES: Recipe[] = [
  {
    name: 'Lentils and rice',
    pulses: true,
    style: 'stew',
    suits: MAIN,
    parts: [{ 'lentil-brown': 250 }, { 'white-rice': 300 }, SPICES],
  },
  {
    name: 'Chickpea stew',
    pulses: true,
    style: 'stew',
    suits: MAIN,
    parts: [{ chickpea: 350 }, { 'potato-dice-dehydrated': 180 }, SPICES],
  },
  {
    name: 'Beans and barley',
    pulses: true,
    style: 'stew',
    suits: MAIN,
    parts: [{ 'pinto-bean': 300 }, { 'pearl-barley': 260 }, SPICES],
  },
  {
    name: 'Split pea soup',
    pulses: true,
    style: 'soup',
    suits: MAIN,
    parts: [{ 'split-pea': 380 }, { 'carrot-dehydrated': 60 }, SPICES],
  },
  {
    name: 'Red lentil soup',
    pulses: true,
    style: 'soup',
    suits: MAIN,
    parts: [{ 'lentil-red': 360 }, { bulgur: 160 }, SPICES],
  },
  {
    name: 'Black beans and corn',
    pulses: true,
    style: 'stew',
    suits: MAIN,
    parts: [{ 'black-bean': 320 }, { 'fd-sweetcorn': 70 }, SPICES],
  },
  {
    name: 'Mung beans and rice',
    pulses: true,
    style: 'porridge',
    suits: ['breakfast', 'midday', 'evening'],
    parts: [{ 'mung-bean': 220 }, { 'white-rice': 280 }, SPICES],
  },
  {
    name: 'White beans and millet',
    pulses: true,
    style: 'stew',
    suits: MAIN,
    parts: [{ 'navy-bean': 300 }, { millet: 250 }, SPICES],
  },
];
const PORRIDGES: Recipe[] = [
  {
    name: 'Oat porridge',
    pulses: false,
    style: 'porridge',
    suits: ['breakfast'],
    parts: [{ 'rolled-oats': 350 }, { 'whole-milk-powder': 180, raisins: 80, walnuts: 100 }],
  },
  {
    name: 'Corn porridge',
    pulses: false,
    style: 'porridge',
    suits: ['breakfast'],
    parts: [{ cornmeal: 350 }, { 'whole-milk-powder': 180, raisins: 70, almonds: 100 }],
  },
  {
    name: 'Wheat with apricots',
    pulses: false,
    style: 'porridge',
    suits: ['breakfast', 'midday'],
    parts: [{ bulgur: 380 }, { 'apricot-dried': 120, 'whole-milk-powder': 120, walnuts: 80 }],
  },
];
const COLD: Recipe[] = [
  {
    name: 'Couscous bowl',
    pulses: false,
    style: 'no-cook',
    suits: MAIN,
    parts: [{ couscous: 420 }, { 'fd-bell-pepper': 30, raisins: 80, walnuts: 120, oil: 60 }],
  },
  {
    name: 'Crackers and nuts',
    pulses: false,
    style: 'no-cook',
    suits: ['breakfast', 'midday'],
    parts: [{ crackers: 400, walnuts: 120, raisins: 100 }],
  },
];
/** Goods that hot water makes ready, and cold water in more time. */
const FREEZE_DRIED: Recipe[] = [
  {
    name: 'Mashed potato with beef',
    pulses: false,
    style: 'porridge',
    suits: MAIN,
    parts: [{ 'potato-flakes': 320 }, { 'fd-ground-beef': 140, 'fd-peas': 50, ...SPICES }],
  },
  {
    name: 'Quick rice with chicken',
    pulses: false,
    style: 'rice',
    suits: MAIN,
    parts: [{ 'instant-rice': 420 }, { 'fd-chicken': 110, 'fd-sweetcorn': 60, ...SPICES }],
  },
  {
    name: 'Couscous with chicken',
    pulses: false,
    style: 'rice',
    suits: MAIN,
    parts: [{ couscous: 420 }, { 'fd-chicken': 110, 'fd-carrot': 40, ...SPICES }],
  },
];
const WITHOUT_PULSES: Recipe[] = [
  {
    name: 'Noodles with chicken',
    pulses: false,
    style: 'pasta',
    suits: MAIN,
    parts: [{ pasta: 430 }, { 'fd-chicken': 110, ...SPICES }],
  },
  {
    name: 'Rice and vegetables',
    pulses: false,
    style: 'rice',
    suits: MAIN,
    parts: [{ 'white-rice': 430 }, { 'fd-peas': 60, 'fd-carrot': 40, ...SPICES }],
  },
  {
    name: 'Potato and beef stew',
    pulses: false,
    style: 'stew',
    suits: MAIN,
    parts: [{ 'potato-dice-dehydrated': 320 }, { 'fd-ground-beef': 140, ...SPICES }],
  },
  {
    name: 'Barley soup',
    pulses: false,
    style: 'soup',
    suits: MAIN,
    parts: [{ 'pearl-barley': 330 }, { 'carrot-dehydrated': 50, ...SPICES }],
  },
  {
    name: 'Brown rice and mushrooms',
    pulses: false,
    style: 'rice',
    suits: MAIN,
    parts: [{ 'brown-rice': 420 }, { 'mushroom-dried': 40, ...SPICES }],
  },
];

/** Kits without pulses, by turns: a third porridges, a third freeze-dried, and cold ones and ones that boil. */
const OTHERS = [PORRIDGES, FREEZE_DRIED, COLD, PORRIDGES, FREEZE_DRIED, WITHOUT_PULSES];

/** As they are built: foam boards, or a hand's breadth and more of wool or straw. */
const BOXES = [
  { materialId: 'eps', thicknessMm: 50 },
  { materialId: 'eps', thicknessMm: 100 },
  { materialId: 'wool', thicknessMm: 100 },
  { materialId: 'straw', thicknessMm: 150 },
] as const;

/** The mix, by turns: a third without a box, another third without a pressure cooker, an eighth without lids. */
export function mixOf(seed: number): { box: boolean; pressureCooker: boolean; lids: boolean } {
  return { box: seed % 3 !== 0, pressureCooker: seed % 3 !== 1, lids: seed % 8 !== 5 };
}

/**
 * One household with fuel and water in plenty; `withFuel` makes it tight.
 * @param seed whole number >= 0; the same seed gives the same household
 */
export function generatedHousehold(seed: number, settings: GeneratorSettings): GeneratedHousehold {
  const random = seeded(seed + 1);
  const pick = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  const one = <Thing>(things: readonly Thing[]): Thing => things[Math.floor(random() * things.length)] as Thing;
  const mix = mixOf(seed);
  const people = settings.people ?? pick(3, 6);
  const large = people > 10;
  const lid = mix.lids ? ('snug' as const) : ('none' as const);
  const id = `household-${seed}`;
  const indoorC = pick(9, 18);
  const kits = Array.from({ length: settings.kits }, (_, index): Kit => {
    const half = Math.floor(index / 2);
    const others = OTHERS[half % OTHERS.length] as Recipe[];
    const recipes = index % 2 === 1 ? WITH_PULSES : others;
    const recipe = recipes[(Math.floor(half / 3) + half + seed) % recipes.length] as Recipe;
    const scale = 1.1 + random() * 0.25;
    return {
      format: 1,
      id: `kit-${index}`,
      name: `${recipe.name} ${index}`,
      servings: large ? 10 : 5,
      divisible: true,
      style: recipe.style,
      suits: recipe.suits,
      parts: recipe.parts.map((masses, part) => ({
        id: `part-${part}`,
        name: Object.keys(masses).join(', '),
        soakable: part === 0 && recipe.pulses,
        ingredients: grams(
          Object.fromEntries(
            Object.entries(masses).map(([food, mass]) => [food, Math.round(mass * scale * (large ? 2 : 1))]),
          ),
        ),
      })),
    };
  });
  // More servings than are eaten at each kind of meal, spread evenly over the kits of that kind. A kit that suits breakfast
  // and other meals counts for breakfast, so that every meal has enough of its own.
  const setsFor = (kit: Kit) => {
    const isMorning = (one: Kit) => one.suits.includes('breakfast');
    const meals = isMorning(kit) ? 1 : 2;
    const alike = kits.filter((other) => isMorning(other) === isMorning(kit)).length;
    return Math.max(1, Math.ceil((settings.days * meals * people * (settings.stores ?? 1.4)) / alike / kit.servings));
  };
  const stock = kits.flatMap((kit) => {
    const packedOn = `${2026 - pick(1, 6)}-09-15`;
    return kit.parts.map(
      (part): StockEntry => ({
        id: `${kit.id}-${part.id}`,
        kitId: kit.id,
        partId: part.id,
        placeId: 'home',
        packedOn,
        quantity: setsFor(kit) + pick(0, 1),
        reason: 'packed',
        at: `${packedOn}T10:00`,
      }),
    );
  });
  const gas: Stove = large
    ? { id: 'ring', typeId: 'lpg-home', fuelIds: ['propane'], site: 'outdoors', powerKW: pick(7, 15), largestPotL: 40 }
    : { id: 'burner', typeId: 'propane-camp', fuelIds: ['propane'], site: 'outdoors' };
  const wood: Stove = {
    id: 'fire',
    typeId: one(['rocket', 'three-stone', 'wood-gas']),
    fuelIds: ['wood'],
    site: 'outdoors',
  };
  const third: Stove | null =
    large || random() < 0.4
      ? null
      : { id: 'spirit', typeId: 'alcohol-pot', fuelIds: ['denatured-alcohol'], site: 'outdoors' };
  const vessels: Vessel[] = [
    {
      id: 'big-pot',
      kind: 'pot',
      capacityL: large ? 40 : pick(6, 8),
      material: one(['aluminium', 'stainless', 'enamel']),
      lid,
    },
    { id: 'pot', kind: 'pot', capacityL: large ? 20 : 4, material: one(['aluminium', 'stainless']), lid },
    { id: 'bowl', kind: 'soak-bowl', capacityL: large ? 30 : 4 },
    { id: 'bowl-2', kind: 'soak-bowl', capacityL: large ? 20 : 3 },
    ...(mix.pressureCooker && !large
      ? [{ id: 'cooker', kind: 'pressure-cooker' as const, capacityL: pick(5, 8), gaugeKPa: one([60, 80, 103]) }]
      : []),
  ];
  const box = mix.box ? one(BOXES) : null;
  return {
    kits,
    stock,
    measurements:
      box === null ? [] : [readingOf(id, box, vessels.find((vessel) => vessel.id === 'pot') as Vessel, indoorC)],
    request: { householdId: id, startsAt: '2026-12-05T14:00', days: settings.days, timeLimitS: 20 },
    household: {
      format: 1,
      id,
      name: id,
      places: [
        {
          id: 'home',
          name: 'Home',
          timeZone: 'Europe/Zurich',
          elevationM: pick(0, 28) * 100,
          indoorC,
          indoorFallsToC: Math.max(3, indoorC - pick(2, 8)),
          outdoorC: pick(-8, 8),
          wind: one(['screened', 'screened', 'light', 'still']),
        },
      ],
      people: Array.from({ length: people }, (_, index) => ({
        label: `P${index}`,
        ageGroup: index < 2 ? 'adult' : one(['adult', 'teen', 'child', 'older-adult'] as const),
      })),
      animals: [],
      meals: [
        { id: 'breakfast', slot: 'breakfast', time: '07:45', hot: one(['wanted', 'optional']) },
        { id: 'midday', slot: 'midday', time: '12:30', hot: 'optional' },
        { id: 'evening', slot: 'evening', time: '18:00', hot: 'wanted' },
      ],
      // Where nothing keeps hot, a hot dish needs a fire of its own.
      lightingsPerDay: large ? 4 : mix.box ? pick(2, 3) : 3,
      outdoorMinutesPerDay: large ? 400 : 240,
      thermometer: random() < 0.5,
      water: {
        lots: [
          { id: 'cans', litres: Math.ceil(people * settings.days * 16), quality: 'safe', temperatureC: pick(4, 12) },
        ],
        hygieneLPerPersonDay: 2,
        washingUpLPerPersonMeal: large ? 1.2 : 0.5,
        hotWaterPerDay: { litres: large ? 10 : pick(0, 3), temperatureC: 80 },
      },
      fuels: [
        { fuelId: 'propane', containers: [{ id: 'gas', leftKg: 0.06 * people * settings.days }] },
        {
          fuelId: 'wood',
          moisturePercent: pick(12, 24),
          containers: [{ id: 'stack', leftKg: 0.6 * people * settings.days }],
        },
        ...(third === null
          ? []
          : [
              {
                fuelId: 'denatured-alcohol' as const,
                containers: [{ id: 'can', leftKg: 0.03 * people * settings.days }],
              },
            ]),
      ],
      stoves: [gas, wood, ...(third === null ? [] : [third])],
      vessels,
      boxes: box === null ? [] : [{ id: 'box', fits: ['big-pot', 'pot'], ...box }],
    },
  };
}

/** Hot water in the smaller pot in its box for two hours on a calm day: as warm as is typical of such a box. */
function readingOf(householdId: string, box: (typeof BOXES)[number], pot: Vessel, airC: number): CoolingMeasurement {
  const asked = { fillL: 0.6 * pot.capacityL, startC: 90, airC, hours: 2 };
  const typical = answerCooling({
    ...asked,
    vessel: { kind: 'pot', capacityL: pot.capacityL, material: pot.material, lid: 'snug' },
    insulation: box,
  }).temperatureC.at(-1);
  return {
    ...asked,
    id: `${householdId}-box`,
    householdId,
    kind: 'cooling-reading',
    at: '2026-11-01T10:00',
    vesselId: pot.id,
    boxId: 'box',
    temperatureC: Math.round(typical?.p50 ?? 0),
  };
}

/** The same household with other amounts of fuel: `leftKg` by fuel id. */
export function withFuel(generated: GeneratedHousehold, leftKg: Readonly<Record<string, number>>): GeneratedHousehold {
  return {
    ...generated,
    household: {
      ...generated.household,
      fuels: (generated.household.fuels ?? []).map((fuel) => ({
        ...fuel,
        containers: (fuel.containers ?? []).map((container) => ({
          ...container,
          leftKg: leftKg[fuel.fuelId] ?? container.leftKg ?? 0,
        })),
      })),
    },
  };
}
