/** The sparing way of tending a fire: a small flame from the start, and a covered pot that softens on off the fire. */
import { describe, expect, it } from 'vitest';
import { computeMethod, noHeatMethod } from '../../api/cooking/dishes/cooking-methods.ts';
import { isRefusal } from '../../api/cooking/dishes/dish.ts';
import { canTurnDown, fireWays, isSparing, STAND_MINUTES } from '../../api/cooking/dishes/fire-ways.ts';
import { STOVE_TYPES } from '../../api/physics/stoves-table.ts';
import type { StoveTypeId } from '../../api/physics/table-ids.ts';
import { calculations, choice, cook, kit, MILD, passed, pot } from './tried-dish.ts';

const PASTA = kit('pasta', { pasta: 450 });
const RICE = kit('rice', { 'white-rice': 400 });

describe('a small flame under a lid', () => {
  const types = (Object.keys(STOVE_TYPES) as StoveTypeId[]).filter((typeId) => {
    const one = choice(typeId);
    return (
      canTurnDown(one.stove) &&
      one.fuelId !== 'electricity' &&
      !isRefusal(computeMethod(RICE, 4, one, MILD, null, calculations))
    );
  });

  it('is looked at on every stove that burns and can be turned down', () => {
    expect(types.length).toBeGreaterThanOrEqual(6);
  });

  // Efficiency rises as the power for each width of the pot falls (gas hobs at several flames; small fires of wood).
  it.each(types)('takes less fuel and more minutes than full flame: %s', (typeId) => {
    const full = cook(RICE, choice(typeId));
    const answer = computeMethod(RICE, 4, { ...choice(typeId), flame: 'low' }, MILD, null, calculations);
    // A gel burner has one fill, which the longer way does not fit.
    if (isRefusal(answer) && typeId === 'gel') return;
    const small = passed(answer);
    expect(small.fuelMJ.p50).toBeLessThan(full.fuelMJ.p50);
    expect(small.minutesToBoil.p50).toBeGreaterThan(full.minutesToBoil.p50);
    expect(small.holdMinutes).toEqual(full.holdMinutes);
  });
});

describe('a pot that stands off the fire', () => {
  const way = choice('lpg-home');
  const stands = { ...way, standMinutes: STAND_MINUTES };

  it('boils for less and rests for more', () => {
    const boiled = cook(RICE, way);
    const stood = cook(RICE, stands);
    expect(stood.holdMinutes.p50).toBeLessThan(boiled.holdMinutes.p50);
    expect(stood.restMinutes).toBe(STAND_MINUTES);
    expect(stood.fuelMJ.p50).toBeLessThan(boiled.fuelMJ.p50);
    expect(stood.reachedC).toBeGreaterThan(60);
  });

  it('saves on pasta no more than its makers found: up to 47 % with the flame out after 2 min and the lid on', () => {
    // A pasta makers' association on passive cooking: up to -47 % of the energy. Here too the whole pot boils for 2 min.
    const open = cook(PASTA, choice('lpg-home', 'none')).fuelMJ.p50;
    const saved = 1 - cook(PASTA, stands).fuelMJ.p50 / open;
    expect(saved).toBeGreaterThan(0.1);
    expect(saved).toBeLessThan(0.47);
  });

  it('is refused in a frost that takes it below 60 C, and then boils to the end', () => {
    const frost = { ...MILD, outdoorC: -30 };
    const small = { ...kit('rice', { 'white-rice': 60 }), servings: 1 };
    const answer = computeMethod(
      small,
      1,
      { ...stands, vessel: { ...pot('snug'), capacityL: 1 } },
      frost,
      null,
      calculations,
    );
    expect(isRefusal(answer) && answer.reason).toMatch(/off the fire the pot may have fallen to \d\d? °C|off the fire/);
  });

  it('takes nothing off the boil that kidney-family beans need', () => {
    const beans = kit('stew', { 'black-bean': 300 });
    const unsoaked = computeMethod(beans, 4, stands, MILD, null, calculations);
    expect(isRefusal(unsoaked)).toBe(true);
    const soak = { hours: 12, waterC: 18, additive: 'none' as const };
    const soaked = cook(beans, { ...stands, soak });
    expect(soaked.needs.lectin.verdict).toBe('safe');
    expect(soaked.holdMinutes.p10).toBeGreaterThanOrEqual(soaked.needs.lectin.boilMinutesNeeded);
  });
});

describe('the ways of a choice', () => {
  it('spare more one after the other where a lid is on, and are one where none is', () => {
    const ways = fireWays(choice('lpg-home'), true);
    expect(ways[0]).toEqual(choice('lpg-home'));
    expect(ways[1]).toEqual({ ...choice('lpg-home'), standMinutes: STAND_MINUTES });
    expect(ways[2]).toMatchObject({ flame: 'low', standMinutes: STAND_MINUTES });
    const fuel = ways.map((way) => cook(RICE, way).fuelMJ.p50);
    expect([...fuel].sort((a, b) => b - a)).toEqual(fuel);
    expect(fireWays(choice('lpg-home', 'none'), true)).toHaveLength(1);
    expect(fireWays(choice('alcohol-jet'), false).some(isSparing)).toBe(canTurnDown(choice('alcohol-jet').stove));
  });

  it('leave a pressure cooker its strong flame until the pressure is there', () => {
    const cooker = { ...pot('snug'), kind: 'pressure-cooker' as const, gaugeKPa: 90 };
    expect(fireWays({ ...choice('lpg-home'), vessel: cooker }, true)).toHaveLength(1);
  });

  it('let nothing stand that goes into a box, or of which a second meal is boxed', () => {
    const boxed = { ...choice('lpg-home'), finish: 'box' as const };
    for (const way of [...fireWays(boxed, true), ...fireWays(choice('lpg-home'), false)])
      expect(way.standMinutes).toBeUndefined();
  });
});

describe('grain that was steamed when it was made', () => {
  it('is eaten after standing in cold water; what is raw is not', () => {
    const bulgur = passed(noHeatMethod(kit('porridge', { bulgur: 300, raisins: 40 }), 4));
    expect(bulgur.standMinutes).toBe(90);
    // Wetted food is eaten within two hours.
    expect(bulgur.standMinutes).toBeLessThan(120);
    expect(isRefusal(noHeatMethod(kit('porridge', { 'rolled-oats': 300, 'whole-milk-powder': 80 }), 4))).toBe(false);
    for (const raw of ['cornmeal', 'white-rice', 'steel-cut-oats', 'pasta'])
      expect(isRefusal(noHeatMethod(kit('porridge', { [raw]: 300 }), 4)), raw).toBe(true);
  });
});
