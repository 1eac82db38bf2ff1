/** Sequences that follow simple rules and still hurt: what the soak, the boil and the box must answer. */
import { describe, expect, it } from 'vitest';
import { answerCookTime } from '../../api/cooking/calculators/answer-cook-time.ts';
import { answerSoaking } from '../../api/cooking/calculators/answer-soaking.ts';
import { explainCookTime } from '../../api/cooking/derivations/explain-cook-time.ts';
import { findFood } from '../../api/cooking/foods/foods-table.ts';
import { boilBeforeBox } from '../../api/cooking/kinetics/box-cooking.ts';
import {
  boilPassesLectinRule,
  lectinCreditPerMinute,
  lectinMinutesAt,
  lectinVerdict,
  minSoakHoursForLectin,
} from '../../api/cooking/kinetics/lectin-rule.ts';
import { boilingPointAtElevationC } from '../../api/physics/boiling-point.ts';

const SOAKED = { start: 'cool', hours: 12, waterC: 20, discardWater: true } as const;
const BOX = { boxStartC: 97, airC: 15, timeConstantHours: 11, boxMinutes: 240 };

describe('H1: five hours in a house at 2 C', () => {
  const cold = { start: 'cool', hours: 5, waterC: 2, discardWater: true } as const;
  it('leaves kidney beans about half hydrated', () => {
    const share = answerSoaking({ foodId: 'kidney-bean', hours: 5, waterC: 2 }).hydrationShare.p50;
    expect(share).toBeGreaterThan(0.45);
    expect(share).toBeLessThan(0.65);
  });
  it('does not count as a soak, and says what does', () => {
    const { lectin } = answerCookTime({ foodId: 'kidney-bean', elevationM: 0, soak: cold });
    expect(lectin.verdict).toBe('refused');
    expect(lectin.reason).toContain('%');
    expect(lectin.wayOut).not.toBeNull();
    const needed = minSoakHoursForLectin(2);
    expect(needed).toBeGreaterThan(8);
    expect(lectin.wayOut).toContain(`Soak at least ${Math.ceil(needed)} h in water this cold`);
    // A hair short of the limit is not shown as the limit.
    const almost = { ...cold, hours: needed - 0.05 };
    expect(answerCookTime({ foodId: 'kidney-bean', elevationM: 0, soak: almost }).lectin.reason).toContain('only 79 %');
    const longer = { ...cold, hours: Math.ceil(needed) };
    expect(answerCookTime({ foodId: 'kidney-bean', elevationM: 0, soak: longer }).lectin.verdict).toBe('safe');
  });
  it('starts the clock only after the missing hydration time', () => {
    const nearlyFull = { ...SOAKED, hours: minSoakHoursForLectin(10) + 0.1, waterC: 10 };
    const part = answerCookTime({ foodId: 'kidney-bean', temperatureC: 100, soak: nearlyFull });
    const full = answerCookTime({ foodId: 'kidney-bean', temperatureC: 100, soak: { ...SOAKED, waterC: 22 } });
    expect(full.lectin.boilMinutesNeeded).toBeCloseTo(30, 6);
    // A fifth of 25 min at the most, by the share of 0.8.
    expect(part.lectin.boilMinutesNeeded - 30).toBeGreaterThan(3);
    expect(part.lectin.boilMinutesNeeded - 30).toBeLessThan(5.1);
    expect(boilPassesLectinRule({ temperatureC: 100, minutes: 33, hydrationMinutes: 5 })).toBe(false);
    expect(boilPassesLectinRule({ temperatureC: 100, minutes: 35, hydrationMinutes: 5 })).toBe(true);
  });
});

it('H3: a quick soak left covered overnight is past its limit', () => {
  const overnight = answerSoaking({ foodId: 'kidney-bean', hours: 10, waterC: 98, start: 'hot', airC: 18 });
  expect(overnight.safe).toBe(false);
  expect(overnight.limitHours).toBe(2);
  expect(answerSoaking({ foodId: 'kidney-bean', hours: 1, waterC: 98, start: 'hot', airC: 18 }).safe).toBe(true);
});

describe('H6: beans that nobody can name', () => {
  it('an unknown bean and a lima bean are treated as kidney family, broad beans carry a note on favism', () => {
    for (const foodId of ['unknown-bean', 'lima-bean'])
      expect(answerCookTime({ foodId, elevationM: 0 }).lectin.verdict).toBe('refused');
    expect(answerCookTime({ foodId: 'lima-bean', elevationM: 0, soak: SOAKED }).advice).toContain('open pot');
    expect(answerCookTime({ foodId: 'fava-bean', elevationM: 0 }).advice).toContain('favism');
    expect(answerCookTime({ foodId: 'fava-bean', elevationM: 0 }).lectin.verdict).toBe('not-applicable');
  });
  it('tinned beans are exempt', () => {
    const answer = answerCookTime({ foodId: 'tinned-beans', elevationM: 4000 });
    expect(answer.lectin.verdict).toBe('not-applicable');
    expect(answer.minutes).toEqual({ p10: 0, p50: 0, p90: 0 });
  });
  it('every common bean of the table is in the family, no other pulse is', () => {
    const family = ['kidney-bean', 'black-bean', 'pinto-bean', 'navy-bean', 'great-northern-bean', 'small-red-bean'];
    for (const id of family) expect(findFood(id)?.lectin, id).toBe('kidney-family');
    for (const id of ['chickpea', 'black-eyed-pea', 'adzuki-bean', 'mung-bean', 'soybean', 'lentil-brown', 'whole-pea'])
      expect(findFood(id)?.lectin, id).toBe('none');
  });
});

describe('H7: credit above 100 C', () => {
  it('counts z 30 above and z 22 below, nothing under 89.5 C', () => {
    expect(lectinCreditPerMinute(130)).toBeCloseTo(10, 9);
    expect(lectinCreditPerMinute(100)).toBe(1);
    expect(lectinCreditPerMinute(89.5)).toBeCloseTo(10 ** (-10.5 / 22), 9);
    expect(lectinCreditPerMinute(89.49)).toBe(0);
  });
  it('counts pressure only from when it is seen', () => {
    const { lectin } = answerCookTime({ foodId: 'black-bean', elevationM: 0, gaugeKPa: 103, soak: SOAKED });
    expect(lectin.verdict).toBe('safe');
    expect(lectin.reason).toContain('valve');
    // No allowance for weather: the gauge is read.
    const { temperatureC } = answerCookTime({ foodId: 'black-bean', elevationM: 0, gaugeKPa: 103, soak: SOAKED });
    expect(lectin.boilMinutesNeeded).toBeLessThan(lectinMinutesAt(temperatureC) + 0.5);
  });
});

it('H8: the minutes are those of a boil that is seen, restarted when it stops', () => {
  const { lectin } = answerCookTime({ foodId: 'black-bean', elevationM: 1500, soak: SOAKED });
  expect(lectin.reason).toContain('rolling boil');
  expect(lectin.reason).toContain('again if it stops');
});

describe('H11: an open pot high up, and a winter low', () => {
  it('passes at 2,900 and 3,000 m, is refused at 3,200 m, with pressure as the way out', () => {
    expect(boilingPointAtElevationC(3200)).toBeLessThan(89.5);
    for (const elevationM of [0, 2900, 3000])
      expect(answerCookTime({ foodId: 'kidney-bean', elevationM, soak: SOAKED }).lectin.verdict).toBe('safe');
    const { lectin } = answerCookTime({ foodId: 'kidney-bean', elevationM: 3200, soak: SOAKED });
    expect(lectin.verdict).toBe('refused');
    expect(lectin.wayOut).toContain('pressure cooker');
    const cooker = answerCookTime({ foodId: 'kidney-bean', elevationM: 3200, gaugeKPa: 100, soak: SOAKED });
    expect(cooker.lectin.verdict).toBe('safe');
  });
  it('never says that the limit itself is below the limit', () => {
    // 3,150 m boils at 89.46 C, which rounds to the limit of 89.5 C.
    const { lectin } = answerCookTime({ foodId: 'kidney-bean', elevationM: 3150, soak: SOAKED });
    expect(lectin.reason).toContain('reaches 89.4 C');
  });
  it('also refuses the unsoaked way there', () => {
    const q = { foodId: 'kidney-bean', elevationM: 3200, firstWater: 'poured-away' } as const;
    expect(answerCookTime(q).lectin.verdict).toBe('refused');
  });
  it('is paid in minutes, 15 %, unless the temperature was measured', () => {
    const elevationM = 2500;
    const soak = { ...SOAKED, waterC: 22 };
    const known = answerCookTime({ foodId: 'kidney-bean', temperatureC: boilingPointAtElevationC(elevationM), soak });
    const guessed = answerCookTime({ foodId: 'kidney-bean', elevationM, soak });
    expect(guessed.lectin.boilMinutesNeeded / known.lectin.boilMinutesNeeded).toBeCloseTo(1.15, 6);
    expect(answerCookTime({ foodId: 'kidney-bean', temperatureC: 89.5, soak }).lectin.verdict).toBe('safe');
    expect(answerCookTime({ foodId: 'kidney-bean', temperatureC: 89.4, soak }).lectin.verdict).toBe('refused');
  });
  it('holds for the boil before a box as well', () => {
    const q = { foodId: 'kidney-bean', hydrationShare: 1, soakedAndDrained: true, ...BOX };
    expect(boilBeforeBox({ ...q, temperatureC: 95 }).lectinBoilMinutes).toBeCloseTo(1.15 * lectinMinutesAt(95), 6);
    expect(boilBeforeBox({ ...q, temperatureC: 95, temperatureMeasured: true }).lectinBoilMinutes).toBeCloseTo(
      lectinMinutesAt(95),
      6,
    );
    expect(boilBeforeBox({ ...q, temperatureC: 89 }).verdict).toBe('refused');
  });
});

describe('H13: unsoaked kidney-family beans', () => {
  it('are refused in the water they came to the boil in, with the way out', () => {
    for (const firstWater of [undefined, 'kept'] as const) {
      const q = { foodId: 'kidney-bean', elevationM: 0, ...(firstWater === undefined ? {} : { firstWater }) };
      const { lectin } = answerCookTime(q);
      expect(lectin.verdict).toBe('refused');
      expect(lectin.wayOut).toContain('pour that water away');
    }
  });
  it('pass when that water is poured away, after hydration and a boil to softness', () => {
    const answer = answerCookTime({ foodId: 'kidney-bean', elevationM: 0, firstWater: 'poured-away' });
    expect(answer.lectin.verdict).toBe('safe');
    expect(answer.lectin.boilMinutesNeeded).toBeGreaterThanOrEqual(answer.minutes.p50);
    // In a pressure cooker the rule can ask for longer than softness does.
    const quick = answerCookTime({
      foodId: 'kidney-bean',
      elevationM: 0,
      gaugeKPa: 103,
      firstWater: 'poured-away',
      cookingAdditive: 'bicarbonate',
    });
    expect(quick.lectin.boilMinutesNeeded).toBeGreaterThan(quick.minutes.p50);
  });
  it('never go into a box', () => {
    const q = { foodId: 'kidney-bean', temperatureC: 99, hydrationShare: 0, soakedAndDrained: false, ...BOX };
    expect(boilBeforeBox(q).verdict).toBe('refused');
    expect(boilBeforeBox({ ...q, soakedAndDrained: true, hydrationShare: 0.79 }).verdict).toBe('refused');
    expect(boilBeforeBox({ ...q, soakedAndDrained: true, hydrationShare: 0.8 }).verdict).toBe('ok');
  });
});

describe('the soak of the rule', () => {
  it('a quick hot soak of an hour is not one of five hours', () => {
    const soak = { start: 'hot', hours: 1, waterC: 98, airC: 20, discardWater: true } as const;
    const { lectin } = answerCookTime({ foodId: 'kidney-bean', elevationM: 0, soak });
    expect(lectin.verdict).toBe('refused');
    expect(lectin.reason).toContain('quick hot soak');
  });
  it('its water must be poured away', () => {
    const kept = { ...SOAKED, discardWater: false };
    expect(answerCookTime({ foodId: 'kidney-bean', elevationM: 0, soak: kept }).lectin.verdict).toBe('refused');
  });
  it('counts from exactly five hours and exactly four fifths', () => {
    const q = {
      food: { lectin: 'kidney-family' },
      temperatureC: 100,
      standardBoilingPointC: null,
      underPressure: false,
      hydrationMinutes: 0,
      minutesToSoft: 85,
    } as const;
    const verdict = (hours: number, hydrationShare: number) =>
      lectinVerdict({ ...q, soak: { hours, hydrationShare, waterDiscarded: true } }).verdict;
    expect(verdict(5, 0.8)).toBe('safe');
    expect(verdict(4.99, 1)).toBe('refused');
    expect(verdict(12, 0.799)).toBe('refused');
  });
});

it('H14: beans that may never soften say so, and name the test of twenty', () => {
  const storage = { years: 12, temperatureC: 25, moisturePercent: 12 };
  expect(answerCookTime({ foodId: 'navy-bean', elevationM: 0, soak: SOAKED, storage }).advice).toContain('twenty');
  // Neither old nor so dry that seeds close.
  const kept = { years: 3, temperatureC: 12, moisturePercent: 10 };
  expect(answerCookTime({ foodId: 'navy-bean', elevationM: 0, soak: SOAKED, storage: kept }).advice).toBeNull();
});

it('the explanation of a refusal carries verdict and source', () => {
  const steps = explainCookTime({ foodId: 'kidney-bean', elevationM: 0 });
  const verdict = steps.find((step) => step.quantity === 'lectinVerdict');
  expect(verdict?.value).toBe('refused');
  expect(verdict?.source.key).toBe('fda-bad-bug-book');
});
