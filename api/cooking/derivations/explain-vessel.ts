/** Steps on a vessel that derivations of fuel and of cooling share: its size, its mass, and what it loses when hot. */
import type { SourceRef } from '../../physics/parameter.ts';
import { potLossParts } from '../../physics/pot-heat-loss.ts';
import type { VesselMaterialId } from '../../physics/table-ids.ts';
import { type VesselShape, vesselMassKg, vesselShape } from '../../physics/vessel-geometry.ts';
import { VESSEL_MATERIALS } from '../../physics/vessel-materials-table.ts';
import { ARITHMETIC, type StepList } from './explanation-steps.ts';

const CYLINDER: SourceRef = { key: 'potSizeGuide', place: 'upright cylinder, height 0.6 of the diameter' };

/** `vesselCapacityL`, `diameterM`, `heightM`, `baseM2` and `sideM2`. */
export function addVesselShape(list: StepList, capacityL: number, diameterMm?: number): VesselShape {
  const shape = vesselShape(capacityL, diameterMm);
  list.fact('vesselCapacityL', capacityL, 'L');
  if (diameterMm === undefined)
    list.computed(
      'diameterM',
      shape.diameterM,
      'm',
      '(4 * vesselCapacityL / 1000 / (0.6 * pi)) ^ (1 / 3)',
      CYLINDER,
      true,
    );
  else {
    list.fact('diameterMm', diameterMm, 'mm', 'as measured');
    list.computed('diameterM', shape.diameterM, 'm', 'diameterMm / 1000');
  }
  list.computed('baseM2', shape.baseM2, 'm2', 'pi * diameterM ^ 2 / 4');
  list.computed('heightM', shape.heightM, 'm', 'vesselCapacityL / 1000 / baseM2');
  list.computed('sideM2', shape.sideM2, 'm2', 'pi * diameterM * heightM');
  return shape;
}

/** `potMassKg` from the sheet of the size, or as weighed, and `potSpecificHeat`; `addVesselShape` comes before. */
export function addVesselMass(
  list: StepList,
  shape: VesselShape,
  vessel: { kind: 'pot' | 'pressure-cooker' | 'flask'; material?: VesselMaterialId; massKg?: number },
): void {
  const material = VESSEL_MATERIALS[vessel.material ?? 'stainless'];
  const { wallMm, specificHeatKJPerKgK } = material;
  list.row('potSpecificHeat', specificHeatKJPerKgK, `table of materials, ${material.name}`);
  if (vessel.massKg !== undefined) {
    list.fact('potMassKg', vessel.massKg, 'kg', 'as weighed');
    return;
  }
  const practice: SourceRef = { key: 'potMassPractice', place: 'sheet of the size times fittings' };
  list.row('wallMm', wallMm, `table of materials, ${material.name}`);
  list.fact('metalKgPerM3', material.densityKgPerM3, 'kg/m3', 'table of materials', practice);
  list.fact('fittings', material.fittings, '1', 'handles, rims and knobs on the sheet', practice);
  list.fact('baseDiscMm', material.baseDiscMm, 'mm', 'aluminium under the base', practice);
  const heavier = vessel.kind === 'pressure-cooker' ? ' * 1.7' : '';
  list.computed(
    'potMassKg',
    vesselMassKg(shape, wallMm.value, material, vessel.kind),
    'kg',
    `(metalKgPerM3 * wallMm / 1000 * (sideM2 + 2 * baseM2) + 2700 * baseDiscMm / 1000 * baseM2) * fittings${heavier}`,
    practice,
    true,
  );
}

/**
 * What a vessel loses at a temperature that is listed as `at`, with the air as `airC` and `fillShare` listed: names end in
 * W. Covered: `wallConvectionW`, `wallRadiationW`, `lidConvectionW`, `lidRadiationW`; open: the wetted wall and
 * `openSurfaceW` instead of the lid. Radiation is that of a black surface, `openEvaporationW` the vapour of the open one.
 * @param shape listed by `addVesselShape`
 * @param task `at` the listed name of the temperature `atC`, C; `base`: the lid is listed without a lid too, since the
 *   base is reckoned like one
 */
export function addLossParts(
  list: StepList,
  shape: VesselShape,
  task: { at: string; atC: number; airC: number; fillShare: number; covered: boolean; base?: true },
): void {
  const { at, atC, airC, fillShare, covered } = task;
  const parts = potLossParts(shape, fillShare, atC, airC);
  const wall: SourceRef = { key: 'churchillChu1975', place: 'upright wall' };
  const plate: SourceRef = { key: 'mcAdams1954', place: 'hot plate facing up' };
  const black: SourceRef = { key: 'physicalConstants', place: 'Stefan-Boltzmann constant' };
  const difference = `max(${at} - airC, 0)`;
  const watts = (quantity: string, value: number, relation: string, source: SourceRef) =>
    list.computed(quantity, value, 'W', relation, source);
  if (covered) {
    watts(
      'wallConvectionW',
      parts.wholeSideConvectionW,
      `sideM2 * wallConvectionWPerM2K(heightM, ${at}, airC) * ${difference}`,
      wall,
    );
    watts(
      'wallRadiationW',
      parts.wholeSideBlackRadiationW,
      `sideM2 * blackRadiationWPerM2K(${at}, airC) * ${difference}`,
      black,
    );
  } else {
    list.computed('wettedShare', Math.min(Math.max(fillShare, 0.05), 1), '1', 'min(max(fillShare, 0.05), 1)');
    watts(
      'wallConvectionW',
      parts.wettedSideConvectionW,
      `sideM2 * wettedShare * wallConvectionWPerM2K(heightM * wettedShare, ${at}, airC) * ${difference}`,
      wall,
    );
    watts(
      'wallRadiationW',
      parts.wettedSideBlackRadiationW,
      `sideM2 * wettedShare * blackRadiationWPerM2K(${at}, airC) * ${difference}`,
      black,
    );
    watts(
      'openSurfaceW',
      parts.openSurfaceW,
      `baseM2 * (plateConvectionWPerM2K(diameterM, ${at}, airC) + 0.95 * blackRadiationWPerM2K(${at}, airC)) * ${difference}`,
      plate,
    );
  }
  if (covered || task.base === true) {
    list.computed('lidC', Math.max(atC - 5, airC), 'C', `max(${at} - 5, airC)`, ARITHMETIC, true);
    const lid = `(lidC - airC)`;
    watts(
      'lidConvectionW',
      parts.lidConvectionW,
      `baseM2 * plateConvectionWPerM2K(diameterM, lidC, airC) * ${lid}`,
      plate,
    );
    watts('lidRadiationW', parts.lidBlackRadiationW, `baseM2 * blackRadiationWPerM2K(lidC, airC) * ${lid}`, black);
  }
  watts(
    'openEvaporationW',
    parts.openEvaporationW,
    `baseM2 * evaporationKgPerM2H(${at}, airC) * latentHeatKJPerKg(max(${at}, 0)) / 3.6`,
    { key: 'openTanksTable', place: 'derived from the table, +-20 %' },
  );
}
