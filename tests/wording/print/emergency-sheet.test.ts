import { describe, expect, it } from 'vitest';
import { answerCookTime } from '../../../api/cooking/calculators/answer-cook-time.ts';
import { COOL_SOAK_C, emergencyFigures, PRESSURE_KPA } from '../../../api/cooking/calculators/emergency-figures.ts';
import { boilBeforeBox } from '../../../api/cooking/kinetics/box-cooking.ts';
import { OutOfRangeError } from '../../../api/physics/errors.ts';
import { emergencySheetHtml } from '../../../api/wording/print/emergency-sheet.ts';

/** The cells of a row by the name of its food. */
function row(html: string, name: string): string[] {
  const found = new RegExp(`<th scope="row">${name}</th>(.*?)</tr>`).exec(html)?.[1] ?? '';
  return [...found.matchAll(/<td>(.*?)<\/td>/g)].map((match) => (match[1] as string).replaceAll('\u00a0', ' '));
}

/** Minutes of "65–85 min" or "3¼–5 h". */
function minutesOf(cell: string): number[] {
  const factor = cell.endsWith(' h') ? 60 : 1;
  return cell
    .replace(/ (h|min)$/, '')
    .split('–')
    .map((text) => {
      const fraction = { '¼': 0.25, '½': 0.5, '¾': 0.75 }[text.slice(-1)] ?? 0;
      return (Number.parseFloat(text.replace(/[¼½¾]/, '') || '0') + fraction) * factor;
    });
}

describe('the emergency sheet', () => {
  it('says where water boils in words and both units, and how long a boil makes it safe', () => {
    // 1,780 m in the standard atmosphere: 94.0 C (the boiling-point tests hold that figure).
    const high = emergencySheetHtml(1780, 'metric');
    expect(high).toContain('At 1780\u00a0m (5840\u00a0ft) water boils at 94\u00a0°C (201\u00a0°F).');
    // EPA: 1 min, 3 min above 5,000 ft.
    expect(high).toContain('Boil it 3\u00a0min with big bubbles');
    expect(emergencySheetHtml(0, 'us')).toContain('At sea level water boils at 212\u00a0°F (100\u00a0°C).');
    expect(emergencySheetHtml(0, 'us')).toContain('Boil it 1\u00a0min with big bubbles');
    // EPA: 2 drops a litre, 8 a gallon, twice that in cloudy water; rounded up where it is not whole.
    expect(high).toContain('2 drops in 1\u00a0L, 5 if cloudy');
    expect(emergencySheetHtml(0, 'us')).toContain('8 drops in 1\u00a0gal, 16 if cloudy');
  });

  it.each([0, 900, 1780, 2900])('has minutes at %i m that are never shorter than the calculators say', (elevationM) => {
    const html = emergencySheetHtml(elevationM, 'metric');
    const beans = row(html, 'Common beans');
    const soakHours = Number.parseInt(beans[0] ?? '', 10);
    expect(soakHours).toBeGreaterThanOrEqual(5);
    const soaked = minutesOf(beans[1] ?? '');
    const unsoaked = minutesOf(beans[2] ?? '');
    for (const foodId of ['kidney-bean', 'black-bean', 'pinto-bean', 'navy-bean', 'small-red-bean']) {
      const soak = { hours: soakHours, waterC: COOL_SOAK_C, discardWater: true };
      const answer = answerCookTime({ foodId, elevationM, soak });
      expect(answer.lectin.verdict).toBe('safe');
      expect(soaked[0]).toBeGreaterThanOrEqual(Math.max(answer.minutes.p50, answer.lectin.boilMinutesNeeded) - 1e-9);
      expect(soaked[1]).toBeGreaterThanOrEqual(answer.minutes.p90 - 1e-9);
      const dry = answerCookTime({ foodId, elevationM, firstWater: 'poured-away' });
      expect(unsoaked[1]).toBeGreaterThanOrEqual(dry.minutes.p90 - 1e-9);
    }
    const rice = minutesOf(row(html, 'White rice')[2] ?? '');
    const plain = answerCookTime({ foodId: 'white-rice', elevationM }).minutes;
    expect(rice[0]).toBeGreaterThanOrEqual(plain.p50 - 1e-9);
    // Rounded to a kitchen's step, not doubled.
    expect(rice[0]).toBeLessThanOrEqual(plain.p50 + 5);
  });

  it('boils beans for the lectin rule before a box, which must end above 60 C', () => {
    for (const elevationM of [0, 1780, 2900]) {
      const [beans] = emergencyFigures([elevationM]).foods;
      const boiling = emergencyFigures([elevationM]).elevations[0]?.boilingPointC ?? 0;
      const rule = boilBeforeBox({
        foodId: 'kidney-bean',
        temperatureC: boiling,
        hydrationShare: 1,
        soakedAndDrained: true,
        boxStartC: boiling,
        airC: 20,
        timeConstantHours: 1000,
        boxMinutes: 240,
      });
      expect(beans?.at[0]?.beforeBox).toBeGreaterThanOrEqual(rule.lectinBoilMinutes);
    }
    // At 5,000 m a pot boils at 83 C and a box of four hours falls below 60 C.
    const high = emergencySheetHtml(5000, 'metric');
    expect(row(high, 'Red lentils')[3]).toBe('no box');
    expect(high).toContain('<b>Box:</b> none.');
  });

  it('refuses beans in an open pot where it is too cool, and says what does', () => {
    const high = emergencySheetHtml(3500, 'metric');
    expect(row(high, 'Common beans').slice(1, 4)).toEqual(['not in an open pot', 'not in an open pot', 'no box']);
    expect(high).toContain('pressure cooker');
    // No way out is offered that the rule refuses.
    expect(high).not.toContain('boil until soft, no box');
    expect(row(emergencySheetHtml(6000, 'metric'), 'Chickpeas')[1]).toBe('over 8 h');
    expect(minutesOf(row(high, 'White rice')[2] ?? '')[0]).toBeGreaterThan(15);
  });

  it('gives minutes under pressure, where kidney-type beans pass the lectin rule too', () => {
    for (const elevationM of [0, 1780, 3500]) {
      const [beans] = emergencyFigures([elevationM]).foods;
      const answer = answerCookTime({
        foodId: 'kidney-bean',
        elevationM,
        gaugeKPa: PRESSURE_KPA,
        soak: { hours: beans?.soakHours?.least ?? 0, waterC: COOL_SOAK_C, discardWater: true },
      });
      expect(answer.lectin.verdict).toBe('safe');
      expect(beans?.at[0]?.pressure?.typical).toBeGreaterThanOrEqual(answer.lectin.boilMinutesNeeded);
      expect(beans?.at[0]?.pressure?.high).toBeGreaterThanOrEqual(answer.minutes.p90 - 1e-9);
    }
    expect(emergencySheetHtml(3500, 'us')).toMatch(
      /13\u00a0psi \(90\u00a0kPa\), air let out first, soaked: common beans \d/,
    );
  });

  it('has columns for three heights where none is given, and each is that of its own sheet', () => {
    const blank = emergencySheetHtml(null, 'metric');
    for (const [index, elevationM] of [0, 1500, 3000].entries()) {
      const own = emergencySheetHtml(elevationM, 'metric');
      expect(row(blank, 'Chickpeas')[1 + index]).toBe(row(own, 'Chickpeas')[1]);
      expect(row(blank, 'Cornmeal')[1 + index]).toBe(row(own, 'Cornmeal')[2]);
    }
    expect(blank).toContain('Boil at 1500\u00a0m');
    expect(emergencySheetHtml(null, 'us')).toContain('Boil at 4920\u00a0ft');
    expect(blank).toContain('Between two heights, use the higher');
  });

  it('gives enough water, in kitchen measures', () => {
    // 1 cup of rice takes 1½ cups, oats about 2 cups a cup less what is held when thick: common practice, 1¼ to 2.
    const metric = emergencySheetHtml(0, 'metric');
    expect(row(metric, 'White rice').slice(-2)).toEqual(['180 mL', '1½ cups']);
    expect(row(emergencySheetHtml(0, 'us'), 'White rice').at(-2)).toMatch(/^3½ cups$/);
    const { foods } = emergencyFigures([0]);
    for (const food of foods) {
      const cell = row(metric, food.name).at(-2) ?? '';
      expect(Number.parseFloat(cell) / 100).toBeGreaterThanOrEqual(food.potWaterLPerKg - 1e-9);
    }
  });

  it('names the harm of each danger, defers to codes and makers, and tells how to do without clock and thermometer', () => {
    for (const html of [emergencySheetHtml(null, 'us'), emergencySheetHtml(1780, 'metric')]) {
      for (const text of [
        'Carbon monoxide kills',
        'violent vomiting',
        'cyanide',
        'diarrhoea',
        'burn people',
        "Local codes, fire bans and makers' instructions come before this sheet.".replaceAll("'", '&#39;'),
        'No clock',
        'No thermometer',
        'Fuel left',
      ])
        expect(html).toContain(text);
      expect(html).not.toMatch(/<script| style=|undefined|NaN|null|Infinity/);
    }
    expect(emergencySheetHtml(1780, 'us')).toContain('20\u00a0ft (6\u00a0m)');
  });

  it('asks back on the screen where an elevation looks like feet', () => {
    expect(emergencySheetHtml(5000, 'metric')).toMatch(/class="screen-only"><b>Please check:<\/b> Is 5000/);
    expect(emergencySheetHtml(1780, 'metric')).not.toContain('Please check');
  });

  it('refuses what is no place to cook', () => {
    expect(() => emergencySheetHtml(Number.NaN, 'metric')).toThrow(OutOfRangeError);
    expect(() => emergencySheetHtml(9500, 'metric')).toThrow(OutOfRangeError);
  });
});
