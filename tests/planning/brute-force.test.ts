import { describe, expect, it } from 'vitest';
import type { WeekInstance, WeekOption } from '../../api/planning/week/week-instance.ts';
import { bruteForce } from './brute-force.ts';

/** Two evenings, one meal each; figures of the hand instance in the design notes (planning-model 8.1). */
function handWeek(propaneKg: number, waterL: number): WeekInstance {
  const option = (slotId: string, day: number, id: string, own: Partial<WeekOption>): WeekOption =>
    ({
      id: `${slotId}-${id}`,
      slotId,
      kitId: id.split('-')[0] as string,
      sets: 1,
      servings: 4,
      hot: true,
      day,
      waterDay: day,
      lightingId: `fire-${day}`,
      minutes: 30,
      fuel: {},
      waterL: 0,
      uses: [{ resource: 'pot', period: day }],
      tendingMinutes: 10,
      energyKcal: 2000,
      ...own,
    }) as WeekOption;
  const both = (slotId: string, day: number, soaked: boolean) => [
    option(slotId, day, 'beans-flame', { fuel: { propane: 0.3 }, waterL: 3 }),
    ...(soaked ? [option(slotId, day, 'beans-box', { fuel: { propane: 0.06 }, waterL: 4 })] : []),
    option(slotId, day, 'rice-flame', { fuel: { propane: 0.1 }, waterL: 2 }),
  ];
  return {
    days: 2,
    slots: [0, 1].map((day) => ({ id: `s${day}`, day, period: day, wantServings: 4, hotWanted: true })),
    lightings: [0, 1].map((day) => ({
      id: `fire-${day}`,
      day,
      period: day,
      stoveId: 'burner',
      startUp: {},
      startUpMinutes: 0,
      minutesAvailable: 120,
      outdoors: true,
      tendingMinutes: 5,
      burnsAnyway: false,
    })),
    // The first evening comes too early for the eight-hour soak.
    options: [...both('s0', 0, false), ...both('s1', 1, true)],
    hotWater: [],
    hotWaterDays: [],
    treatments: [],
    sets: { beans: 2, rice: 1 },
    fuelByDay: { propane: [propaneKg, propaneKg] },
    safeWaterByDay: [waterL, waterL],
    treatableWaterByDay: [0, 0],
    lightingsPerDay: 2,
    outdoorMinutesPerDay: 180,
    needKcal: 4000,
  };
}

describe('the exhaustive search', () => {
  it('finds rice, then soaked beans, when that is all the fuel and water allow', () => {
    for (const water of [6, 7]) {
      const found = bruteForce(handWeek(0.16, water));
      expect(found.options).toEqual(['s0-rice-flame', 's1-beans-box']);
      expect(found.value.servingsShort).toBe(0);
      expect(found.value.largestShare).toBeCloseTo(1, 12);
      expect(found.tried).toBe(3 * 4);
    }
  });

  it.each([
    [0.15, 7],
    [0.16, 5.9],
    [0.4, 4.9],
    [0.09, 9],
  ])('misses one meal with %f kg and %f L', (propane, water) => {
    expect(bruteForce(handWeek(propane, water)).value.servingsShort).toBe(4);
  });

  it('pays a start-up once for two dishes on one fire, and refuses a thing taken twice', () => {
    const week = handWeek(1, 20);
    const [first, second] = week.slots as [(typeof week.slots)[0], (typeof week.slots)[0]];
    second.day = 0;
    for (const lighting of week.lightings) lighting.startUp = { propane: 0.05 };
    for (const option of week.options) {
      option.day = 0;
      option.lightingId = 'fire-0';
      option.uses = [{ resource: `pot-${option.slotId}`, period: 0 }];
    }
    expect(first.day).toBe(0);
    expect(bruteForce(week).value.sumOfShares).toBeCloseTo(0.16 + 0.05 + 6 / 20, 12);
    for (const option of week.options) option.uses = [{ resource: 'pot', period: 0 }];
    expect(bruteForce(week).value.servingsShort).toBe(4);
  });
});
