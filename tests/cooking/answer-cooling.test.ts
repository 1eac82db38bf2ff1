/** Cooling of boxes, flasks and bare pots: properties, and readings of one's own. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerCooling } from '../../api/cooking/calculators/answer-cooling.ts';
import type { CoolingQuestion } from '../../api/cooking/calculators/calculator-types.ts';
import { explainCooling } from '../../api/cooking/derivations/explain-cooling.ts';
import { INSULATION_MATERIAL_IDS } from '../../api/physics/table-ids.ts';

const BOX: CoolingQuestion = {
  vessel: { kind: 'pot', capacityL: 6, material: 'aluminium', lid: 'snug' },
  fillL: 4.8,
  startC: 92,
  airC: 12,
  insulation: { materialId: 'eps', thicknessMm: 50 },
  hours: 5,
};
const FLASK: CoolingQuestion = {
  vessel: { kind: 'flask', capacityL: 1 },
  fillL: 1,
  startC: 95,
  airC: 20,
  hours: 8,
};

describe('answerCooling', () => {
  it('ends its rows at the hours asked, and cools all the way down', () => {
    for (const hours of [0.4, 3, 5.25, 12, 30]) {
      const rows = answerCooling({ ...BOX, hours }).temperatureC;
      expect(rows.at(-1)?.hours).toBe(hours);
      expect(rows[0]?.p50).toBe(92);
      for (let i = 1; i < rows.length; i += 1) {
        expect(rows[i]?.p50).toBeLessThan(rows[i - 1]?.p50 as number);
        expect(rows[i]?.p10).toBeLessThanOrEqual(rows[i]?.p50 as number);
        expect(rows[i]?.p90).toBeGreaterThanOrEqual(rows[i]?.p50 as number);
      }
    }
  });

  it('thicker and better insulation, a fuller and a larger pot keep heat longer', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...INSULATION_MATERIAL_IDS),
        fc.double({ min: 20, max: 200, noNaN: true }),
        fc.double({ min: 1, max: 20, noNaN: true }),
        (materialId, thicknessMm, capacityL) => {
          const q: CoolingQuestion = {
            ...BOX,
            vessel: { ...BOX.vessel, capacityL },
            fillL: 0.6 * capacityL,
            insulation: { materialId, thicknessMm },
          };
          const tau = (change: Partial<CoolingQuestion>): number =>
            answerCooling({ ...q, ...change }).timeConstantHours.p50;
          const usual = tau({});
          expect(tau({ insulation: { materialId, thicknessMm: thicknessMm * 1.3 } })).toBeGreaterThan(usual);
          expect(tau({ fillL: 0.9 * capacityL })).toBeGreaterThan(usual);
          expect(tau({ insulation: { materialId, thicknessMm, conductivityWPerMK: 0.02 } })).toBeGreaterThan(usual);
          expect(tau({ vessel: { ...BOX.vessel, capacityL: capacityL * 2 }, fillL: 1.2 * capacityL })).toBeGreaterThan(
            usual,
          );
        },
      ),
    );
  });

  it('a flask of a litre: 22 h, 13 to 55 h; larger ones keep longer, half full ones half as long', () => {
    const answer = answerCooling(FLASK);
    expect(answer.timeConstantHours.p50).toBeCloseTo(22, 9);
    expect(answer.timeConstantHours.p10).toBeCloseTo(13, 6);
    expect(answer.timeConstantHours.p90).toBeCloseTo(55, 6);
    const two = answerCooling({ ...FLASK, vessel: { kind: 'flask', capacityL: 2 }, fillL: 2 });
    expect(two.timeConstantHours.p50 / 22).toBeCloseTo(Math.cbrt(2), 9);
    expect(answerCooling({ ...FLASK, fillL: 0.5 }).timeConstantHours.p50).toBeCloseTo(11, 9);
  });

  it('small flasks, mostly jars with a wide mouth, keep far less long, and none keeps longer than a larger one', () => {
    const hours = [0.2, 0.35, 0.5, 0.7, 1, 1.5, 2].map(
      (capacityL) =>
        answerCooling({ ...FLASK, vessel: { kind: 'flask', capacityL }, fillL: capacityL }).timeConstantHours,
    );
    const typical = hours.map(({ p50 }) => p50);
    expect([...typical].sort((a, b) => a - b)).toEqual(typical);
    // Six jars with soup at 93 C: three held 60 C for 4 h, which is 6.6 h; ten others lost 17 K in an hour, 3.9 h.
    const jar = hours[2] as (typeof hours)[number];
    expect(jar.p10).toBeLessThan(5);
    expect(jar.p50).toBeGreaterThan(6);
    expect(jar.p50).toBeLessThan(9);
    expect(jar.p90).toBeGreaterThan(15);
  });

  it('one own reading replaces the textbook and narrows the band to about 20 %', () => {
    // A 2 L steel flask, private measurement: from 99.3 C, 8.9 K lost after 8 h, 23 K after 18 h, air 20 C.
    const answer = answerCooling({
      vessel: { kind: 'flask', capacityL: 2 },
      fillL: 2,
      startC: 99.3,
      airC: 20,
      reading: { hours: 8, temperatureC: 90.4, startC: 99.3, airC: 20 },
      hours: 18,
    });
    const { p10, p50, p90 } = answer.timeConstantHours;
    expect(p90 / p50).toBeCloseTo(1.2, 2);
    expect(p50 / p10).toBeCloseTo(1.2, 2);
    // The later reading of the same flask is met within 5 K of its drop of 23 K.
    expect(Math.abs((answer.temperatureC.at(-1)?.p50 as number) - 76.3)).toBeLessThan(5);
  });

  it('a bag of polystyrene beads, privately measured: 93 to 60 C in 5 h lies inside the band', () => {
    const answer = answerCooling({
      vessel: { kind: 'pot', capacityL: 4, material: 'stainless', lid: 'snug' },
      fillL: 3,
      startC: 93,
      airC: 18,
      insulation: { materialId: 'eps', thicknessMm: 50 },
      hours: 5,
    });
    const last = answer.temperatureC.at(-1);
    expect(last?.p10).toBeLessThan(60);
    expect(last?.p90).toBeGreaterThan(60);
    expect(Math.abs((last?.p50 as number) - 60)).toBeLessThan(5);
  });

  it('a bare pot cools within hours, an open one faster', () => {
    const bare: CoolingQuestion = { ...BOX, insulation: undefined };
    const lidded = answerCooling(bare).timeConstantHours.p50;
    const open = answerCooling({ ...bare, vessel: { ...BOX.vessel, lid: 'none' } }).timeConstantHours.p50;
    expect(lidded).toBeGreaterThan(2);
    expect(lidded).toBeLessThan(8);
    expect(open).toBeLessThan(0.8 * lidded);
    expect(lidded).toBeLessThan(answerCooling(BOX).timeConstantHours.p10);
  });

  it('a bare pot loses its first degrees fastest, and its hours above 60 C end in the row of that hour', () => {
    const open: CoolingQuestion = { ...BOX, insulation: undefined, vessel: { ...BOX.vessel, lid: 'none' }, hours: 4 };
    const { temperatureC, hoursAbove60C } = answerCooling(open);
    const drops = temperatureC.slice(1).map((row, i) => (temperatureC[i]?.p50 as number) - row.p50);
    expect([...drops].sort((a, b) => b - a)).toEqual(drops);
    // More than the same share each half hour: the excess falls faster while it is hot.
    const excess = temperatureC.map((row) => row.p50 - open.airC);
    expect((excess[1] as number) / (excess[0] as number)).toBeLessThan((excess[8] as number) / (excess[7] as number));
    for (const end of ['p10', 'p50', 'p90'] as const) {
      const until = answerCooling({ ...open, hours: hoursAbove60C[end] });
      expect(until.temperatureC.at(-1)?.[end]).toBeCloseTo(60, 0);
    }
  });

  it('a pot in a thin cover keeps at least about as long as a bare one', () => {
    const bare = answerCooling({ ...BOX, insulation: undefined }).hoursAbove60C.p50;
    for (const thicknessMm of [1, 5, 20])
      expect(
        answerCooling({ ...BOX, insulation: { materialId: 'towels', thicknessMm } }).hoursAbove60C.p50,
      ).toBeGreaterThan(0.8 * bare);
    // What the room does to a bare surface blurs a thin cover too.
    const thin = answerCooling({ ...BOX, insulation: { materialId: 'towels', thicknessMm: 2 } }).timeConstantHours;
    expect(thin.p90 / thin.p10).toBeGreaterThan(1.25);
  });

  it('a shut pressure cooker that is half full falls from 121 to 100 C in 10 to 30 min, as makers say', () => {
    const answer = answerCooling({
      vessel: { kind: 'pressure-cooker', capacityL: 6, material: 'stainless' },
      fillL: 3,
      startC: 121,
      airC: 20,
      hours: 0.5,
    });
    expect(answer.temperatureC.at(-1)?.p50).toBeLessThan(103);
    expect(answer.temperatureC.find((row) => row.hours === 0)?.p50).toBe(121);
    expect(answer.timeConstantHours.p50 * Math.log(101 / 80)).toBeGreaterThan(1 / 6);
  });

  it('counts the hours above 60 C, none for a start below', () => {
    const answer = answerCooling(BOX);
    const tau = answer.timeConstantHours.p50;
    expect(answer.hoursAbove60C.p50).toBeCloseTo(tau * Math.log(80 / 48), 9);
    expect(answerCooling({ ...BOX, startC: 55 }).hoursAbove60C).toEqual({ p10: 0, p50: 0, p90: 0 });
  });

  it('refuses contradictions', () => {
    expect(() => answerCooling({ ...BOX, startC: 5 })).toThrow(/below the air/);
    expect(() => answerCooling({ ...BOX, fillL: 7 })).toThrow(/fillL/);
    expect(() => answerCooling({ ...FLASK, reading: { hours: 6, temperatureC: 15 } })).toThrow(/reading/);
  });
});

describe('explainCooling', () => {
  it('lists every input, and the last value can be worked out again', () => {
    const answer = answerCooling(BOX);
    const steps = explainCooling(BOX);
    const names = new Set(steps.map((step) => step.quantity));
    for (const step of steps) for (const input of step.inputs) expect(names).toContain(input);
    const value = (name: string): number => steps.find((step) => step.quantity === name)?.value as number;
    const again =
      value('airC') + (value('startC') - value('airC')) * Math.exp(-value('hours') / value('timeConstantHours'));
    expect(again).toBeCloseTo(answer.temperatureC.at(-1)?.p50 as number, 9);
  });
});
