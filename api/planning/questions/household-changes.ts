/** Pure changes of what a plan rests on: a household with other vessels, fuels, water, or one more set in store. */
import type { FuelStore, HouseholdDocument, Place, Vessel, WaterLot } from '../../cooking/household/kitchen.ts';
import type { PlanInput } from '../make-plan.ts';
import type { StockEntry } from '../plan-types.ts';

/** The same plan input with another household. */
export function withHousehold(input: PlanInput, household: HouseholdDocument): PlanInput {
  return { ...input, household };
}

/** ... with other vessels; boxes forget pots that are gone. */
export function withVessels(input: PlanInput, of: (vessels: Vessel[]) => Vessel[]): PlanInput {
  const vessels = of(input.household.vessels ?? []);
  const left = new Set(vessels.map((vessel) => vessel.id));
  // A box may not name a pot that is gone.
  const boxes = (input.household.boxes ?? []).map((box) => ({ ...box, fits: box.fits.filter((id) => left.has(id)) }));
  return withHousehold(input, { ...input.household, vessels, boxes });
}

/** ... with other fuels. */
export function withFuels(input: PlanInput, of: (fuels: FuelStore[]) => FuelStore[]): PlanInput {
  return withHousehold(input, { ...input.household, fuels: of(input.household.fuels ?? []) });
}

/** ... with one place changed. */
export function withPlace(input: PlanInput, placeId: string, of: (place: Place) => Place): PlanInput {
  const places = input.household.places.map((place) => (place.id === placeId ? of(place) : place));
  return withHousehold(input, { ...input.household, places });
}

/** Litres of safe water more, as cold as the water that is there. */
export function moreWater(household: HouseholdDocument, litres: number, placeId: string): HouseholdDocument {
  const lots = household.water?.lots ?? [];
  // As cold as the water that is there, so that nothing but its amount changes.
  const like = lots.find((lot) => lot.quality !== 'not-for-food' && (lot.placeId ?? placeId) === placeId);
  const lot: WaterLot = {
    id: freeId('advised-water', household),
    placeId,
    litres,
    quality: 'safe',
    ...(like?.temperatureC === undefined ? {} : { temperatureC: like.temperatureC }),
  };
  return { ...household, water: { ...household.water, lots: [...lots, lot] } };
}

/** kg (kWh) more of a fuel, in a container of its own. */
export function moreFuel(
  household: HouseholdDocument,
  fuelId: FuelStore['fuelId'],
  amount: number,
  placeId: string,
): HouseholdDocument {
  const fuels = household.fuels ?? [];
  const store = fuels.find((fuel) => fuel.fuelId === fuelId) ?? { fuelId, containers: [] };
  const more: FuelStore =
    fuelId === 'electricity'
      ? { ...store, leftKWh: (store.leftKWh ?? 0) + amount }
      : {
          ...store,
          containers: [
            ...(store.containers ?? []),
            { id: freeId('advised-fuel', household), placeId, leftKg: amount, count: 1 },
          ],
        };
  return { ...household, fuels: [...fuels.filter((fuel) => fuel.fuelId !== fuelId), more] };
}

/** One more set, packed on the day on which the plan begins. */
export function oneMoreSet({ kits, request }: PlanInput, kitId: string, placeId: string): StockEntry[] {
  const kit = kits.find((candidate) => candidate.id === kitId);
  const packedOn = request.startsAt.slice(0, 10);
  return (kit?.parts ?? []).map((part) => ({
    id: `advised-${kitId}-${part.id}`,
    kitId,
    partId: part.id,
    placeId,
    packedOn,
    quantity: part.containersPerSet ?? 1,
    reason: 'packed' as const,
    at: `${packedOn}T00:00`,
  }));
}

/** An id that nothing of the household has. */
export function freeId(wanted: string, household: HouseholdDocument): string {
  const taken = new Set([
    ...(household.vessels ?? []).map((thing) => thing.id),
    ...(household.stoves ?? []).map((thing) => thing.id),
    ...(household.boxes ?? []).map((thing) => thing.id),
    ...(household.water?.lots ?? []).map((lot) => lot.id),
    ...(household.fuels ?? []).flatMap((fuel) => (fuel.containers ?? []).map((container) => container.id)),
  ]);
  let id = wanted;
  for (let number = 2; taken.has(id); number += 1) id = `${wanted}-${number}`;
  return id;
}
