/**
 * An invented household with a full dry store, for a first look and for tests. Every figure is made up: five people
 * in a cold house at 1,780 m with three stoves, three fuels and a week of kits. Nobody's measurements are in it.
 */
import type { Kit } from '../cooking/dishes/kit.ts';
import { standInId } from '../cooking/dishes/part-choices.ts';
import type { HouseholdDocument } from '../cooking/household/kitchen.ts';
import type { StockEntry } from '../planning/plan-types.ts';
import { demoKits } from './demo-kits.ts';

const PLACE = 'home';
const CELLAR = 'earth-cellar';

/** Sets in store of a kit: how many, how many years before the start they were packed, and on which day of that year. */
interface PackedSets {
  kitId: string;
  sets: number;
  yearsAgo: number;
  monthDay: string;
  moisturePercent?: number;
}

const PACKED: readonly PackedSets[] = [
  { kitId: 'oat-apple-porridge', sets: 3, yearsAgo: 2, monthDay: '10-04' },
  { kitId: 'millet-raisin-porridge', sets: 2, yearsAgo: 3, monthDay: '03-16' },
  { kitId: 'cornmeal-milk-porridge', sets: 2, yearsAgo: 3, monthDay: '03-16' },
  { kitId: 'sweet-milk-rice', sets: 2, yearsAgo: 4, monthDay: '09-21' },
  { kitId: 'lentil-bulgur-soup', sets: 1, yearsAgo: 6, monthDay: '11-02' },
  { kitId: 'split-pea-potato-soup', sets: 2, yearsAgo: 5, monthDay: '02-08' },
  { kitId: 'crackers-nut-butter-fruit', sets: 3, yearsAgo: 1, monthDay: '06-13' },
  { kitId: 'couscous-vegetable-bowl', sets: 2, yearsAgo: 2, monthDay: '10-05' },
  { kitId: 'red-bean-barley-stew', sets: 2, yearsAgo: 4, monthDay: '09-22', moisturePercent: 11 },
  { kitId: 'small-red-bean-rice', sets: 2, yearsAgo: 2, monthDay: '10-05', moisturePercent: 11 },
  // The oldest lot of the store, so that the effect of age on the minutes is seen.
  { kitId: 'chickpea-tomato-stew', sets: 2, yearsAgo: 15, monthDay: '08-27', moisturePercent: 12 },
  { kitId: 'chicken-noodle-pot', sets: 1, yearsAgo: 5, monthDay: '05-19' },
  { kitId: 'beef-potato-stew', sets: 1, yearsAgo: 5, monthDay: '05-20' },
  { kitId: 'red-lentil-rice', sets: 1, yearsAgo: 3, monthDay: '03-17' },
  { kitId: 'chicken-pea-rice', sets: 1, yearsAgo: 4, monthDay: '09-23' },
];

/** Bags of one kit that were packed apart and lie at two places, so that not all of them make sets. */
interface PackedBags {
  partId: string;
  placeId: string;
  bags: number;
  yearsAgo: number;
  monthDay: string;
}

const IN_PARTS = 'pea-sweetcorn-chowder';
/** One whole set at each place, a second one in the house but for its seasoning, which lies in the cellar. */
const PACKED_APART: readonly PackedBags[] = [
  { partId: 'pulses', placeId: PLACE, bags: 4, yearsAgo: 3, monthDay: '02-11' },
  { partId: 'seasoning', placeId: PLACE, bags: 1, yearsAgo: 1, monthDay: '06-20' },
  { partId: 'freeze-dried', placeId: PLACE, bags: 2, yearsAgo: 3, monthDay: '02-11' },
  { partId: 'pulses', placeId: CELLAR, bags: 1, yearsAgo: 3, monthDay: '02-11' },
  { partId: standInId('pulses', 'lentil-brown'), placeId: CELLAR, bags: 2, yearsAgo: 6, monthDay: '10-30' },
  { partId: 'seasoning', placeId: CELLAR, bags: 2, yearsAgo: 1, monthDay: '06-20' },
  { partId: 'freeze-dried', placeId: CELLAR, bags: 1, yearsAgo: 5, monthDay: '05-19' },
];

/**
 * The demonstration data.
 * @param startDate first day of the outage, `YYYY-MM-DD`; packing dates are counted back from its year
 * @returns one household, its kits, and the ledger lines of what was packed
 * @throws RangeError when the date is not written `YYYY-MM-DD`
 */
export function demoDocuments(startDate: string): { household: HouseholdDocument; kits: Kit[]; stock: StockEntry[] } {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(startDate)) throw new RangeError(`not a date: ${startDate}`);
  const kits = demoKits();
  return { household: demoHousehold(), kits, stock: demoStock(kits, Number(startDate.slice(0, 4))) };
}

function demoStock(kits: readonly Kit[], startYear: number): StockEntry[] {
  const entries: StockEntry[] = [];
  for (const packed of PACKED) {
    const kit = kits.find((candidate) => candidate.id === packed.kitId);
    if (kit === undefined) throw new Error(`no demonstration kit ${packed.kitId}`);
    const packedOn = `${startYear - packed.yearsAgo}-${packed.monthDay}`;
    for (const part of kit.parts) {
      entries.push({
        id: `demo-${kit.id}-${part.id}-${packed.yearsAgo}`,
        kitId: kit.id,
        partId: part.id,
        placeId: PLACE,
        packedOn,
        useBy: null,
        storageC: 13,
        ...(packed.moisturePercent === undefined ? {} : { moisturePercent: packed.moisturePercent }),
        quantity: packed.sets * (part.containersPerSet ?? 1),
        reason: 'packed',
        at: `${packedOn}T15:00`,
      });
    }
  }
  for (const { partId, placeId, bags, yearsAgo, monthDay } of PACKED_APART) {
    const packedOn = `${startYear - yearsAgo}-${monthDay}`;
    entries.push({
      id: `demo-${IN_PARTS}-${partId}-${placeId}`,
      kitId: IN_PARTS,
      partId,
      placeId,
      packedOn,
      useBy: null,
      storageC: placeId === CELLAR ? 9 : 13,
      quantity: bags,
      reason: 'packed',
      at: `${packedOn}T15:00`,
    });
  }
  return entries;
}

function demoHousehold(): HouseholdDocument {
  return {
    format: 1,
    id: 'saddle-lane',
    name: 'Saddle Lane house',
    places: [
      {
        id: PLACE,
        name: 'House',
        timeZone: 'America/Denver',
        elevationM: 1780,
        indoorC: 13,
        indoorFallsToC: 9,
        storageC: 13,
        outdoorC: -5,
        wind: 'screened',
      },
      {
        id: CELLAR,
        name: 'Earth cellar',
        timeZone: 'America/Denver',
        elevationM: 1780,
        indoorC: 9,
        indoorFallsToC: 8,
        storageC: 9,
        outdoorC: -5,
        wind: 'screened',
      },
    ],
    people: [
      { label: 'Mara', ageGroup: 'adult', sex: 'f', condition: 'pregnant' },
      { label: 'Tomas', ageGroup: 'adult', sex: 'm', condition: 'none' },
      { label: 'Ilse', ageGroup: 'teen', sex: 'f', condition: 'none' },
      { label: 'Bo', ageGroup: 'child', sex: 'm', condition: 'none' },
      { label: 'Nana', ageGroup: 'older-adult', sex: 'f', condition: 'none' },
    ],
    animals: [{ label: 'dog', waterLPerDay: 1 }],
    meals: [
      { id: 'breakfast', slot: 'breakfast', time: '07:45', hot: 'wanted' },
      { id: 'midday', slot: 'midday', time: '12:30', hot: 'optional' },
      { id: 'evening', slot: 'evening', time: '18:00', hot: 'wanted' },
    ],
    waking: { from: '06:30', to: '22:00' },
    lightingsPerDay: 2,
    outdoorMinutesPerDay: 240,
    nightFeeds: [],
    thermometer: true,
    water: {
      lots: [
        { id: 'cans', placeId: PLACE, litres: 210, quality: 'safe', temperatureC: 8 },
        { id: 'rain-barrel', placeId: PLACE, litres: 90, quality: 'treat', temperatureC: 4 },
      ],
      snow: false,
      dailySupply: { litres: 0, quality: 'treat' },
      treatBy: 'bleach',
      hygieneLPerPersonDay: 2,
      washingUpLPerPersonMeal: 0.5,
      hotWaterPerDay: { litres: 3, temperatureC: 85 },
    },
    fuels: [
      { fuelId: 'wood', reserveShare: 0.1, moisturePercent: 18, containers: [{ id: 'woodshed', leftKg: 25 }] },
      {
        fuelId: 'propane',
        reserveShare: 0.1,
        containers: [
          { id: 'full-cylinders', fullKg: 0.465, count: 4, level: 'full' },
          { id: 'open-cylinder', fullKg: 0.465, tareKg: 0.42, grossKg: 0.68 },
        ],
      },
      { fuelId: 'denatured-alcohol', reserveShare: 0.1, containers: [{ id: 'alcohol-can', leftKg: 1 }] },
    ],
    stoves: [
      { id: 'rocket', name: 'Rocket stove', typeId: 'rocket', fuelIds: ['wood'], site: 'outdoors', burners: 1 },
      {
        id: 'camp-stove',
        name: 'Propane camp stove',
        typeId: 'propane-camp',
        fuelIds: ['propane'],
        site: 'outdoors',
        burners: 1,
      },
      {
        id: 'spirit-burner',
        name: 'Alcohol burner',
        typeId: 'alcohol-pot',
        fuelIds: ['denatured-alcohol'],
        site: 'outdoors',
        burners: 1,
        fillMl: 80,
        minutesPerFill: 32,
        coolDownMinutes: 15,
      },
    ],
    vessels: [
      { id: 'big-pot', name: 'Big pot', kind: 'pot', capacityL: 6, material: 'stainless', lid: 'snug' },
      { id: 'small-pot', name: 'Small pot', kind: 'pot', capacityL: 4, material: 'aluminium', lid: 'snug' },
      {
        id: 'pressure-cooker',
        name: 'Pressure cooker',
        kind: 'pressure-cooker',
        capacityL: 6,
        material: 'stainless',
        gaugeKPa: 90,
      },
      { id: 'flask', name: 'Flask', kind: 'flask', capacityL: 1.5 },
      { id: 'blue-bowl', name: 'Blue bowl', kind: 'soak-bowl', capacityL: 4 },
      { id: 'white-bowl', name: 'White bowl', kind: 'soak-bowl', capacityL: 3 },
    ],
    boxes: [
      {
        id: 'foam-box',
        name: 'Foam box',
        fits: ['big-pot', 'small-pot'],
        materialId: 'eps',
        thicknessMm: 100,
        reading: { hours: 4, temperatureC: 82, startC: 92, airC: 13 },
      },
    ],
  };
}
