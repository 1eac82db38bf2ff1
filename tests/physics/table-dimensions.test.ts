/** Every figure of the physical tables: unit, a range that nature allows, and sums that tie its fields together. */
import { describe, expect, it } from 'vitest';
import { lowerHeatingValue } from '../../api/physics/combustion.ts';
import { FUELS } from '../../api/physics/fuels-table.ts';
import { INSULATION_MATERIALS } from '../../api/physics/insulation-table.ts';
import { LEAK_SHARE } from '../../api/physics/pot-heat-loss.ts';
import { STOVE_TYPES } from '../../api/physics/stoves-table.ts';
import { FUEL_IDS, INSULATION_MATERIAL_IDS, STOVE_TYPE_IDS, VESSEL_MATERIAL_IDS } from '../../api/physics/table-ids.ts';
import { VESSEL_MATERIALS } from '../../api/physics/vessel-materials-table.ts';
import { expectParameterFits, type FieldRule, field, parametersIn } from './table-rules.ts';

const FUEL_FIELDS: Record<string, FieldRule> = {
  lhvMJPerKg: field('MJ/kg', 10, 50, 'wood at 40 % moisture is 10.4; no liquid or gas in bottles exceeds 50'),
};
const STOVE_FIELDS: Record<string, FieldRule> = {
  efficiency: field('1', 0.05, 0.9, 'the poorest fires in print are 5 %; above 90 % nothing would leave past the pot'),
  powerKW: field('kW', 0.3, 16, 'a candle-like burner to a ring for 40 L'),
  lowestPowerKW: field('kW', 0.05, 6, 'below 50 W no flame is steady'),
  startUpMJ: field('MJ', 0, 6, 'at most 0.4 kg of kindling'),
  startUpMinutes: field('min', 0, 30, 'charcoal takes 15-20 min'),
  cookFactor: field('1', 0.5, 2, 'handling, not another stove'),
};
const MATERIAL_FIELDS: Record<string, FieldRule> = {
  specificHeatKJPerKgK: field('kJ/(kg K)', 0.35, 1, 'metals from iron to aluminium'),
  wallMm: field('mm', 0.3, 8, 'from titanium sheet to a heavy iron pot'),
  emissivity: field('1', 0.02, 1, 'polished metal to black'),
};
const INSULATION_FIELDS: Record<string, FieldRule> = {
  conductivityWPerMK: field('W/(m K)', 0.02, 0.1, 'still air is 0.025, foam blown with gas a little less'),
};

const TABLES = [
  ['fuel', FUELS, FUEL_IDS, FUEL_FIELDS],
  ['stove', STOVE_TYPES, STOVE_TYPE_IDS, STOVE_FIELDS],
  ['material', VESSEL_MATERIALS, VESSEL_MATERIAL_IDS, MATERIAL_FIELDS],
  ['insulation', INSULATION_MATERIALS, INSULATION_MATERIAL_IDS, INSULATION_FIELDS],
] as const;

describe.each(TABLES)('%s table', (name, table, ids, fields) => {
  it('has a row for every id, each under its own', () => {
    expect(Object.keys(table).sort()).toEqual([...ids].sort());
    for (const [id, row] of Object.entries(table)) expect((row as { id: string }).id).toBe(id);
  });
  it.each(Object.entries(table))('%s: unit, range, order, source and mark of every figure', (id, row) => {
    const parameters = parametersIn(row);
    // A row lacks none of the fields that the others have.
    expect(parameters.map(([path]) => path).sort()).toEqual(Object.keys(fields).sort());
    for (const [path, parameter] of parameters) {
      if (id === 'electricity') continue;
      expectParameterFits(`${name} ${id}.${path}`, parameter, fields[path]);
    }
  });
});

describe('fuels', () => {
  it('electricity is 3.6 MJ a kWh by definition', () => {
    const { lhvMJPerKg: perKWh, unit } = FUELS.electricity;
    expectParameterFits('electricity', perKWh, field('MJ/kWh', 3.6, 3.6, 'a kilowatt for an hour'));
    expect(unit).toBe('kWh');
  });
  it.each(FUEL_IDS.filter((id) => id !== 'electricity'))(
    '%s: moisture, density and heating value fit together',
    (id) => {
      const fuel = FUELS[id];
      expect(fuel.moisturePercent).toBeGreaterThanOrEqual(0);
      expect(fuel.moisturePercent).toBeLessThan(60);
      // 4 %: blends are sold by volume and rounded.
      const wet = lowerHeatingValue(fuel.dryLhvMJPerKg, fuel.moisturePercent / 100);
      expect(Math.abs(wet / fuel.lhvMJPerKg.value - 1)).toBeLessThan(0.04);
      if (fuel.kind === 'solid') expect(fuel.densityKgPerL).toBeNull();
      else {
        // Propane under its own pressure 0.50, gel 0.86: all float on water.
        expect(fuel.densityKgPerL).toBeGreaterThan(0.48);
        expect(fuel.densityKgPerL).toBeLessThan(1);
      }
      if (fuel.kind === 'alcohol') {
        // Methanol 11 C, ethanol 13-17 C; nobody would sell a camp fuel far above.
        expect(fuel.flashPointC).toBeGreaterThan(5);
        expect(fuel.flashPointC).toBeLessThan(30);
      }
    },
  );
});

describe('stoves', () => {
  it.each(STOVE_TYPE_IDS)('%s: loads, exponent and largest pot', (id) => {
    const stove = STOVE_TYPES[id];
    expect(stove.lowestPowerKW.value).toBeLessThanOrEqual(stove.powerKW.value);
    // kW per m of pot: 0.9 kW on 30 cm is 3, an open fire on 24 cm is 33.
    expect(stove.referenceLoadKWPerM).toBeGreaterThan(1);
    expect(stove.referenceLoadKWPerM).toBeLessThan(100);
    if (stove.halfLoadKWPerM !== null) expect(stove.halfLoadKWPerM).toBeGreaterThan(0);
    // Between a choked jet, 0, and a fire fed by the air's density, 1.
    expect(stove.altitudePowerExponent).toBeGreaterThanOrEqual(0);
    expect(stove.altitudePowerExponent).toBeLessThanOrEqual(1);
    expect(stove.carriesLargestPotL).toBeGreaterThan(0.5);
    expect(stove.carriesLargestPotL).toBeLessThanOrEqual(60);
  });
  it.each(STOVE_TYPE_IDS.filter((id) => STOVE_TYPES[id].valveless !== null))(
    '%s: a fill lasts as long as its energy at full flame',
    (id) => {
      const stove = STOVE_TYPES[id];
      const { fillMl, minutesPerFill } = stove.valveless as { fillMl: number; minutesPerFill: number };
      const fuel = FUELS[stove.fuelIds[0] as keyof typeof FUELS];
      const kJ = fillMl * (fuel.densityKgPerL as number) * fuel.lhvMJPerKg.value;
      // Fills are measured by the spoon and burn out slowly: within the band of the power.
      const impliedKW = kJ / (minutesPerFill * 60);
      expect(impliedKW).toBeGreaterThan(stove.powerKW.p10);
      expect(impliedKW).toBeLessThan(stove.powerKW.p90);
    },
  );
});

describe('materials of pots', () => {
  it.each([
    ['aluminium', 26.98],
    ['cast-iron', 55.85],
    ['stainless', 55.2],
    ['titanium', 47.87],
  ] as const)('%s: heat per mole is about 3 R (Dulong and Petit)', (id, gramsPerMole) => {
    const perMole = VESSEL_MATERIALS[id].specificHeatKJPerKgK.value * gramsPerMole;
    // 12 %: alloys, and the rule holds for pure metals at room temperature within that.
    expect(Math.abs(perMole / (3 * 8.314) - 1)).toBeLessThan(0.12);
  });
  it.each(VESSEL_MATERIAL_IDS)('%s: density, disc and fittings', (id) => {
    const material = VESSEL_MATERIALS[id];
    expect(material.densityKgPerM3).toBeGreaterThan(2500);
    expect(material.densityKgPerM3).toBeLessThan(8200);
    expect(material.baseDiscMm).toBeGreaterThanOrEqual(0);
    expect(material.baseDiscMm).toBeLessThanOrEqual(8);
    expect(material.fittings).toBeGreaterThanOrEqual(1);
    expect(material.fittings).toBeLessThanOrEqual(1.5);
  });
});

it('a lid lets less vapour past the snugger it sits', () => {
  expect(LEAK_SHARE.none.value).toBe(1);
  for (const key of ['value', 'p10', 'p90'] as const) {
    expect(LEAK_SHARE.loose[key]).toBeLessThan(LEAK_SHARE.none[key]);
    expect(LEAK_SHARE.snug[key]).toBeLessThan(LEAK_SHARE.loose[key]);
    expect(LEAK_SHARE.snug[key]).toBeGreaterThan(0);
  }
});

describe('the rules themselves', () => {
  const good = STOVE_TYPES['lpg-home'].efficiency;
  const rule = STOVE_FIELDS.efficiency as FieldRule;
  it.each([
    ['a figure in another unit', { ...good, unit: '%' }],
    ['a figure beyond the range', { ...good, p90: 1.2 }],
    ['percentiles out of order', { ...good, p10: good.value + 0.01 }],
    ['a figure without a place', { ...good, source: { ...good.source, place: '' } }],
    [
      'practice that is not marked',
      { ...good, estimate: false, source: { key: 'kitchenPractice', place: 'practice' } },
    ],
  ] as const)('refuse %s', (_what, bad) => {
    expect(() => expectParameterFits('row', good, rule)).not.toThrow();
    expect(() => expectParameterFits('row', bad, rule)).toThrow();
  });
});
