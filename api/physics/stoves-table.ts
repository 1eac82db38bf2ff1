/**
 * Stove types: efficiency, power, lowest steady flame, start-up, and what each can carry.
 *
 * The figures start from tables of published tests and were mended by cause against whole measured tasks (work key
 * `measuredTasks`); each departure is explained at its row. Efficiency is heat into pot and contents over the lower
 * heating value of the fuel burnt, start-up left out, sheltered, at sea level, under a lid, at the reference load.
 *
 * Load is the power of the flame per width of the pot, kW/m. Efficiency falls as it rises, because the flame spills past
 * the pot: `eta = eta_ref (1 + (q_ref/q_h)^1.5) / (1 + (q/q_h)^1.5)`. The form was fitted to gas hobs at 3 to 20 kW/m
 * (0.62 at a low flame, 0.50 at 10, 0.29-0.40 at 17-20 kW/m); other stoves take three times their reference load for
 * `q_h` where no measurement says otherwise (estimate).
 */
import type { Parameter, SourceRef } from './parameter.ts';
import { lognormalP90Factor } from './parameter.ts';
import type { FuelId, StoveTypeId } from './table-ids.ts';

export interface StoveType {
  id: StoveTypeId;
  name: string;
  fuelIds: FuelId[];
  /** Share, at the reference load. */
  efficiency: Parameter;
  /** Full flame, kW of fuel burnt. */
  powerKW: Parameter;
  /** Lowest steady flame, kW of fuel burnt; equal to full power where it cannot be turned down. */
  lowestPowerKW: Parameter;
  /** Fuel per lighting before the pot gains full heat, MJ. */
  startUpMJ: Parameter;
  /** Minutes between lighting and full flame. */
  startUpMinutes: Parameter;
  /** How much the cook's handling varies fuel, as a factor about 1. */
  cookFactor: Parameter;
  /** Load at which the efficiency holds, kW per m of pot diameter. */
  referenceLoadKWPerM: number;
  /** Load at which the efficiency has fallen to half of its highest value; null: does not fall. */
  halfLoadKWPerM: number | null;
  /** Load above which a cook turns the flame down so that it does not lick up the wall; null: cannot or does not. */
  matchedLoadKWPerM: number | null;
  /** Exponent n of `power ~ (p/p0)^n` with air pressure. */
  altitudePowerExponent: number;
  /** Whether the flame can be turned down to a simmer. */
  throttle: boolean;
  /** Whether a pressure cooker may stand on it (needs a flame that can be turned down at once). */
  carriesPressureCooker: boolean;
  /** Largest pot that stands safely and gets hot, L. */
  carriesLargestPotL: number;
  /** Burners without a valve: what one fill holds, how long it burns at full flame, how long it must cool. */
  valveless: { fillMl: number; minutesPerFill: number; coolDownMinutes: number } | null;
  siteAllowed: 'outdoors' | 'vented-indoors';
}

const ref = (key: SourceRef['key'], place: string): SourceRef => ({ key, place });

function withSd(
  value: number,
  sd: number,
  unit: string,
  source: SourceRef,
  estimate = false,
  note?: string,
): Parameter {
  const factor = lognormalP90Factor(sd / value);
  return { value, p10: value / factor, p90: value * factor, unit, source, estimate, ...(note ? { note } : {}) };
}

function range(
  value: number,
  p10: number,
  p90: number,
  unit: string,
  source: SourceRef,
  estimate = false,
  note?: string,
): Parameter {
  return { value, p10, p90, unit, source, estimate, ...(note ? { note } : {}) };
}

const none = (unit: string): Parameter => ({
  value: 0,
  p10: 0,
  p90: 0,
  unit,
  source: ref('kitchenPractice', 'gas burns at once (below 1 g)'),
  estimate: false,
});
// Budget of spread: the cook's part, +-15 % with solid fuel and +-10 % otherwise, is common practice.
const cookOfSolidFuel = withSd(1, 0.15, '1', ref('kitchenPractice', 'tending a wood or charcoal fire'), true);
const cook = withSd(1, 0.1, '1', ref('kitchenPractice', 'handling a burner'), true);
const MEASURED = ref('measuredTasks', 'whole tasks');

const GASES: FuelId[] = ['propane', 'butane', 'canister-mix'];
const ALCOHOLS: FuelId[] = ['denatured-alcohol', 'ethanol', 'methanol', 'isopropanol'];

export const STOVE_TYPES: Readonly<Record<StoveTypeId, StoveType>> = {
  'three-stone': {
    id: 'three-stone',
    name: 'Open fire on three stones',
    fuelIds: ['wood'],
    // Steam counted, on the 5 L pot of the boiling tests: 13.4 % in sensible heat is 16-17 % with the steam; books say 15.
    // On 2 kg a laboratory came to 9.5 % over all fuel, 12-13 % after the start-up: the fire is far wider than that pot,
    // so that efficiency falls with the load from about the load of the test on.
    efficiency: withSd(0.16, 0.04, '1', ref('aprovecho2011', '13.4 % sensible on 5 L; Abasiryu 2016 9.5 % on 2 kg')),
    powerKW: withSd(7.9, 1.5, 'kW', ref('aprovecho2011', 'app. C: 7.8 and 8.2 kW')),
    lowestPowerKW: range(3.0, 2.2, 4.0, 'kW', ref('aprovecho2011', 'app. C: simmer 3.05 kW')),
    startUpMJ: range(1.8, 1.1, 3.0, 'MJ', ref('kitchenPractice', '0.1 to 0.2 kg kindling'), true),
    startUpMinutes: range(4.5, 2, 8, 'min', MEASURED, true, 'less where the pot is put on a fire that burns'),
    cookFactor: cookOfSolidFuel,
    referenceLoadKWPerM: 33,
    halfLoadKWPerM: 35,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 1,
    throttle: true,
    carriesPressureCooker: false,
    carriesLargestPotL: 40,
    valveless: null,
    siteAllowed: 'outdoors',
  },
  'mud-u': {
    id: 'mud-u',
    name: 'U-shaped mud or brick hearth',
    fuelIds: ['wood'],
    // 0.18 by practice; 0.15 in one laboratory after the start-up, on a pot narrower than the fire.
    efficiency: withSd(0.185, 0.05, '1', ref('abasiryu2016', 'shielded wood stove; 0.126-0.25 elsewhere'), true),
    powerKW: withSd(6, 1.5, 'kW', ref('kitchenPractice', 'bounded by tests of similar stoves'), true),
    lowestPowerKW: range(2.4, 1.8, 3.2, 'kW', ref('kitchenPractice', 'turndown 2.5'), true),
    startUpMJ: range(1.8, 0.9, 3.5, 'MJ', ref('kitchenPractice', 'kindling and the heat that the walls store'), true),
    startUpMinutes: range(3.5, 1.5, 7, 'min', MEASURED, true),
    cookFactor: cookOfSolidFuel,
    referenceLoadKWPerM: 25,
    halfLoadKWPerM: 30,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 1,
    throttle: true,
    carriesPressureCooker: false,
    carriesLargestPotL: 40,
    valveless: null,
    siteAllowed: 'outdoors',
  },
  rocket: {
    id: 'rocket',
    name: 'Rocket stove',
    fuelIds: ['wood'],
    efficiency: withSd(0.27, 0.05, '1', ref('rocketField2008', '41-47 % less fuel than an open fire')),
    powerKW: withSd(4.5, 1.3, 'kW', ref('kitchenPractice', 'recalled; household size'), true),
    lowestPowerKW: range(
      1.3,
      0.85,
      2.1,
      'kW',
      ref('waterBoilingTest4', 'simmer 0.8 kW in the sample test; turndown 2.8'),
      true,
    ),
    startUpMJ: range(1.0, 0.6, 1.8, 'MJ', ref('waterBoilingTest4', 'sample test, cold less hot start 0.94 MJ')),
    startUpMinutes: range(4, 1.5, 7, 'min', MEASURED, true),
    cookFactor: cookOfSolidFuel,
    referenceLoadKWPerM: 18.7,
    halfLoadKWPerM: 55,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 1,
    throttle: true,
    // An open fire cannot be turned down at once: no pressure cooker.
    carriesPressureCooker: false,
    carriesLargestPotL: 15,
    valveless: null,
    siteAllowed: 'outdoors',
  },
  'wood-gas': {
    id: 'wood-gas',
    name: 'Top-lit wood gas stove',
    fuelIds: ['wood'],
    efficiency: withSd(0.32, 0.05, '1', ref('hailu2022', '32.3 %, no credit for char')),
    powerKW: withSd(4.0, 1.5, 'kW', ref('kitchenPractice', 'recalled 3.5; 5 L in 17 and 28 min'), true),
    lowestPowerKW: range(1.8, 1.2, 2.4, 'kW', ref('kitchenPractice', 'turndown 2, 1.5-3'), true),
    startUpMJ: range(0.9, 0.5, 1.6, 'MJ', ref('waterBoilingTest4', 'sample test of a light metal stove'), true),
    startUpMinutes: range(4, 1.5, 7, 'min', MEASURED, true),
    cookFactor: cookOfSolidFuel,
    referenceLoadKWPerM: 14.5,
    halfLoadKWPerM: 45,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 1,
    throttle: true,
    carriesPressureCooker: false,
    carriesLargestPotL: 10,
    valveless: null,
    siteAllowed: 'outdoors',
  },
  charcoal: {
    id: 'charcoal',
    name: 'Charcoal stove',
    fuelIds: ['charcoal'],
    // 0.22-0.24 at 2.4 kW under 3 L, 0.11-0.15 at 4.5 kW under 2 L: the same fall with the load as over gas.
    efficiency: withSd(
      0.23,
      0.06,
      '1',
      ref('charcoalCeramic2006', '0.22-0.24; Abasiryu 2016 0.11-0.15 at twice the load'),
    ),
    // 2.36 kW in one test, 4.5 kW from 200 g in 21.85 min in another.
    powerKW: withSd(3.1, 0.85, 'kW', ref('charcoalCeramic2006', '2.36 kW; Abasiryu 2016 4.5 kW')),
    lowestPowerKW: range(0.6, 0.45, 0.9, 'kW', ref('charcoalCeramic2006', 'simmer 0.54 kW')),
    startUpMJ: range(0.9, 0.5, 1.8, 'MJ', ref('kitchenPractice', '10 to 20 % of the charge'), true),
    startUpMinutes: range(3, 1, 10, 'min', ref('kitchenPractice', 'pot set on while the coals take'), true),
    cookFactor: cookOfSolidFuel,
    referenceLoadKWPerM: 12,
    halfLoadKWPerM: 18,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 1,
    throttle: true,
    // Cookers were tested on charcoal: the draught is closed to turn it down.
    carriesPressureCooker: true,
    carriesLargestPotL: 15,
    valveless: null,
    siteAllowed: 'outdoors',
  },
  'lpg-home': {
    id: 'lpg-home',
    name: 'Household gas burner',
    fuelIds: GASES,
    // 0.62 at a low flame, 0.50 at full on a 20 cm pot (2 L), 0.44 and 0.32 in whole tasks at larger flames.
    efficiency: withSd(0.48, 0.075, '1', ref('gasHobStudies', '0.49 and 0.62 on one burner; whole tasks')),
    powerKW: withSd(1.85, 0.55, 'kW', ref('gasHobStudies', 'ratings 1.16, 1.63, 2.09 kW; ranges to 5 kW'), true),
    lowestPowerKW: range(0.6, 0.4, 0.8, 'kW', ref('gasHobStudies', 'tap at simmer passes 1/4 to 1/3'), true),
    startUpMJ: none('MJ'),
    startUpMinutes: none('min'),
    cookFactor: cook,
    referenceLoadKWPerM: 10,
    halfLoadKWPerM: 20,
    matchedLoadKWPerM: 13,
    altitudePowerExponent: 0.5,
    throttle: true,
    carriesPressureCooker: true,
    carriesLargestPotL: 20,
    valveless: null,
    siteAllowed: 'outdoors',
  },
  'propane-camp': {
    id: 'propane-camp',
    name: 'Camp gas burner',
    fuelIds: GASES,
    // 0.50 on a mug with the flame turned down; small burner heads keep their flame nearer the middle of the pot than the
    // rings of hobs, so that the load at which it spills is higher: 0.46 was met at 21 kW/m behind a screen.
    efficiency: withSd(0.48, 0.075, '1', ref('gasHobStudies', 'full flame on camp-size pots; whole tasks')),
    powerKW: withSd(2.6, 0.8, 'kW', ref('kitchenPractice', 'burners of 2 to 3 kW, 1.1 to 2.4 kW under mugs'), true),
    lowestPowerKW: range(0.8, 0.5, 1.1, 'kW', ref('kitchenPractice', 'turndown 3.3'), true),
    startUpMJ: none('MJ'),
    startUpMinutes: none('min'),
    cookFactor: cook,
    referenceLoadKWPerM: 13,
    halfLoadKWPerM: 35,
    // 1.1 to 2.4 kW under mugs of 11 to 12 cm.
    matchedLoadKWPerM: 15,
    altitudePowerExponent: 0,
    throttle: true,
    carriesPressureCooker: true,
    carriesLargestPotL: 8,
    valveless: null,
    siteAllowed: 'outdoors',
  },
  'alcohol-jet': {
    id: 'alcohol-jet',
    name: 'Open spirit burner with side jets',
    fuelIds: ALCOHOLS,
    efficiency: withSd(0.48, 0.08, '1', ref('alcoholBurnerTests', '49 % to the boil, 44 % with burn-out; 38 to 53 %')),
    // Eight timed boils: 0.7 to 2.1 kW over the whole burn, geometric mean 0.97 with the start-up, 1.1 without.
    powerKW: range(1.1, 0.72, 1.75, 'kW', ref('alcoholBurnerTests', '0.6 to 1.6 kW burnt')),
    lowestPowerKW: range(1.1, 0.72, 1.75, 'kW', ref('alcoholBurnerTests', 'cannot be turned down')),
    startUpMJ: range(0.03, 0.015, 0.075, 'MJ', ref('alcoholBurnerTests', 'bloom of 1.5 min, at most 3.8 mL')),
    startUpMinutes: range(1.5, 0.4, 2.5, 'min', ref('alcoholBurnerTests', 'full jets at 1 min 30 s, or lit before')),
    cookFactor: cook,
    referenceLoadKWPerM: 9,
    halfLoadKWPerM: 25,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 0,
    throttle: false,
    carriesPressureCooker: false,
    carriesLargestPotL: 2,
    // 8 min for 20 mL: what a slow one burns, since it is held against the minutes of a slow one.
    valveless: { fillMl: 40, minutesPerFill: 16, coolDownMinutes: 15 },
    siteAllowed: 'outdoors',
  },
  'alcohol-pot': {
    id: 'alcohol-pot',
    name: 'Spirit burner with shutter and windshield',
    fuelIds: ALCOHOLS,
    efficiency: withSd(0.57, 0.07, '1', ref('boilingPoint12', 'about 60 %; a lidded litre 0.56')),
    powerKW: withSd(1.4, 0.25, 'kW', ref('boilingPoint12', '0.4 to 1.4 kW continuous')),
    lowestPowerKW: range(0.4, 0.3, 0.55, 'kW', ref('boilingPoint12', '0.4 kW')),
    startUpMJ: range(0.02, 0.01, 0.05, 'MJ', ref('kitchenPractice', 'about a minute of small flame'), true),
    startUpMinutes: range(1, 0.5, 2, 'min', ref('kitchenPractice', 'warm-up'), true),
    cookFactor: cook,
    referenceLoadKWPerM: 8,
    halfLoadKWPerM: 24,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 0,
    throttle: true,
    carriesPressureCooker: true,
    carriesLargestPotL: 5,
    valveless: null,
    siteAllowed: 'outdoors',
  },
  'ethanol-canister': {
    id: 'ethanol-canister',
    name: 'Ethanol canister stove',
    fuelIds: ALCOHOLS,
    efficiency: withSd(0.55, 0.06, '1', ref('kitchenPractice', 'recalled; wick or absorbent filling'), true),
    powerKW: withSd(1.4, 0.2, 'kW', ref('kitchenPractice', 'recalled'), true),
    lowestPowerKW: range(0.5, 0.4, 0.65, 'kW', ref('kitchenPractice', 'recalled; turndown 2.8'), true),
    startUpMJ: range(0.02, 0.01, 0.05, 'MJ', ref('kitchenPractice', 'about a minute of small flame'), true),
    startUpMinutes: range(1, 0.5, 2, 'min', ref('kitchenPractice', 'warm-up'), true),
    cookFactor: cook,
    referenceLoadKWPerM: 8,
    halfLoadKWPerM: 24,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 0,
    throttle: true,
    carriesPressureCooker: true,
    carriesLargestPotL: 10,
    valveless: null,
    siteAllowed: 'outdoors',
  },
  gel: {
    id: 'gel',
    name: 'Gel burner',
    fuelIds: ['ethanol-gel'],
    efficiency: withSd(0.4, 0.09, '1', ref('gelStoveTest', 'recalled; power from a test'), true),
    powerKW: withSd(1.05, 0.2, 'kW', ref('gelStoveTest', '100 mL in 27 min')),
    lowestPowerKW: range(0.4, 0.3, 0.55, 'kW', ref('gelStoveTest', 'turndown 2.6 with a damper'), true),
    startUpMJ: range(0.02, 0.01, 0.06, 'MJ', ref('kitchenPractice', 'about a minute of small flame'), true),
    startUpMinutes: range(1, 0.5, 2, 'min', ref('kitchenPractice', 'warm-up'), true),
    cookFactor: cook,
    referenceLoadKWPerM: 8,
    halfLoadKWPerM: 24,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 0,
    throttle: true,
    carriesPressureCooker: false,
    carriesLargestPotL: 4,
    valveless: { fillMl: 200, minutesPerFill: 54, coolDownMinutes: 15 },
    siteAllowed: 'outdoors',
  },
  'electric-plate': {
    id: 'electric-plate',
    name: 'Electric hot plate',
    fuelIds: ['electricity'],
    efficiency: withSd(
      0.71,
      0.1,
      '1',
      ref('electricPlateTests', '0.59 for a small litre to 0.84; rice, barley, pasta'),
    ),
    powerKW: withSd(
      1.4,
      0.4,
      'kW',
      ref('electricPlateTests', 'plates of 1 to 2 kW; 1.1 to 1.4 kW in four boils'),
      true,
    ),
    // It switches on and off, so that its mean power has hardly a lower bound.
    lowestPowerKW: range(0.1, 0.07, 0.15, 'kW', ref('kitchenPractice', 'cycling plate'), true),
    startUpMJ: range(0.05, 0.03, 0.1, 'MJ', ref('kitchenPractice', 'heat that stays in the plate'), true),
    startUpMinutes: range(1.3, 0.6, 2.6, 'min', ref('kitchenPractice', 'the plate warms first'), true),
    cookFactor: cook,
    referenceLoadKWPerM: 8,
    halfLoadKWPerM: null,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 0,
    throttle: true,
    carriesPressureCooker: true,
    carriesLargestPotL: 10,
    valveless: null,
    siteAllowed: 'vented-indoors',
  },
  // Stoves that fit no row, described by their label: power is asked for, efficiency spans the rows of the same fuel. The
  // careful side where a label does not say: spirit that cannot be turned down, a fire that carries no pressure cooker.
  'other-gas': {
    id: 'other-gas',
    name: 'Other gas stove, by its label',
    fuelIds: GASES,
    efficiency: range(0.45, 0.3, 0.62, '1', ref('kitchenPractice', 'spans the gas burners of this table'), true),
    powerKW: range(2, 1, 4, 'kW', ref('kitchenPractice', 'asked for; spans the gas burners of this table'), true),
    lowestPowerKW: range(0.6, 0.3, 1.2, 'kW', ref('kitchenPractice', 'turndown 3.3'), true),
    startUpMJ: none('MJ'),
    startUpMinutes: none('min'),
    cookFactor: cook,
    referenceLoadKWPerM: 11,
    halfLoadKWPerM: 20,
    matchedLoadKWPerM: 13,
    altitudePowerExponent: 0.5,
    throttle: true,
    carriesPressureCooker: true,
    carriesLargestPotL: 10,
    valveless: null,
    siteAllowed: 'outdoors',
  },
  'other-spirit': {
    id: 'other-spirit',
    name: 'Other spirit or gel burner, by its label',
    fuelIds: [...ALCOHOLS, 'ethanol-gel'],
    efficiency: range(0.48, 0.32, 0.62, '1', ref('kitchenPractice', 'spans the spirit burners of this table'), true),
    powerKW: range(
      1.2,
      0.7,
      2,
      'kW',
      ref('kitchenPractice', 'asked for; spans the spirit burners of this table'),
      true,
    ),
    lowestPowerKW: range(1.2, 0.7, 2, 'kW', ref('kitchenPractice', 'taken as one that cannot be turned down'), true),
    startUpMJ: range(0.03, 0.01, 0.075, 'MJ', ref('kitchenPractice', 'a minute or two of small flame'), true),
    startUpMinutes: range(1.2, 0.5, 2.5, 'min', ref('kitchenPractice', 'warm-up'), true),
    cookFactor: cook,
    referenceLoadKWPerM: 8,
    halfLoadKWPerM: 24,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 0,
    throttle: false,
    carriesPressureCooker: false,
    carriesLargestPotL: 4,
    valveless: { fillMl: 60, minutesPerFill: 17, coolDownMinutes: 15 },
    siteAllowed: 'outdoors',
  },
  'other-solid': {
    id: 'other-solid',
    name: 'Other wood or charcoal stove, by its label',
    fuelIds: ['wood', 'charcoal'],
    efficiency: range(0.22, 0.13, 0.34, '1', ref('kitchenPractice', 'spans the fires of this table'), true),
    powerKW: range(4, 2, 8, 'kW', ref('kitchenPractice', 'asked for; spans the fires of this table'), true),
    lowestPowerKW: range(1.6, 0.8, 3.2, 'kW', ref('kitchenPractice', 'turndown 2.5'), true),
    startUpMJ: range(1.2, 0.5, 2.5, 'MJ', ref('kitchenPractice', 'kindling and what the walls store'), true),
    startUpMinutes: range(4, 2, 9, 'min', ref('kitchenPractice', 'until it burns well'), true),
    cookFactor: cookOfSolidFuel,
    referenceLoadKWPerM: 20,
    halfLoadKWPerM: 60,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 1,
    throttle: true,
    carriesPressureCooker: false,
    carriesLargestPotL: 15,
    valveless: null,
    siteAllowed: 'outdoors',
  },
  'other-electric': {
    id: 'other-electric',
    name: 'Other electric cooker, by its label',
    fuelIds: ['electricity'],
    efficiency: range(0.7, 0.5, 0.86, '1', ref('kitchenPractice', 'from a slow plate to a coil in the water'), true),
    powerKW: range(1.2, 0.5, 2.2, 'kW', ref('kitchenPractice', 'asked for; plates and coils of 0.5 to 2 kW'), true),
    lowestPowerKW: range(0.1, 0.07, 0.15, 'kW', ref('kitchenPractice', 'switches on and off'), true),
    startUpMJ: range(0.03, 0.01, 0.1, 'MJ', ref('kitchenPractice', 'heat that stays in it'), true),
    startUpMinutes: range(0.8, 0.3, 2.5, 'min', ref('kitchenPractice', 'it warms first'), true),
    cookFactor: cook,
    referenceLoadKWPerM: 8,
    halfLoadKWPerM: null,
    matchedLoadKWPerM: null,
    altitudePowerExponent: 0,
    throttle: true,
    carriesPressureCooker: true,
    carriesLargestPotL: 10,
    valveless: null,
    siteAllowed: 'vented-indoors',
  },
};
