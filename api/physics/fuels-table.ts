/** Fuels: lower heating value, density, and how each behaves. */
import { lowerHeatingValue } from './combustion.ts';
import type { Parameter, SourceRef } from './parameter.ts';
import type { FuelId } from './table-ids.ts';

export interface Fuel {
  id: FuelId;
  name: string;
  /** Lower heating value as bought or as it lies, MJ/kg; for electricity 3.6 MJ per kWh. */
  lhvMJPerKg: Parameter;
  /** Lower heating value without any water, MJ/kg: the base when a moisture is given. */
  dryLhvMJPerKg: number;
  /** Water as % of the mass that the value stands for. */
  moisturePercent: number;
  /** Liquids: kg/L; null otherwise. */
  densityKgPerL: number | null;
  /** How it is counted: kg weighed, or kWh. */
  unit: 'kg' | 'kWh';
  kind: 'gas' | 'alcohol' | 'gel' | 'solid' | 'electricity';
  /** Closed-cup flash point, C, below which it must be warmed or primed to light; null where it does not apply. */
  flashPointC: number | null;
}

/** Spread of the moisture of air-dry wood about its typical 20 %. */
export const AIR_DRY_MOISTURE = { typical: 0.2, low: 0.136, high: 0.264 } as const;
/** Above this moisture wood may not burn by itself. Common practice. */
export const WOOD_MAY_NOT_BURN_PERCENT = 30;

const WOOD_DRY_MJ_PER_KG = 19.0;

const lhv = (
  value: number,
  p10: number,
  p90: number,
  key: SourceRef['key'],
  place: string,
  estimate = false,
  note?: string,
): Parameter => ({ value, p10, p90, unit: 'MJ/kg', source: { key, place }, estimate, ...(note ? { note } : {}) });

export const FUELS: Readonly<Record<FuelId, Fuel>> = {
  wood: {
    id: 'wood',
    name: 'Wood, air-dry',
    lhvMJPerKg: lhv(
      lowerHeatingValue(WOOD_DRY_MJ_PER_KG, AIR_DRY_MOISTURE.typical),
      lowerHeatingValue(WOOD_DRY_MJ_PER_KG, AIR_DRY_MOISTURE.high),
      lowerHeatingValue(WOOD_DRY_MJ_PER_KG, AIR_DRY_MOISTURE.low),
      'woodMoistureTable',
      'dry 19.0 at 20 +- 5 % moisture',
    ),
    dryLhvMJPerKg: WOOD_DRY_MJ_PER_KG,
    moisturePercent: 20,
    densityKgPerL: null,
    unit: 'kg',
    kind: 'solid',
    flashPointC: null,
  },
  charcoal: {
    id: 'charcoal',
    name: 'Charcoal',
    lhvMJPerKg: lhv(29.5, 27, 31, 'ipcc2006', 'default net calorific value'),
    // 29.5 as sold, with about 5 % water (recalled).
    dryLhvMJPerKg: 31.2,
    moisturePercent: 5,
    densityKgPerL: null,
    unit: 'kg',
    kind: 'solid',
    flashPointC: null,
  },
  propane: {
    id: 'propane',
    name: 'Propane',
    lhvMJPerKg: lhv(46.35, 46.0, 46.6, 'lpGasData', '84 250 Btu/gal over 0.507 kg/L'),
    dryLhvMJPerKg: 46.35,
    moisturePercent: 0,
    densityKgPerL: 0.507,
    unit: 'kg',
    kind: 'gas',
    flashPointC: null,
  },
  butane: {
    id: 'butane',
    name: 'Butane',
    lhvMJPerKg: lhv(45.7, 45.4, 46.0, 'greetHeatingValues', 'recalled; higher value from 40 CFR 98', true),
    dryLhvMJPerKg: 45.7,
    moisturePercent: 0,
    densityKgPerL: 0.579,
    unit: 'kg',
    kind: 'gas',
    flashPointC: null,
  },
  'canister-mix': {
    id: 'canister-mix',
    name: 'Gas canister, isobutane with propane',
    lhvMJPerKg: lhv(45.8, 45.5, 46.1, 'greetHeatingValues', '70/30 by mass, computed'),
    dryLhvMJPerKg: 45.8,
    moisturePercent: 0,
    densityKgPerL: 0.54,
    unit: 'kg',
    kind: 'gas',
    flashPointC: null,
  },
  ethanol: {
    id: 'ethanol',
    name: 'Ethanol',
    // Sold as 95 % by volume it is 24.6: the low end.
    lhvMJPerKg: lhv(26.8, 24.8, 26.95, 'thermochemistry', '(1366.8 - 3 x 44.0) / 46.069, anhydrous'),
    dryLhvMJPerKg: 26.8,
    moisturePercent: 0,
    densityKgPerL: 0.789,
    unit: 'kg',
    kind: 'alcohol',
    flashPointC: 13,
  },
  'denatured-alcohol': {
    id: 'denatured-alcohol',
    name: 'Denatured alcohol, methylated spirit',
    lhvMJPerKg: lhv(
      24.7,
      23.1,
      26.1,
      'thermochemistry',
      'between 90/10 and 50/50 ethanol/methanol',
      true,
      'composition undeclared in practice: 19.5 +- 1 MJ/L',
    ),
    dryLhvMJPerKg: 24.7,
    moisturePercent: 0,
    densityKgPerL: 0.79,
    unit: 'kg',
    kind: 'alcohol',
    flashPointC: 13,
  },
  methanol: {
    id: 'methanol',
    name: 'Methanol',
    lhvMJPerKg: lhv(19.92, 19.6, 20.09, 'thermochemistry', '(726.1 - 88) / 32.042'),
    dryLhvMJPerKg: 19.92,
    moisturePercent: 0,
    densityKgPerL: 0.792,
    unit: 'kg',
    kind: 'alcohol',
    flashPointC: 11,
  },
  isopropanol: {
    id: 'isopropanol',
    name: 'Isopropanol',
    // Sold pure, at 91 % (26.3) and at 70 % (18.2): the common 91 % bottle.
    lhvMJPerKg: lhv(26.3, 24.5, 30.4, 'thermochemistry', '91 % by volume; pure 30.45', true),
    dryLhvMJPerKg: 30.45,
    moisturePercent: 12.6,
    densityKgPerL: 0.818,
    unit: 'kg',
    kind: 'alcohol',
    flashPointC: 17,
  },
  'ethanol-gel': {
    id: 'ethanol-gel',
    name: 'Gelled ethanol',
    lhvMJPerKg: lhv(20.1, 16.5, 20.7, 'mhazo2001', '76 % ethanol by mass, two ways', false, 'weaker gels are sold'),
    dryLhvMJPerKg: 25.4,
    moisturePercent: 19,
    densityKgPerL: 0.86,
    unit: 'kg',
    kind: 'gel',
    flashPointC: 17,
  },
  electricity: {
    id: 'electricity',
    name: 'Electricity',
    lhvMJPerKg: { ...lhv(3.6, 3.6, 3.6, 'physicalConstants', 'definition of the kilowatt-hour'), unit: 'MJ/kWh' },
    dryLhvMJPerKg: 3.6,
    moisturePercent: 0,
    densityKgPerL: null,
    unit: 'kWh',
    kind: 'electricity',
    flashPointC: null,
  },
};

/** Net fill of propane cylinders as sold, kg. Weights from data sheets; the exchange fill is common practice. */
export const PROPANE_CYLINDER_KG = {
  small: 0.465,
  tall: 0.4,
  fivePound: 2.27,
  twentyPound: 9.07,
  exchanged: 6.8,
} as const;
