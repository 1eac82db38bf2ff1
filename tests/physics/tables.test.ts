/** Every row of the tables: complete, ordered percentiles, plausible against its neighbours. */
import { describe, expect, it } from 'vitest';
import { FUELS } from '../../api/physics/fuels-table.ts';
import { INSULATION_MATERIALS } from '../../api/physics/insulation-table.ts';
import type { Parameter } from '../../api/physics/parameter.ts';
import { STOVE_TYPES } from '../../api/physics/stoves-table.ts';
import { FUEL_IDS, INSULATION_MATERIAL_IDS, STOVE_TYPE_IDS, VESSEL_MATERIAL_IDS } from '../../api/physics/table-ids.ts';
import { VESSEL_MATERIALS } from '../../api/physics/vessel-materials-table.ts';
import { WORKS_CITED } from '../../api/references/works-cited.ts';

function parametersOf(row: object): [string, Parameter][] {
  return Object.entries(row).filter(
    (entry): entry is [string, Parameter] =>
      typeof entry[1] === 'object' && entry[1] !== null && 'p10' in entry[1] && 'source' in entry[1],
  );
}

const ROWS: [string, object][] = [
  ...FUEL_IDS.map((id): [string, object] => [`fuel ${id}`, FUELS[id]]),
  ...STOVE_TYPE_IDS.map((id): [string, object] => [`stove ${id}`, STOVE_TYPES[id]]),
  ...VESSEL_MATERIAL_IDS.map((id): [string, object] => [`material ${id}`, VESSEL_MATERIALS[id]]),
  ...INSULATION_MATERIAL_IDS.map((id): [string, object] => [`insulation ${id}`, INSULATION_MATERIALS[id]]),
];

describe('rows of the tables', () => {
  it.each(ROWS)('%s has parameters in order, with a source that is listed', (_name, row) => {
    const parameters = parametersOf(row);
    expect(parameters.length).toBeGreaterThan(0);
    for (const [, p] of parameters) {
      expect(p.p10).toBeLessThanOrEqual(p.value);
      expect(p.value).toBeLessThanOrEqual(p.p90);
      expect(p.p10).toBeGreaterThanOrEqual(0);
      expect(Object.keys(WORKS_CITED)).toContain(p.source.key);
      expect(p.source.place.length).toBeGreaterThan(2);
    }
  });

  it.each(STOVE_TYPE_IDS)('%s: simmers below full power exactly where it can be turned down', (id) => {
    const stove = STOVE_TYPES[id];
    if (stove.throttle) expect(stove.lowestPowerKW.value).toBeLessThan(stove.powerKW.value);
    else expect(stove.lowestPowerKW.value).toBe(stove.powerKW.value);
    expect(stove.efficiency.p90).toBeLessThan(1);
    for (const fuelId of stove.fuelIds) expect(FUEL_IDS).toContain(fuelId);
    // No pressure cooker where the flame cannot be turned down at once.
    if (!stove.throttle || stove.fuelIds.includes('wood')) expect(stove.carriesPressureCooker).toBe(false);
    if (!stove.throttle) expect(stove.valveless).not.toBeNull();
  });

  it('an open fire is the least efficient and gas, spirit and current the most', () => {
    for (const id of STOVE_TYPE_IDS)
      expect(STOVE_TYPES[id].efficiency.value).toBeGreaterThanOrEqual(STOVE_TYPES['three-stone'].efficiency.value);
    expect(STOVE_TYPES['lpg-home'].efficiency.value).toBeGreaterThan(STOVE_TYPES.rocket.efficiency.value);
  });
});
