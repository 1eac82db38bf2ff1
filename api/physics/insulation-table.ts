/** Conductivity of what a retained-heat box can be filled with, dry, near 20 C mean temperature. */
import type { Parameter } from './parameter.ts';
import type { InsulationMaterialId } from './table-ids.ts';

export interface InsulationMaterial {
  id: InsulationMaterialId;
  name: string;
  conductivityWPerMK: Parameter;
}

const row = (
  id: InsulationMaterialId,
  name: string,
  value: number,
  p10: number,
  p90: number,
  key: Parameter['source']['key'],
  place: string,
  estimate: boolean,
): InsulationMaterial => ({
  id,
  name,
  conductivityWPerMK: { value, p10, p90, unit: 'W/(m K)', source: { key, place }, estimate },
});

export const INSULATION_MATERIALS: Readonly<Record<InsulationMaterialId, InsulationMaterial>> = {
  eps: row('eps', 'Polystyrene foam or beads', 0.036, 0.034, 0.042, 'ashrae2013', 'moulded beads, 20 kg/m3', false),
  xps: row('xps', 'Extruded foam board', 0.03, 0.026, 0.033, 'ashrae2013', '0.026 new; in service recalled', true),
  cellulose: row('cellulose', 'Shredded paper, loose', 0.042, 0.04, 0.05, 'ashrae2013', 'loose fill, 42 kg/m3', false),
  'glass-fibre': row('glass-fibre', 'Glass fibre batt', 0.043, 0.038, 0.05, 'ashrae2013', 'batt, 12 kg/m3', false),
  wool: row(
    'wool',
    'Wool blanket or batt',
    0.045,
    0.036,
    0.06,
    'woolMats2024',
    'mats 0.033-0.044; dense blanket 0.06',
    false,
  ),
  felt: row('felt', 'Felt', 0.05, 0.045, 0.06, 'en12524', 'felt underlay', false),
  straw: row(
    'straw',
    'Straw or hay, packed',
    0.06,
    0.05,
    0.08,
    'ashrae2013',
    'thatch 0.07; loose straw recalled',
    true,
  ),
  perlite: row('perlite', 'Perlite', 0.05, 0.042, 0.057, 'ashrae2013', '50-150 kg/m3', false),
  vermiculite: row('vermiculite', 'Vermiculite', 0.065, 0.063, 0.068, 'ashrae2013', 'loose fill', false),
  newspaper: row(
    'newspaper',
    'Crumpled newspaper',
    0.05,
    0.045,
    0.065,
    'kitchenPractice',
    'recalled, 0.045-0.06',
    true,
  ),
  towels: row(
    'towels',
    'Towels and cotton blankets',
    0.05,
    0.045,
    0.065,
    'kitchenPractice',
    'recalled, 0.045-0.06',
    true,
  ),
  down: row('down', 'Down quilt, lofted', 0.033, 0.025, 0.045, 'kitchenPractice', 'recalled; less when pressed', true),
};
