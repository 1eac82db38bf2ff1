/** Properties of the fuel answer: what must hold whatever the numbers. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerFuelUse, resolveFuelUse } from '../../api/cooking/calculators/answer-fuel-use.ts';
import type { FuelUseAnswer, FuelUseQuestion } from '../../api/cooking/calculators/calculator-types.ts';
import { explainFuelUse } from '../../api/cooking/derivations/explain-fuel-use.ts';
import type { Percentiles } from '../../api/physics/parameter.ts';
import { STOVE_TYPES } from '../../api/physics/stoves-table.ts';
import { LIDS, STOVE_TYPE_IDS, type StoveTypeId, VESSEL_MATERIAL_IDS, WINDS } from '../../api/physics/table-ids.ts';

const POT = { kind: 'pot', capacityL: 6, material: 'aluminium', lid: 'snug' } as const;
const BASE: FuelUseQuestion = {
  stove: { typeId: 'propane-camp' },
  fuelId: 'propane',
  vessel: POT,
  waterL: 3,
  startC: 10,
  airC: 5,
  elevationM: 1000,
  wind: 'screened',
  holdMinutes: 20,
};
const ask = (change: Partial<FuelUseQuestion>): FuelUseAnswer => answerFuelUse({ ...BASE, ...change });

const question: fc.Arbitrary<FuelUseQuestion> = fc
  .record({
    typeId: fc.constantFrom<StoveTypeId>(...STOVE_TYPE_IDS),
    fuelIndex: fc.nat(3),
    capacityL: fc.double({ min: 1, max: 12, noNaN: true }),
    material: fc.constantFrom(...VESSEL_MATERIAL_IDS),
    fill: fc.double({ min: 0.2, max: 0.8, noNaN: true }),
    startC: fc.double({ min: -15, max: 40, noNaN: true }),
    airC: fc.double({ min: 2, max: 30, noNaN: true }),
    elevationM: fc.double({ min: -100, max: 4500, noNaN: true }),
    wind: fc.constantFrom(...WINDS),
    lid: fc.constantFrom('loose', 'snug' as const),
    holdMinutes: fc.double({ min: 0, max: 180, noNaN: true }),
  })
  .map((r) => {
    const { fuelIds } = STOVE_TYPES[r.typeId];
    return {
      stove: { typeId: r.typeId },
      fuelId: fuelIds[r.fuelIndex % fuelIds.length] as FuelUseQuestion['fuelId'],
      vessel: { kind: 'pot', capacityL: r.capacityL, material: r.material, lid: r.lid as 'loose' | 'snug' },
      waterL: r.capacityL * r.fill,
      startC: r.startC,
      airC: r.airC,
      elevationM: r.elevationM,
      wind: r.wind,
      holdMinutes: r.holdMinutes,
    };
  });

/** The answer, or null where the flame is refused as too weak. */
function attempt(q: FuelUseQuestion): FuelUseAnswer | null {
  try {
    return answerFuelUse(q);
  } catch (error) {
    expect((error as Error).name).toBe('InvalidInputError');
    return null;
  }
}

describe('answerFuelUse holds for every stove, pot and place', () => {
  it('percentiles are finite, in order, and fuel is never below the floor', () => {
    fc.assert(
      fc.property(question, (q) => {
        const answer = attempt(q);
        if (answer === null) return;
        for (const p of [answer.heatToPotMJ, answer.fuelMJ, answer.minutesToBoil, answer.boiledOffL]) ordered(p);
        if (answer.fuelKg !== null) ordered(answer.fuelKg);
        expect(answer.fuelMJ.p50).toBeGreaterThan(answer.floorMJ);
        expect(answer.heatToPotMJ.p50).toBeGreaterThanOrEqual(answer.floorMJ);
        expect(answer.boiledOffL.p90).toBeLessThanOrEqual(q.waterL + 1e-9);
        const { heatUpMJ, holdMJ, startUpMJ } = answer.breakdown;
        expect(heatUpMJ + holdMJ + startUpMJ).toBeCloseTo(answer.fuelMJ.p50, 9);
      }),
    );
  });

  it('more water, a colder start, more wind and a longer hold never take less fuel', () => {
    fc.assert(
      fc.property(question, (q) => {
        const answer = attempt(q);
        if (answer === null) return;
        const more = [
          { ...q, waterL: q.waterL * 1.1 },
          { ...q, startC: q.startC - 5 },
          { ...q, holdMinutes: q.holdMinutes + 10 },
          { ...q, windFuelFactor: 4 },
        ];
        for (const other of more) {
          const harder = attempt(other);
          if (harder !== null) expect(harder.fuelMJ.p50).toBeGreaterThanOrEqual(answer.fuelMJ.p50 - 1e-9);
        }
      }),
    );
  });

  it('a tighter lid never takes more fuel nor boils off more', () => {
    fc.assert(
      fc.property(question, (q) => {
        const answers = LIDS.map((lid) =>
          attempt({ ...q, vessel: { ...(q.vessel as NonNullable<FuelUseQuestion['vessel']>), lid } }),
        );
        for (let i = 1; i < answers.length; i += 1) {
          const loose = answers[i - 1];
          const tight = answers[i];
          if (!loose || !tight) continue;
          expect(tight.fuelMJ.p50).toBeLessThanOrEqual(loose.fuelMJ.p50 + 1e-9);
          expect(tight.minutesToBoil.p50).toBeLessThanOrEqual(loose.minutesToBoil.p50 + 1e-9);
        }
      }),
    );
  });
});

describe('altitude and cold', () => {
  it('change time through the power of the flame, and energy only through the boiling point', () => {
    // Same end temperature at both places, so that only the power differs.
    const low = ask({ stove: { typeId: 'lpg-home' }, elevationM: 0, endC: 85, holdMinutes: 0 });
    const high = ask({ stove: { typeId: 'lpg-home' }, elevationM: 3000, endC: 85, holdMinutes: 0 });
    expect(high.fuelMJ.p50).toBeCloseTo(low.fuelMJ.p50, 9);
    expect(high.minutesToBoil.p50 / low.minutesToBoil.p50).toBeCloseTo((101.325 / 70.109) ** 0.5, 4);
  });

  it('butane is refused in frost, with a way out; propane is not', () => {
    expect(() => ask({ fuelId: 'butane', airC: -6 })).toThrow(/propane/);
    expect(ask({ fuelId: 'propane', airC: -6 }).fuelMJ.p50).toBeGreaterThan(0);
    expect(ask({ fuelId: 'butane', airC: 2 }).minutesToBoil.p50).toBeGreaterThan(ask({ airC: 2 }).minutesToBoil.p50);
  });

  it('ice is melted: a litre from -10 C takes more than twice the heat of one from 10 C to 60 C', () => {
    const ice = ask({ waterL: 1, startC: -10, endC: 60, holdMinutes: 0 });
    const water = ask({ waterL: 1, startC: 10, endC: 60, holdMinutes: 0 });
    expect(ice.floorMJ).toBeCloseTo((2.1 * 10 + 334 + 4.19 * 60) / 1000, 9);
    expect(ice.floorMJ / water.floorMJ).toBeGreaterThan(2);
  });
});

describe('hold', () => {
  it('burns the lowest steady flame where that is more than the pot loses, and the surplus leaves as steam', () => {
    const answer = ask({ wind: 'still', holdMinutes: 30 });
    expect(answer.breakdown.holdMJ).toBeCloseTo((0.8 * 30 * 60) / 1000, 6);
    expect(answer.boiledOffL.p50).toBeGreaterThan(0.15);
  });

  it('a lid saves 60 to 75 % of the simmer heat where the flame can go as low as the pot', () => {
    const plate = (lidDuringHold: 'none' | 'snug'): number =>
      ask({
        stove: { typeId: 'electric-plate', startUpMJ: 0 },
        fuelId: 'electricity',
        vessel: { kind: 'pot', capacityL: 4, material: 'stainless', lid: 'snug' },
        waterL: 2.7,
        airC: 20,
        elevationM: 0,
        wind: 'still',
        holdMinutes: 45,
        lidDuringHold,
      }).breakdown.holdMJ;
    const saved = 1 - plate('snug') / plate('none');
    expect(saved).toBeGreaterThan(0.6);
    expect(saved).toBeLessThan(0.76);
  });

  it('the lid of the hold counts for the hold, whatever covered the heat-up', () => {
    const plate = (lid: 'none' | 'loose' | 'snug', lidDuringHold: 'none' | 'loose' | 'snug'): number =>
      ask({
        stove: { typeId: 'electric-plate', startUpMJ: 0 },
        fuelId: 'electricity',
        vessel: { ...POT, lid },
        airC: 20,
        holdMinutes: 30,
        lidDuringHold,
      }).breakdown.holdMJ;
    for (const lid of LIDS) {
      expect(plate('none', lid)).toBeCloseTo(plate('snug', lid), 9);
      expect(plate('loose', lid)).toBeCloseTo(plate('snug', lid), 9);
    }
    expect(plate('snug', 'loose')).toBeGreaterThan(plate('snug', 'snug'));
  });

  it('a spirit burner without a valve burns at full power for the whole hold', () => {
    const answer = ask({
      stove: { typeId: 'alcohol-jet' },
      fuelId: 'denatured-alcohol',
      vessel: { kind: 'pot', capacityL: 1.5, lid: 'snug' },
      waterL: 1,
      wind: 'still',
      holdMinutes: 10,
    });
    expect(answer.breakdown.holdMJ).toBeCloseTo((STOVE_TYPES['alcohol-jet'].powerKW.value * 600) / 1000, 6);
  });

  it('below the boil no surplus leaves as steam and only the loss is burnt', () => {
    const warm = ask({ endC: 60, holdMinutes: 30, wind: 'still' });
    const boiling = ask({ holdMinutes: 30, wind: 'still' });
    expect(warm.boiledOffL.p50).toBeLessThan(0.01);
    expect(warm.breakdown.holdMJ).toBeLessThan(boiling.breakdown.holdMJ / 2);
  });

  it('a low flame takes less fuel and more time', () => {
    const low = ask({ stove: { typeId: 'propane-camp', flame: 'low' }, holdMinutes: 0 });
    const full = ask({ holdMinutes: 0 });
    expect(low.fuelMJ.p50).toBeLessThan(full.fuelMJ.p50);
    expect(low.minutesToBoil.p50).toBeGreaterThan(full.minutesToBoil.p50);
  });

  it('more flame never brings less heat into a pot, and beyond what the pot can take it passes by', () => {
    for (const typeId of STOVE_TYPE_IDS) {
      const { fuelIds, halfLoadKWPerM } = STOVE_TYPES[typeId];
      const minutes = [2, 4, 8, 16, 32].map(
        (powerKW) =>
          ask({
            stove: { typeId, powerKW },
            fuelId: fuelIds[0] as FuelUseQuestion['fuelId'],
            vessel: { kind: 'pot', capacityL: 1.5, material: 'stainless', lid: 'snug' },
            waterL: 1,
            holdMinutes: 0,
          }).minutesToBoil.p50,
      );
      for (let i = 1; i < minutes.length; i += 1)
        expect(minutes[i], `${typeId} at ${2 ** (i + 1)} kW`).toBeLessThanOrEqual(
          (minutes[i - 1] as number) * (1 + 1e-9),
        );
      // 32 kW under a pot of 15 cm: the time no longer falls, so that the fuel grows with the flame.
      if (halfLoadKWPerM !== null) expect(minutes[4]).toBeCloseTo(minutes[3] as number, 6);
    }
  });

  it('moist wood burns more slowly by what dries it: as much fuel heat, more mass and more minutes', () => {
    const boil = (fuelMoisturePercent?: number) =>
      ask({
        stove: { typeId: 'rocket' },
        fuelId: 'wood',
        holdMinutes: 0,
        ...(fuelMoisturePercent === undefined ? {} : { fuelMoisturePercent }),
      });
    const boils = [0, 10, 20, 30, 40, 60].map(boil);
    for (const key of ['minutesToBoil', 'fuelKg'] as const) {
      const values = boils.map((answer) => answer[key]?.p50 as number);
      expect(
        [...values].sort((a, b) => a - b),
        key,
      ).toEqual(values);
    }
    expect(boils[4]?.fuelMJ.p50).toBeCloseTo(boils[2]?.fuelMJ.p50 as number, 9);
    // The wood of the table is at about 20 %, for which nothing changes.
    expect((boils[2]?.minutesToBoil.p50 as number) / boil().minutesToBoil.p50).toBeCloseTo(1, 2);
    // 40 %: 19.0 - 1.63 of 19.0 - 0.61 MJ for each kg of dry wood.
    const flame = (answer: FuelUseAnswer): number => answer.breakdown.heatUpMJ / (answer.minutesToBoil.p50 - 4);
    expect(flame(boils[4] as FuelUseAnswer) / flame(boils[2] as FuelUseAnswer)).toBeCloseTo(17.37 / 18.39, 2);
  });

  it('wind blows a flame aside and only cools a plate', () => {
    const factor = (typeId: StoveTypeId, fuelId: FuelUseQuestion['fuelId']) => {
      const [calm, windy] = (['still', 'moderate'] as const).map(
        (wind) => ask({ stove: { typeId }, fuelId, wind, holdMinutes: 0 }).fuelMJ.p50,
      ) as [number, number];
      return windy / calm;
    };
    expect(factor('propane-camp', 'propane')).toBeGreaterThan(1.9);
    expect(factor('electric-plate', 'electricity')).toBeGreaterThan(1.15);
    expect(factor('electric-plate', 'electricity')).toBeLessThan(1.4);
  });

  it('a stronger flame under the same pot is less efficient', () => {
    const weak = ask({ stove: { typeId: 'lpg-home', powerKW: 1.5 }, holdMinutes: 0 });
    const strong = ask({ stove: { typeId: 'lpg-home', powerKW: 5 }, holdMinutes: 0 });
    expect(strong.fuelMJ.p50).toBeGreaterThan(1.3 * weak.fuelMJ.p50);
  });
});

describe('pressure cooker', () => {
  const cooker = { kind: 'pressure-cooker', capacityL: 6, material: 'stainless', gaugeKPa: 103.4 } as const;

  it('is heated to the temperature at its gauge pressure', () => {
    expect(resolveFuelUse({ ...BASE, vessel: cooker, elevationM: 0 }).task.endC).toBeCloseTo(121, 1);
    expect(resolveFuelUse({ ...BASE, vessel: cooker, elevationM: 3000 }).task.endC).toBeCloseTo(115.8, 1);
  });

  it('natural release costs neither fuel nor water, a quick one flashes about 4 %, one between them what is left', () => {
    const release = (minutes?: number) =>
      ask({
        vessel: cooker,
        elevationM: 0,
        holdMinutes: 0,
        ...(minutes === undefined ? {} : { releaseMinutes: minutes }),
      });
    const natural = release();
    const quick = release(0);
    expect(natural.fuelMJ.p50).toBe(quick.fuelMJ.p50);
    expect(natural.boiledOffL.p50).toBe(0);
    expect(quick.boiledOffL.p50 / 3).toBeGreaterThan(0.035);
    expect(quick.boiledOffL.p50 / 3).toBeLessThan(0.045);
    // 3 L hold 266 kJ above the boil, which the cooker loses in about half an hour.
    const flashed = [0, 1, 5, 15, 60].map((minutes) => release(minutes).boiledOffL.p50);
    expect([...flashed].sort((a, b) => b - a)).toEqual(flashed);
    expect(flashed[1]).toBeGreaterThan(0.9 * (flashed[0] as number));
    expect(flashed[3]).toBeGreaterThan(0);
    expect(flashed[4]).toBe(0);
  });

  it('on a plate that can go low, an hour under pressure boils off little', () => {
    const answer = ask({
      stove: { typeId: 'electric-plate' },
      fuelId: 'electricity',
      vessel: cooker,
      airC: 20,
      wind: 'still',
      holdMinutes: 60,
    });
    expect(answer.boiledOffL.p50).toBeLessThan(0.15);
  });
});

describe('start-up, own values, no vessel', () => {
  it('start-up fuel and minutes belong to a lighting; 0 MJ means that the stove already burns', () => {
    const cold = ask({ stove: { typeId: 'rocket' }, fuelId: 'wood' });
    const lit = ask({ stove: { typeId: 'rocket', startUpMJ: 0 }, fuelId: 'wood' });
    expect(lit.breakdown.startUpMJ).toBe(0);
    expect(cold.breakdown.startUpMJ).toBeCloseTo(1.0, 9);
    expect(cold.minutesToBoil.p50 - lit.minutesToBoil.p50).toBeCloseTo(4, 6);
    expect(cold.breakdown.heatUpMJ).toBeCloseTo(lit.breakdown.heatUpMJ, 9);
  });

  it('without a vessel only the heat asked for is charged', () => {
    const answer = ask({
      stove: { typeId: 'lpg-home', efficiency: 0.5, powerKW: 2 },
      vessel: null,
      waterL: 0,
      wind: 'still',
      holdMinutes: 0,
      elevationM: 0,
      extraHeatKJ: 500,
    });
    expect(answer.fuelMJ.p50).toBeCloseTo(1, 9);
    expect(answer.minutesToBoil.p50).toBeCloseTo(1000 / 2 / 60, 9);
  });

  it('wind multiplies the fuel of the heat-up, and an own factor replaces the word', () => {
    const still = ask({ wind: 'still', holdMinutes: 0, vessel: null });
    const windy = ask({ wind: 'still', windFuelFactor: 1.7, holdMinutes: 0, vessel: null });
    expect(windy.fuelMJ.p50 / still.fuelMJ.p50).toBeCloseTo(1.7, 9);
  });

  it('wetter wood takes more kilograms and the same energy', () => {
    const dry = ask({ stove: { typeId: 'rocket' }, fuelId: 'wood', fuelMoisturePercent: 12 });
    const wet = ask({ stove: { typeId: 'rocket' }, fuelId: 'wood', fuelMoisturePercent: 28 });
    expect(wet.fuelMJ.p50).toBeCloseTo(dry.fuelMJ.p50, 9);
    expect(wet.fuelKg?.p50).toBeGreaterThan(1.2 * (dry.fuelKg?.p50 as number));
  });

  it('the band is about as wide as measured tasks scatter', () => {
    for (const typeId of STOVE_TYPE_IDS) {
      const fuelId = STOVE_TYPES[typeId].fuelIds[0] as FuelUseQuestion['fuelId'];
      const answer = ask({ stove: { typeId }, fuelId, vessel: { ...POT, capacityL: 4 }, waterL: 2, wind: 'still' });
      const ratio = answer.fuelMJ.p90 / answer.fuelMJ.p10;
      expect(ratio).toBeGreaterThan(1.35);
      expect(ratio).toBeLessThan(2.4);
    }
  });
});

describe('refusals', () => {
  it('names what is wrong and what to do', () => {
    expect(() => ask({ fuelId: 'wood' })).toThrow(/burns propane/);
    expect(() => ask({ waterL: 6.5 })).toThrow(/larger pot/);
    expect(() => ask({ foods: [{ foodId: 'no-such-food', massG: 100 }] })).toThrow(/not a food/);
    expect(() => ask({ elevationM: 9001 })).toThrow(/9000/);
    expect(() => ask({ stove: { typeId: 'propane-camp', efficiency: 1.2 } })).toThrow(/efficiency/);
    expect(() =>
      ask({
        stove: { typeId: 'gel' },
        fuelId: 'ethanol-gel',
        vessel: { kind: 'pot', capacityL: 12, lid: 'none' },
        waterL: 8,
        wind: 'moderate',
      }),
    ).toThrow(/lid/);
  });
});

describe('explainFuelUse', () => {
  it('gives the same numbers, and steps whose inputs are all listed', () => {
    const asked: FuelUseQuestion = { ...BASE, foods: [{ foodId: 'lentil-brown', massG: 400 }] };
    const answer = answerFuelUse(asked);
    const steps = explainFuelUse(asked);
    const names = new Set(steps.map((step) => step.quantity));
    for (const step of steps) for (const input of step.inputs) expect(names).toContain(input);
    const value = (name: string): number => steps.find((step) => step.quantity === name)?.value as number;
    expect(value('heatUpMJ') + value('holdMJ') + value('startUpMJ')).toBeCloseTo(answer.fuelMJ.p50, 9);
    expect(value('fuelMJ') / value('fuel')).toBeCloseTo(answer.fuelKg?.p50 as number, 9);
    expect(value('flameKW') * value('heatUpMinutes') * value('powerShare') * 0.06 * value('cook')).toBeCloseTo(
      value('heatUpMJ'),
      9,
    );
    expect(value('contentsKJ')).toBeCloseTo(value('waterKJ') + value('foodsKJ'), 9);
    expect(value('waterKJ')).toBeCloseTo(value('waterL') * 4.19 * (value('endC') - value('startC')), 9);
    expect(value('sensibleKJ')).toBeCloseTo(
      value('contentsKJ') * value('measuring') + value('potKJ') * value('potMass'),
      9,
    );
    expect(value('intoPotKW')).toBeCloseTo((value('efficiencyHeatUp') * value('flameKW')) / value('wind'), 9);
  });

  it('names the causes of spread in words, largest first, adding up to one', () => {
    const { spread } = answerFuelUse(BASE);
    expect(spread[0]?.cause).toBe('stove efficiency');
    expect(spread.reduce((sum, row) => sum + row.share, 0)).toBeGreaterThan(0.99);
  });
});

function ordered(p: Percentiles): void {
  expect(Number.isFinite(p.p10) && Number.isFinite(p.p90)).toBe(true);
  expect(p.p10).toBeLessThanOrEqual(p.p50 + 1e-9);
  expect(p.p50).toBeLessThanOrEqual(p.p90 + 1e-9);
  expect(p.p10).toBeGreaterThanOrEqual(0);
}
