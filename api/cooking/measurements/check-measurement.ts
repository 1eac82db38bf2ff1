/** Records that cannot be true, or are about nothing that the household has: refused with the reason, before anything is kept. */
import { airPressureKPa } from '../../physics/atmosphere.ts';
import { boilingPointC } from '../../physics/boiling-point.ts';
import { FUELS } from '../../physics/fuels-table.ts';
import { waterHeatKJ } from '../../physics/water-properties.ts';
import type { Kit } from '../dishes/kit.ts';
import { packableParts } from '../dishes/part-choices.ts';
import { foodOf } from '../foods/foods-table.ts';
import type { ResolvedHousehold } from '../household/resolve-household.ts';
import { FOOD_SAFETY } from '../keeping/safe-until.ts';
import { thingOfReading } from './learn-from-cooling.ts';
import type { StoredLot } from './learn-from-measurements.ts';
import {
  type BeanTest,
  type BoilTest,
  type CookingNote,
  type CoolingMeasurement,
  fuelBurnt,
  type Measurement,
  SEEDS_OF_A_TEST,
} from './measurements.ts';

/** What is wrong with one field of a record. */
export interface MeasurementFault {
  field: string;
  detail: string;
  value?: number | string;
  minimum?: number;
  maximum?: number;
  unit?: string;
}

/** A boil test needs a rise that a kitchen thermometer reads well, K. Common practice. */
const LEAST_RISE_K = 20;
/** A box or flask is judged by its hours above this, C. */
const WARMEST_AIR_C = FOOD_SAFETY.hotHoldC.value;

/**
 * @param record within the ranges of its schema
 * @param household with every field filled
 * @param lots of the ledger
 * @returns every fault; empty where there is none
 */
export function measurementFaults(
  record: Measurement,
  household: ResolvedHousehold,
  kits: readonly Kit[],
  lots: readonly StoredLot[],
): MeasurementFault[] {
  switch (record.kind) {
    case 'boil-test':
      return boilTestFaults(record, household);
    case 'cooling-reading':
      return coolingFaults(record, household);
    default:
      return lotTestFaults(record, kits, lots);
  }
}

function boilTestFaults(test: BoilTest, household: ResolvedHousehold): MeasurementFault[] {
  const faults: MeasurementFault[] = [];
  const stove = household.stoves.find((one) => one.id === test.stoveId);
  const vessel = household.vessels.find((one) => one.id === test.vesselId);
  if (stove === undefined)
    faults.push({ field: 'stoveId', detail: 'There is no stove of this name.', value: test.stoveId });
  if (vessel === undefined)
    faults.push({ field: 'vesselId', detail: 'There is no vessel of this name.', value: test.vesselId });
  else if (vessel.kind !== 'pot' && vessel.kind !== 'pressure-cooker')
    faults.push({ field: 'vesselId', detail: 'A boil test is made in a pot.', value: test.vesselId });
  else if (test.litres > vessel.capacityL)
    faults.push({
      field: 'litres',
      detail: `The vessel holds ${vessel.capacityL} L.`,
      value: test.litres,
      minimum: 0.1,
      maximum: vessel.capacityL,
      unit: 'L',
    });
  if (stove === undefined) return faults;

  const fuelId = test.fuelId ?? (stove.fuelIds.length === 1 ? stove.fuelIds[0] : undefined);
  if (fuelId === undefined || !stove.fuelIds.includes(fuelId)) {
    const detail = `Name the fuel that was burnt: ${stove.fuelIds.join(', ')}.`;
    faults.push({ field: 'fuelId', detail, ...(test.fuelId === undefined ? {} : { value: test.fuelId }) });
    return faults;
  }
  const elevationM = test.elevationM ?? household.places.find((place) => place.id === stove.placeId)?.elevationM ?? 0;
  const boilC = boilingPointC(airPressureKPa(elevationM));
  const warmest = Math.floor((boilC - LEAST_RISE_K) * 10) / 10;
  if (test.startC > warmest) {
    faults.push({
      field: 'startC',
      detail: `Water boils at ${boilC.toFixed(1)} C here: begin with water at least ${LEAST_RISE_K} K cooler, else the test says nothing.`,
      value: test.startC,
      minimum: 0,
      maximum: warmest,
      unit: 'C',
    });
    return faults;
  }
  faults.push(...fuelFaults(test, fuelId, boilC));
  return faults;
}

function fuelFaults(test: BoilTest, fuelId: keyof typeof FUELS, boilC: number): MeasurementFault[] {
  const electric = FUELS[fuelId].unit === 'kWh';
  if (electric && test.kWh === undefined) return [{ field: 'kWh', detail: 'Say how much electricity was used, kWh.' }];
  if (!electric && test.kWh !== undefined)
    return [{ field: 'kWh', detail: 'Only electricity is metered in kWh; weigh this fuel.', value: test.kWh }];
  const { grossBeforeKg, grossAfterKg } = test;
  if (grossBeforeKg !== undefined && grossAfterKg !== undefined && grossAfterKg >= grossBeforeKg)
    return [
      {
        field: 'grossAfterKg',
        detail: `Must be less than before the test, ${grossBeforeKg} kg: a boil burns fuel.`,
        value: grossAfterKg,
        minimum: 0,
        maximum: grossBeforeKg,
        unit: 'kg',
      },
    ];
  const burnt = fuelBurnt(test);
  if (burnt === null) {
    const field = grossAfterKg === undefined && grossBeforeKg !== undefined ? 'grossAfterKg' : 'fuelKg';
    return [{ field, detail: 'Give the fuel burnt once: its mass, or the container before and after.' }];
  }
  // A stove that lost nothing at all would still have to heat the water.
  const leastMJ = waterHeatKJ(test.litres, test.startC, boilC) / 1000;
  const least = leastMJ / FUELS[fuelId].lhvMJPerKg.p90;
  if (burnt >= least) return [];
  const field = electric ? 'kWh' : test.fuelKg === undefined ? 'grossAfterKg' : 'fuelKg';
  const unit = electric ? 'kWh' : 'kg';
  const rounded = Number(least.toPrecision(3));
  return [
    {
      field,
      detail: `So little fuel would mean an efficiency above 1: even a stove that loses nothing burns ${rounded} ${unit} for this.`,
      value: field === 'grossAfterKg' ? (grossAfterKg as number) : burnt,
      ...(field === 'grossAfterKg'
        ? { minimum: 0, maximum: Number(((grossBeforeKg as number) - rounded).toFixed(6)) }
        : { minimum: rounded, maximum: 50 }),
      unit,
    },
  ];
}

function coolingFaults(test: CoolingMeasurement, household: ResolvedHousehold): MeasurementFault[] {
  const faults: MeasurementFault[] = [];
  const vessel = household.vessels.find((one) => one.id === test.vesselId);
  const box = household.boxes.find((one) => one.id === test.boxId);
  if (vessel === undefined)
    faults.push({ field: 'vesselId', detail: 'There is no vessel of this name.', value: test.vesselId });
  if (test.boxId !== undefined && box === undefined)
    faults.push({ field: 'boxId', detail: 'There is no box of this name.', value: test.boxId });
  if (vessel !== undefined) {
    if (test.boxId === undefined && vessel.kind !== 'flask')
      faults.push({ field: 'boxId', detail: 'Name the box in which the pot stood; only a flask is read without one.' });
    if (box !== undefined && !box.fits.includes(vessel.id))
      faults.push({ field: 'vesselId', detail: 'This vessel does not go into that box.', value: test.vesselId });
    if (test.fillL > vessel.capacityL)
      faults.push({
        field: 'fillL',
        detail: `The vessel holds ${vessel.capacityL} L.`,
        value: test.fillL,
        minimum: 0.05,
        maximum: vessel.capacityL,
        unit: 'L',
      });
  }
  if (test.airC !== undefined && test.airC >= WARMEST_AIR_C)
    faults.push({
      field: 'airC',
      detail: `In air of ${WARMEST_AIR_C} C nothing cools to where hot food spoils: read it in a cooler room.`,
      value: test.airC,
      minimum: -50,
      maximum: WARMEST_AIR_C - 1,
      unit: 'C',
    });
  const airC = test.airC ?? thingOfReading(test, household)?.airC ?? Number.NEGATIVE_INFINITY;
  if (!(test.temperatureC < test.startC && test.temperatureC > airC))
    faults.push({
      field: 'temperatureC',
      detail: `Must lie between the air, ${airC} C, and the start, ${test.startC} C: it cools, and not below the air.`,
      value: test.temperatureC,
      ...(Number.isFinite(airC) ? { minimum: airC } : {}),
      maximum: test.startC,
      unit: 'C',
    });
  return faults;
}

function lotTestFaults(
  test: BeanTest | CookingNote,
  kits: readonly Kit[],
  lots: readonly StoredLot[],
): MeasurementFault[] {
  const faults: MeasurementFault[] = [];
  const food = foodOf(test);
  const kit = kits.find((one) => one.id === test.kitId);
  const part = kit === undefined ? undefined : packableParts(kit).find((one) => one.id === test.partId);
  if (kit === undefined) faults.push({ field: 'kitId', detail: 'There is no kit of this name.', value: test.kitId });
  else if (part === undefined)
    faults.push({ field: 'partId', detail: 'There is no part of this name.', value: test.partId });
  else if (!part.ingredients.some((ingredient) => ingredient.foodId === test.foodId))
    faults.push({ field: 'foodId', detail: 'This part does not hold that food.', value: test.foodId });
  else if (
    !lots.some((lot) => lot.kitId === test.kitId && lot.partId === test.partId && lot.packedOn === test.packedOn)
  )
    faults.push({ field: 'packedOn', detail: 'No lot of this part was packed on this date.', value: test.packedOn });
  if (food !== undefined && food.kinetics.kind !== 'boil')
    faults.push({ field: 'foodId', detail: 'This food needs no boiling.', value: test.foodId });
  if (test.at.slice(0, 10) < test.packedOn)
    faults.push({ field: 'at', detail: `Must not be before the lot was packed, ${test.packedOn}.`, value: test.at });
  if (test.kind === 'cooking-note') {
    if (test.softAfterMinutes <= test.boiledAfterMinutes)
      faults.push({
        field: 'softAfterMinutes',
        detail: `Soft before it boiled: it boiled ${test.boiledAfterMinutes} min after the pot was put on. Count both from then.`,
        value: test.softAfterMinutes,
        minimum: test.boiledAfterMinutes,
        maximum: 2880,
        unit: 'min',
      });
    return faults;
  }
  const tried = test.tried ?? SEEDS_OF_A_TEST;
  if (test.soft > tried)
    faults.push({
      field: 'soft',
      detail: `Only ${tried} were tried.`,
      value: test.soft,
      minimum: 0,
      maximum: tried,
      unit: '1',
    });
  if (food !== undefined && food.group !== 'pulse')
    faults.push({ field: 'foodId', detail: 'Seed by seed only pulses are tried.', value: test.foodId });
  return faults;
}
