/** Every figure on foods, soaks, people, water, safety and stores: unit and a range that nature or trade allows. */
import { describe, expect, it } from 'vitest';
import * as cooling from '../../api/cooking/calculators/answer-cooling.ts';
import * as soakingAnswer from '../../api/cooking/calculators/answer-soaking.ts';
import { FOODS } from '../../api/cooking/foods/foods-table.ts';
import * as drinkingWater from '../../api/cooking/household/drinking-water.ts';
import * as fuelOnHand from '../../api/cooking/household/fuel-on-hand.ts';
import * as people from '../../api/cooking/household/people.ts';
import * as waterTreatment from '../../api/cooking/household/water-treatment.ts';
import * as absorbers from '../../api/cooking/keeping/oxygen-absorbers.ts';
import * as safeUntil from '../../api/cooking/keeping/safe-until.ts';
import * as shelfLife from '../../api/cooking/keeping/shelf-life.ts';
import { SOAK_LIMITS, soakLimitRow } from '../../api/cooking/keeping/soak-limits.ts';
import * as lectin from '../../api/cooking/kinetics/lectin-rule.ts';
import * as rehydration from '../../api/cooking/kinetics/rehydration.ts';
import * as softening from '../../api/cooking/kinetics/softening-kinetics.ts';
import * as yields from '../../api/cooking/kinetics/yield.ts';
import { WORKS_CITED } from '../../api/references/works-cited.ts';
import { expectParameterFits, type FieldRule, field, parametersIn } from '../physics/table-rules.ts';

const FOOD_FIELDS: Record<string, FieldRule> = {
  'kinetics.softeningMinutes': field('min', 0.5, 400, 'quick oats to dried hominy'),
  'kinetics.hydrationMinutes': field('min', 1, 120, 'water enters the largest pulse within two hours at the boil'),
  'kinetics.zBelowC': field('K', 10, 60, '10 K would be 290 kJ/mol, 60 K the diffusion of water'),
  'kinetics.zAboveC': field('K', 10, 90, 'as below; rice above its break is 75'),
  standMinutesCold: field('min', 0, 180, 'grain that was steamed when made, in cold water'),
  'kinetics.standMinutesCold': field('min', 0, 180, 'food that is eaten without boiling stands hours at most'),
  'kinetics.standMinutesHot': field('min', 0, 60, 'in hot water less'),
  'soak.k1Hours': field('h/(kg/kg)', 0.05, 20, 'its inverse is the first rate: 5 % to 20 kg/kg an hour'),
  'soak.k2': field('1/(kg/kg)', 0.3, 5, 'its inverse is the limit of uptake: 0.2 to 3.3 kg/kg'),
  'soak.activation.*.kJPerMol': field('kJ/mol', 3, 90, 'diffusion of water about 18, its hindered entry to 65'),
  soakSavesShare: field('share', 0, 0.9, 'a soak does not cook'),
  solidsKept: field('kg/kg', 0.7, 1, 'nothing gains solids; black gram keeps 0.75'),
  absorbedGPerG: field('g/g', -0.05, 12, 'a boiled potato may lose a little; milk powder takes nearly ten'),
  kcalPer100G: field('kcal/100 g', 0, 902, 'pure fat is 9.02 kcal/g'),
  proteinGPer100G: field('g/100 g', 0, 100, 'a share of the mass'),
  waterGPer100G: field('g/100 g', 0, 100, 'a share of the mass'),
  saltGPer100G: field('g/100 g', 0, 100, 'a share of the mass'),
  bulkDensityGPerL: field('g/L', 10, 1600, 'freeze-dried leek 14, honey 1,433'),
  specificHeatKJPerKgK: field('kJ/(kg K)', 0.8, 4.22, 'salt 0.87, water 4.18 to 4.22'),
};

describe('foods', () => {
  it.each(Object.values(FOODS))('$id: unit, range, order, source and mark of every figure', (food) => {
    const parameters = parametersIn(food);
    expect(parameters.length).toBeGreaterThanOrEqual(7);
    for (const [path, parameter] of parameters) expectParameterFits(`${food.id}.${path}`, parameter, FOOD_FIELDS[path]);
  });
  it.each(Object.values(FOODS))('$id: parts of a mass add up', (food) => {
    const water = food.waterGPer100G.value;
    const protein = food.proteinGPer100G.value;
    expect(water + protein).toBeLessThanOrEqual(100.001);
    // All that is neither water nor protein counted as fat, protein at 4.4 kcal/g: no food can hold more.
    expect(food.kcalPer100G.value).toBeLessThanOrEqual(9.02 * (100 - water - protein) + 4.4 * protein + 1);
    // The heat of a mixture is that of its water and at least 0.8 kJ/(kg K) for the rest.
    const share = water / 100;
    expect(food.specificHeatKJPerKgK.value).toBeGreaterThanOrEqual(4.18 * share + 0.8 * (1 - share) - 0.01);
    expect(food.specificHeatKJPerKgK.value).toBeLessThanOrEqual(4.18 * share + 2.2 * (1 - share));
  });
  it.each(Object.values(FOODS).filter((food) => food.soak !== null))(
    '$id: a soak fills no more than cooking does, and its steps rise in temperature',
    (food) => {
      const { k2, activation, lagHours, referenceC } = food.soak as NonNullable<typeof food.soak>;
      const limitGPerG = (1 - food.waterGPer100G.value / 100) / k2.value;
      // Soaked to the end a seed holds at most a tenth more than when cooked and drained of its lost solids.
      expect(limitGPerG).toBeLessThanOrEqual(1.1 * food.absorbedGPerG.p90);
      for (let i = 1; i < activation.length; i += 1)
        expect(activation[i]?.upToC).toBeGreaterThan(activation[i - 1]?.upToC as number);
      expect(lagHours).toBeGreaterThanOrEqual(0);
      expect(lagHours).toBeLessThanOrEqual(6);
      expect(referenceC).toBeGreaterThanOrEqual(10);
      expect(referenceC).toBeLessThanOrEqual(40);
    },
  );
});

/** By the module and the name under which a table is exported; the longest that fits holds. */
const OTHER_FIELDS: Record<string, FieldRule> = {
  'people.DEFAULT_MEAL_SHARES': field('servings', 0, 1.5, 'an adult eats one; a teenager at most half as much again'),
  'people.DRINKS_L_PER_DAY': field('L/d', 0.5, 3.5, 'reference intakes of drinks, 0.7 for an infant to 3.0 for a man'),
  'people.EXTRA_DRINKS_L_PER_DAY': field('L/d', 0, 2.5, 'ten loose stools are 2 L'),
  'people.HOT_WEATHER_FACTOR': field('1', 1, 2, '"can double"'),
  'people.ENERGY_NEED_KCAL': field('kcal/d', 450, 3300, 'a newborn to an active teenage boy'),
  'people.EXTRA_ENERGY_KCAL': field('kcal/d', 0, 600, 'nursing is 330-500'),
  'people.PROTEIN_NEED_G': field('g/d', 8, 80, '9.1 for a newborn to 71 for the nursing'),
  'people.PROTEIN_NEED_PREGNANT_OR_NURSING_G': field('g/d', 60, 80, '71 in the allowance'),
  'people.COLD_ENERGY.thresholdC': field('C', 15, 25, 'people at rest, dressed'),
  'people.COLD_ENERGY.kcalPerK': field('kcal/(d K)', 5, 40, '100 kcal for 5 C'),
  'people.PLANNING_ENERGY_KCAL': field('kcal/d', 1800, 2600, 'a population at light activity'),
  'people.RISK_AGES': field('y', 0, 100, 'years of a life'),
  'drinkingWater.WATER_RULES': field('L/d', 1, 20, 'per person and day, survival to a full table'),
  'drinkingWater.FLUID_LIMITS.perDayL': field('L/d', 8, 15, 'twelve quarts'),
  'drinkingWater.FLUID_LIMITS.perHourL': field(
    'L/h',
    0.8,
    2,
    'one and a half quarts; the kidneys pass about one litre',
  ),
  'waterTreatment.BLEACH.dropsPerGallon6': field('1/gal', 4, 20, 'eight of 6 %'),
  'waterTreatment.BLEACH.dropsPerGallon1': field('1/gal', 20, 60, 'six times that of 6 %'),
  'waterTreatment.BLEACH.dropsPerGallon825': field('1/gal', 4, 12, 'three quarters of that of 6 %'),
  'waterTreatment.BLEACH.mlPerDrop': field('mL', 0.03, 0.1, '12 to 20 drops a millilitre'),
  'waterTreatment.BLEACH.waitMinutes': field('min', 15, 60, 'contact time'),
  'waterTreatment.BLEACH.secondWaitMinutes': field('min', 10, 60, 'contact time'),
  'waterTreatment.CHLORINE_DOSE_MG_PER_L': field('mg/L', 1, 10, 'drinkable above what pathogens need'),
  'safeUntil.FOOD_SAFETY.hotAirC': field('C', 30, 35, '90 F'),
  'safeUntil.FOOD_SAFETY.hotHoldC': field('C', 55, 65, 'nothing grows above 57-60'),
  'safeUntil.FOOD_SAFETY.coldHoldC': field('C', 0, 7, '40 or 41 F'),
  'safeUntil.FOOD_SAFETY.reheatToC': field('C', 70, 80, '165 F'),
  'safeUntil.FOOD_SAFETY.formulaWaterC': field('C', 65, 75, 'kills in powder without spoiling it'),
  'safeUntil.FOOD_SAFETY': field('h', 0.5, 72, 'hours of a rule, two out of the heat to two days in a freezer'),
  'shelfLife.SHELF_LIVES': field('months', 0.5, 480, 'two weeks to the forty years that anybody claims'),
  'shelfLife.DOUBLING_STEP': field('K', 3, 20, 'life doubles within 5.6 to 16.7 K in print'),
  'absorbers.KERNEL_DENSITIES': field(
    'g/cm3',
    1,
    2.2,
    'starch 1.5, protein 1.35, with pores less; fat below 1, salt 2.16',
  ),
  'absorbers.ABSORBER_MOISTURE': field('g/100 g', 5, 20, 'dry to pliable'),
  'yields.WATER_PARAMETERS': field('kg/kg dry', 0.01, 12, 'a film of water to pasta water'),
  'lectin.LECTIN_PARAMETERS.soakHours': field('h', 5, 12, 'at least the rule'),
  'lectin.LECTIN_PARAMETERS.soakShare': field('1', 0.5, 1, 'swollen'),
  'lectin.LECTIN_PARAMETERS.minutesAt100C': field('min', 30, 60, 'at least the rule'),
  'lectin.LECTIN_PARAMETERS.countsFromC': field('C', 85, 100, 'never at 80, where the assay rises'),
  'lectin.LECTIN_PARAMETERS.zBelow100C': field('K', 15, 30, 'denaturing of a protein'),
  'lectin.LECTIN_PARAMETERS.zAbove100C': field('K', 22, 40, 'not below the z of the other side, so that it is careful'),
  'lectin.LECTIN_PARAMETERS.winterLowFactor': field(['1', ''], 1, 1.5, 'a winter low is paid in minutes'),
  'cooling.DISH_HEAT': field('kJ/(L K)', 3.5, 4.2, 'stews are mostly water'),
  'cooling.BUILD_FACTOR': field('1', 1, 6, 'one is ideal; careless boxes lose three times as much and more'),
  'cooling.FLASK_HOURS_AT_1_L': field('h', 3, 80, 'a coffee pot to the best flask'),
  'rehydration.DRIED_PIECE_ACTIVATION': field('kJ/mol', 5, 60, 'diffusion of water'),
  'softening.HYDRATION_Z_K': field('K', 40, 300, '10-60 kJ/mol'),
  'soakingAnswer.HARD_SEEDS_DRY': field(['share', '1', ''], 0, 0.5, 'up to 0.42 between cultivars'),
  'soakingAnswer.HARD_SEEDS': field(['share', '1', ''], 0, 0.5, 'up to 0.42 between cultivars'),
  'fuelOnHand.COUNTED_SHARE_BY_LEVEL': field(['share', '1', ''], 0, 1, 'a share of a full container'),
  'fuelOnHand.EXCHANGED_CYLINDER_KG': field('kg', 5, 9.1, '15 to 20 lb'),
};

const MODULES = {
  people,
  drinkingWater,
  waterTreatment,
  safeUntil,
  shelfLife,
  absorbers,
  yields,
  lectin,
  cooling,
  rehydration,
  softening,
  soakingAnswer,
  fuelOnHand,
};

describe('people, water, safety, stores', () => {
  const all = Object.entries(MODULES).flatMap(([module, exports]) =>
    Object.entries(exports).flatMap(([name, value]) => parametersIn(value, `${module}.${name}`)),
  );
  const keys = Object.keys(OTHER_FIELDS).sort((a, b) => b.length - a.length);
  const keyOf = (path: string) => keys.find((key) => path === key || path.startsWith(`${key}.`));

  it.each(all)('%s', (path, parameter) => {
    expectParameterFits(path, parameter, OTHER_FIELDS[keyOf(path) ?? '']);
  });
  it('has no rule for what no table holds', () => {
    const used = new Set(all.map(([path]) => keyOf(path)));
    expect(keys.filter((key) => !used.has(key))).toEqual([]);
  });
});

describe('limits of a soak', () => {
  it('fall with temperature, from two days to an hour, each with a source', () => {
    let before = { upToC: -1, usualHours: 48, stopHours: 48 };
    for (const row of SOAK_LIMITS) {
      expect(row.upToC).toBeGreaterThan(before.upToC);
      expect(row.stopHours).toBeLessThanOrEqual(before.stopHours);
      expect(row.usualHours).toBeLessThanOrEqual(Math.min(row.stopHours, before.usualHours));
      expect(row.stopHours).toBeGreaterThanOrEqual(1);
      expect(WORKS_CITED).toHaveProperty([row.source.key]);
      expect(row.source.place.length).toBeGreaterThan(5);
      before = row;
    }
    expect(before.upToC).toBe(60);
    expect(soakLimitRow(99).stopHours).toBeLessThanOrEqual(8);
  });
});
