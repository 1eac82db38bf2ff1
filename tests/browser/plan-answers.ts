/** Answers as the server gives them, small enough to be summed by head, for tests of what the page makes of them. */
import type { Advice, Endurance, EndurancePoint, TradeOff, TradeOffPoint } from '../../web/api-types.ts';

const all = (value: number) => ({ p10: value, p50: value, p90: value });

/** Each day takes 10 L of water and 100 g of propane, planned at 120 g, of 100 L and a budget of 1.2 kg. */
function pointOf(days: number): EndurancePoint {
  return {
    days,
    lastDate: `2026-12-${String(4 + days).padStart(2, '0')}`,
    everybodyFed: days <= 9,
    everybodyFedHot: days <= 7,
    servingsShort: days <= 9 ? 0 : 4.5,
    fuel: [
      {
        fuelId: 'propane',
        usedKg: { p10: 0.08 * days, p50: 0.1 * days, p90: 0.12 * days },
        leftKg: { p10: 1.5 - 0.12 * days, p50: 1.5 - 0.1 * days, p90: 1.5 - 0.08 * days },
        budgetKg: 1.2,
        plannedKg: 0.12 * days,
      },
    ],
    fuelMJ: all(4 * days),
    waterL: { people: 8 * days, cooking: 2 * days, used: 10 * days, left: 100 - 10 * days },
  };
}

/** Ten days at the pace above: the tenth is not fed. */
export const ENDURANCE: Endurance = {
  startsAt: '2026-12-05T17:00',
  fed: { days: 9, lastDate: '2026-12-13', planFound: true, noMorePossible: true, atMost: 9 },
  fedHot: { days: 7, lastDate: '2026-12-11', planFound: true, noMorePossible: true, atMost: 7 },
  endsFed: {
    days: 10,
    date: '2026-12-14',
    possible: false,
    alone: [{ limit: 'sets', amount: 1, unit: 'sets', text: '1 more set of lentil soup' }],
    together: [],
    text: '1 more set of lentil soup would do.',
    complete: true,
  },
  endsFedHot: null,
  curve: [1, 5, 9, 10].map(pointOf),
  reverse: {
    days: 14,
    lastDate: '2026-12-18',
    fed: {
      possible: false,
      alone: [],
      together: [
        { limit: 'water', amount: 40, unit: 'L', text: '40 L more water' },
        { limit: 'sets', amount: 5, unit: 'sets', text: '5 more sets' },
      ],
      text: 'These together would.',
      complete: true,
    },
    fedHot: { possible: null, alone: [], together: [], text: 'There was no time to find out.', complete: false },
  },
  text: [],
  notWorkedOut: ['2 of 6 points of the curve'],
};

const ITEM: Advice['items'][number] = {
  id: 'box-50-mm',
  kind: 'equipment',
  text: 'Make a retained-heat box',
  already: false,
  daysGained: { fed: 2, fedHot: 1 },
  servingsGained: 4.5,
  hotServingsGained: 0,
  hotWaterDaysGained: 0,
  scarcestShare: { before: 0.9, after: 0.7, ofBefore: 'propane', ofAfter: 'water' },
  fuelSavedMJ: 6.5,
  fuelSaved: [{ fuelId: 'propane', kg: 0.14 }],
  waterSavedL: 1,
  confidence: { level: 'middle', why: 'By published relations.' },
  effect: '2 days more fed.',
};

export const ADVICE: Advice = {
  days: 2,
  daysFed: 9,
  daysFedHot: 7,
  fuelMJ: all(8),
  waterL: 20,
  items: [
    ITEM,
    {
      ...ITEM,
      id: 'water-10-l',
      text: 'Store 10 L more water',
      daysGained: null,
      effect: 'nothing changes within the plan.',
    },
    { ...ITEM, id: 'soak', text: 'Go on soaking overnight', already: true, effect: '3 MJ less fuel.' },
  ],
  withoutEffect: ['Lentil soup'],
  notApplicable: [{ id: 'lid', text: 'Every pot has a lid that fits.' }],
  notWorkedOut: [],
  notes: ['Each is taken alone.'],
};

const tradeOffPoint = (hotMeals: number, repeats: number, mj: number): TradeOffPoint => ({
  hotMeals,
  repeats,
  onDays: true,
  fuelMJ: { p10: mj * 0.8, p50: mj, p90: mj * 1.3 },
  fuel: [{ fuelId: 'propane', kg: mj / 46, share: mj / 60 }],
  largestShare: mj / 60,
  waterL: 10,
  servingsShort: 0,
  energyShortPercent: 0,
  asHotAsPlanned: hotMeals === 4,
  tradeOff: { coldMeals: 4 - hotMeals, repeats },
  text: '',
});

export const TRADE_OFF: TradeOff = {
  days: 2,
  hotMealsWanted: 4,
  points: [tradeOffPoint(0, 1, 0), tradeOffPoint(2, 1, 10), tradeOffPoint(4, 1, 20), tradeOffPoint(4, 0, 30)],
  notWorkedOut: [],
  notes: ['Each point burns the least fuel heat for its hot meals and repeats.'],
};
