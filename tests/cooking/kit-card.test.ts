import { describe, expect, it } from 'vitest';
import { answerCookTime } from '../../api/cooking/calculators/answer-cook-time.ts';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import { type CardWay, type KitCard, kitCard } from '../../api/cooking/dishes/kit-card.ts';
import { ownFoodRow } from '../../api/cooking/foods/own-food.ts';
import { demoDocuments } from '../../api/storage/demo.ts';

const { household, kits } = demoDocuments('2026-12-05');
const STEW = kits.find((kit) => kit.id === 'red-bean-barley-stew') as Kit;

function way(card: KitCard, finish: CardWay['finish'], soaked: boolean): CardWay {
  const found = card.ways.find((one) => one.finish === finish && one.soaked === soaked);
  if (found === undefined) throw new Error(`no way ${finish}`);
  return found;
}

describe('a kit card', () => {
  const card = kitCard(STEW, household, null, null, 13);

  it('boils as the calculator says, here and at the sea', () => {
    const soak = { hours: card.soakHours ?? 0, waterC: card.indoorC, discardWater: true };
    const flame = way(card, 'flame', true);
    const here = answerCookTime({ foodId: 'kidney-bean', elevationM: 1780, soak });
    const sea = answerCookTime({ foodId: 'kidney-bean', elevationM: 0, soak });
    expect(flame.here.boil?.p50).toBeCloseTo(here.minutes.p50, 6);
    expect(flame.seaLevel.boil?.p50).toBeCloseTo(sea.minutes.p50, 6);
    expect(card.kidneyFamily).toEqual({
      names: ['Kidney beans'],
      minutesHere: here.lectin.boilMinutesNeeded,
      minutesAtSea: sea.lectin.boilMinutesNeeded,
    });
  });

  it('orders the ways as physics does: pressure before box before flame, in minutes and in fuel', () => {
    const minutes = (one: CardWay) => one.here.boil?.p50 ?? Number.NaN;
    expect(minutes(way(card, 'pressure', true))).toBeLessThan(minutes(way(card, 'box', true)));
    expect(minutes(way(card, 'box', true))).toBeLessThan(minutes(way(card, 'flame', true)));
    expect(minutes(way(card, 'flame', true))).toBeLessThan(minutes(way(card, 'flame', false)));
    const propane = (one: CardWay) => one.fuel.find(({ fuelId }) => fuelId === 'propane')?.kg?.p50 ?? Number.NaN;
    expect(propane(way(card, 'pressure', true))).toBeLessThan(propane(way(card, 'box', true)));
    expect(propane(way(card, 'box', true))).toBeLessThan(propane(way(card, 'flame', true)));
    // A three-stone or rocket fire holds no pressure cooker.
    expect(way(card, 'pressure', true).fuel.find(({ typeId }) => typeId === 'rocket')?.kg).toBeNull();
  });

  it('never sends unsoaked kidney beans to a box, and pours their first water away', () => {
    expect(card.ways.some(({ finish, soaked }) => finish === 'box' && !soaked)).toBe(false);
    expect(way(card, 'flame', false)).toMatchObject({ firstWater: 'poured-away' });
    expect(way(card, 'flame', false).firstWaterL).toBeGreaterThan(0.9);
  });

  it('says what the set is without each part, and the parts add up to the whole', () => {
    const total = card.nutrition.kcalPerServing * card.servings;
    const lost = card.parts.reduce((sum, part) => sum + part.without.kcal, 0);
    expect(lost).toBeCloseTo(total, 6);
    const beans = card.parts.find(({ partId }) => partId === 'beans');
    expect(beans?.without.boilMinutes).toBeLessThan(way(card, 'flame', true).here.boil?.p50 ?? 0);
    expect(beans?.soaks).toBe(true);
    expect(card.parts.find(({ partId }) => partId === 'seasoning')?.lateMinutes).toBeGreaterThan(0);
  });

  it('names what the household lacks, and serves without a household', () => {
    const bare = { ...household, vessels: household.vessels?.filter(({ kind }) => kind === 'pot') ?? [], boxes: [] };
    const lacking = kitCard(STEW, bare, null, null, 13);
    expect(way(lacking, 'pressure', true).atHand).toBe(false);
    expect(way(lacking, 'box', true).atHand).toBe(false);
    expect(way(lacking, 'flame', true).atHand).toBe(true);
    const nobody = kitCard(STEW, null, null, 3200, 18);
    expect(nobody.elevationM).toBe(3200);
    // Above about 2,900 m an open pot of kidney beans is refused (trade notes H11); pressure stays open.
    expect(way(nobody, 'flame', true).here.boil).toBeNull();
    expect(way(nobody, 'pressure', true).here.boil).not.toBeNull();
    expect(nobody.kidneyFamily?.minutesHere).toBeNull();
    expect(nobody.kidneyFamily?.minutesAtSea).toBeGreaterThanOrEqual(30);
  });

  it('leaves the fire out where none is needed', () => {
    const crackers = kits.find((kit) => kit.id === 'crackers-nut-butter-fruit') as Kit;
    const dry = kitCard(crackers, household, null, null, 13);
    expect(dry.ways.map(({ finish }) => finish)).toEqual(['no-fire']);
    expect(dry.ways[0]?.potWaterL).toBe(0);
  });

  it('carries allergens and guesses of own foods', () => {
    const ownFood = ownFoodRow({ id: 'own-beans', name: 'Own beans', foodClass: 'bean', allergens: ['sesame'] });
    const kit: Kit = {
      ...STEW,
      parts: [
        { id: 'beans', name: 'Beans', soakable: true, ingredients: [{ foodId: 'own-beans', ownFood, massG: 400 }] },
      ],
    };
    const own = kitCard(kit, null, null, null, 18);
    expect(own.nutrition.allergens).toEqual(['sesame']);
    expect(own.guessed[0]?.guessed).toContain('cooking minutes');
    expect(own.kidneyFamily?.names).toEqual(['Own beans']);
    expect(own.cautions.join(' ')).toMatch(/counts as kidney family/);
  });

  it('H12: beans in one bag with the rest have no soak on the card, and the reason stands there', () => {
    const mixed: Kit = {
      ...STEW,
      parts: [
        {
          id: 'all',
          name: 'All',
          soakable: true,
          ingredients: [
            { foodId: 'kidney-bean', massG: 300 },
            { foodId: 'milk-powder', massG: 60 },
          ],
        },
      ],
    };
    const one = kitCard(mixed, household, null, null, 13);
    expect(one.soakHours).toBeNull();
    expect(one.ways.every(({ soaked }) => !soaked)).toBe(true);
    expect(one.noSafeSoak?.wayOut).toMatch(/[Pp]ick the beans out/);
  });

  it('tells that old pulses take longer, the longer the warmer it lay', () => {
    expect(card.ageing.map(({ years }) => years)).toEqual([5, 10, 20]);
    const warm = kitCard(STEW, household, null, null, 28);
    for (const [index, row] of card.ageing.entries()) {
      expect(warm.ageing[index]?.factor.p50).toBeGreaterThan(row.factor.p50);
      expect(row.factor.p90).toBeGreaterThanOrEqual(row.factor.p50);
    }
    expect(kitCard(kits.find((kit) => kit.id === 'sweet-milk-rice') as Kit, household, null, null, 13).ageing).toEqual(
      [],
    );
  });
});
