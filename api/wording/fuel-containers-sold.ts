/**
 * Containers in which people have their fuel at home, to choose from instead of weighing. The fill is said beside the name,
 * so that a label that says otherwise wins; sizes are those in common use, from memory.
 */
import type { FuelId } from '../physics/table-ids.ts';
import { massText, type UnitSystem } from './units.ts';

export interface ContainerSold {
  id: string;
  fuelId: FuelId;
  name: string;
  /** Fuel in a full one, kg; electricity: kWh. */
  holds: number;
}

const SOLD: readonly ContainerSold[] = [
  { id: 'propane-cylinder', fuelId: 'propane', name: 'small propane cylinders', holds: 0.465 },
  { id: 'propane-5', fuelId: 'propane', name: 'propane bottles', holds: 5 },
  { id: 'propane-9', fuelId: 'propane', name: 'propane bottles', holds: 9 },
  { id: 'propane-11', fuelId: 'propane', name: 'propane bottles', holds: 11 },
  { id: 'butane-cartridge', fuelId: 'butane', name: 'butane cartridges', holds: 0.22 },
  { id: 'canister-100', fuelId: 'canister-mix', name: 'gas canisters', holds: 0.1 },
  { id: 'canister-230', fuelId: 'canister-mix', name: 'gas canisters', holds: 0.23 },
  { id: 'canister-450', fuelId: 'canister-mix', name: 'gas canisters', holds: 0.45 },
  { id: 'wood-armful', fuelId: 'wood', name: 'armfuls of dry split wood', holds: 6 },
  { id: 'wood-stack', fuelId: 'wood', name: 'barrow loads of dry split wood', holds: 40 },
  { id: 'charcoal-3', fuelId: 'charcoal', name: 'bags of charcoal', holds: 3 },
  { id: 'charcoal-10', fuelId: 'charcoal', name: 'bags of charcoal', holds: 10 },
  // A litre of spirit weighs close to 0.8 kg.
  {
    id: 'spirit-litre',
    fuelId: 'denatured-alcohol',
    name: 'bottles of denatured alcohol of a litre or quart',
    holds: 0.76,
  },
  { id: 'ethanol-litre', fuelId: 'ethanol', name: 'bottles of ethanol of a litre or quart', holds: 0.76 },
  { id: 'gel-tin', fuelId: 'ethanol-gel', name: 'tins of alcohol gel', holds: 0.2 },
  { id: 'battery-kwh', fuelId: 'electricity', name: 'kilowatt-hours in a battery', holds: 1 },
];

/**
 * The containers that hold one of some fuels, in the order of the fuels.
 * @param fuelIds fuels that a stove burns
 */
export function containersSold(fuelIds: readonly FuelId[]): ContainerSold[] {
  return fuelIds.flatMap((fuelId) => SOLD.filter((container) => container.fuelId === fuelId));
}

/** `small propane cylinders, 465 g each`: the plural, with the fill of each rounded down, as no more may be counted on. */
export function containerText({ fuelId, name, holds }: ContainerSold, system: UnitSystem): string {
  return fuelId === 'electricity' ? name : `${name}, ${massText(holds, system, 'down')} each`;
}
