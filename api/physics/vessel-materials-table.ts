/** Materials of pots: what a pot weighs, stores and radiates. */
import type { Parameter, SourceRef } from './parameter.ts';
import type { VesselMaterialId } from './table-ids.ts';

export interface VesselMaterial {
  id: VesselMaterialId;
  name: string;
  specificHeatKJPerKgK: Parameter;
  densityKgPerM3: number;
  /** Wall with the sheet of base and lid, mm. */
  wallMm: Parameter;
  /** Extra mass of an aluminium disc under the base, mm thick; 0 without. */
  baseDiscMm: number;
  /** Handles, rims and knobs as a factor on the sheet. */
  fittings: number;
  /** Emissivity of the outer wall as used (not new). */
  emissivity: Parameter;
}

const heat: SourceRef = { key: 'metalHandbook', place: 'p. 110' };
const mass: SourceRef = { key: 'potMassPractice', place: 'wall by common practice' };
const shine: SourceRef = { key: 'neutriumEmissivity', place: 'emissivity tables' };

const specificHeat = (value: number, p10: number, p90: number): Parameter => ({
  value,
  p10,
  p90,
  unit: 'kJ/(kg K)',
  source: heat,
  estimate: false,
});
const wall = (value: number, p10: number, p90: number, note: string): Parameter => ({
  value,
  p10,
  p90,
  unit: 'mm',
  source: mass,
  estimate: true,
  note,
});
const emissivity = (value: number, p10: number, p90: number): Parameter => ({
  value,
  p10,
  p90,
  unit: '1',
  source: shine,
  estimate: true,
  note: 'ordinary used pot, between bright and sooted',
});

export const VESSEL_MATERIALS: Readonly<Record<VesselMaterialId, VesselMaterial>> = {
  aluminium: {
    id: 'aluminium',
    name: 'Aluminium',
    specificHeatKJPerKgK: specificHeat(0.897, 0.89, 0.91),
    densityKgPerM3: 2700,
    wallMm: wall(1.5, 1.0, 2.2, '1 mm camp pots, 2 mm kitchen pots'),
    baseDiscMm: 0,
    fittings: 1.08,
    emissivity: emissivity(0.3, 0.15, 0.6),
  },
  stainless: {
    id: 'stainless',
    name: 'Stainless steel',
    specificHeatKJPerKgK: specificHeat(0.5, 0.48, 0.52),
    densityKgPerM3: 7900,
    wallMm: wall(0.7, 0.5, 0.9, 'with a 4 mm aluminium disc under the base'),
    baseDiscMm: 4,
    fittings: 1.13,
    emissivity: emissivity(0.3, 0.15, 0.6),
  },
  enamel: {
    id: 'enamel',
    name: 'Enamelled steel',
    specificHeatKJPerKgK: specificHeat(0.48, 0.46, 0.52),
    densityKgPerM3: 7850,
    wallMm: wall(1.0, 0.7, 1.4, 'recalled'),
    baseDiscMm: 0,
    fittings: 1.1,
    emissivity: emissivity(0.9, 0.85, 0.95),
  },
  'cast-iron': {
    id: 'cast-iron',
    name: 'Cast iron',
    specificHeatKJPerKgK: specificHeat(0.46, 0.42, 0.54),
    densityKgPerM3: 7200,
    wallMm: wall(4.5, 4, 6.5, 'camp ovens are heavier than kitchen pots'),
    baseDiscMm: 0,
    fittings: 1.055,
    emissivity: emissivity(0.9, 0.85, 0.95),
  },
  titanium: {
    id: 'titanium',
    name: 'Titanium',
    specificHeatKJPerKgK: specificHeat(0.523, 0.52, 0.54),
    densityKgPerM3: 4500,
    wallMm: wall(0.5, 0.4, 0.6, 'camp mugs and pots'),
    baseDiscMm: 0,
    fittings: 1.08,
    emissivity: emissivity(0.3, 0.15, 0.6),
  },
};
