import { describe, expect, it } from 'vitest';
import { demoDocuments } from '../../api/storage/demo.ts';
import { containersSold } from '../../api/wording/fuel-containers-sold.ts';
import type { Kit } from '../../web/api-types.ts';
import { SAMPLE_ID } from '../../web/household-choice.ts';
import {
  type Draft,
  daysFed,
  householdOf,
  packedOnOf,
  readDraft,
  servingsIn,
  setsOf,
  unfedSlots,
} from '../../web/views/first-minutes-draft.ts';

const kit = (id: string, suits: Kit['suits']): Kit => ({
  id,
  name: id,
  servings: 4,
  style: 'soup',
  suits,
  parts: [{ id: 'dry', name: 'Dry', ingredients: [{ foodId: 'rolled-oats', massG: 300 }] }],
});
const KITS = [
  kit('porridge', ['breakfast']),
  kit('soup', ['midday']),
  kit('stew', ['evening']),
  kit('crackers', ['breakfast', 'midday', 'evening']),
];
const draft = (sets: Draft['sets'], more: Partial<Draft> = {}): Draft => ({ screen: 2, people: 4, sets, ...more });
const MORNING = '2026-12-05T05:00';

describe('days that the sets feed', () => {
  it('counts each meal from the sets that suit it', () => {
    expect(daysFed(draft({ porridge: 2, soup: 2, stew: 2 }), KITS, MORNING)).toBe(2);
    // Much of what suits one meal feeds no other.
    expect(daysFed(draft({ porridge: 9, soup: 2, stew: 2 }), KITS, MORNING)).toBe(2);
  });

  it('lets what suits several meals fill the gaps once, not for each', () => {
    expect(daysFed(draft({ porridge: 1, soup: 2, stew: 2, crackers: 1 }), KITS, MORNING)).toBe(2);
    expect(daysFed(draft({ porridge: 1, soup: 1, stew: 2, crackers: 1 }), KITS, MORNING)).toBe(1);
  });

  it('leaves out meals of today for which it is too late', () => {
    expect(daysFed(draft({ porridge: 1, soup: 1, stew: 2 }), KITS, '2026-12-05T15:00')).toBe(2);
    expect(daysFed(draft({ porridge: 1, soup: 1, stew: 2 }), KITS, MORNING)).toBe(1);
  });

  it('is a day at least and a week at most', () => {
    expect(daysFed(draft({}), KITS, MORNING)).toBe(1);
    expect(daysFed(draft({ porridge: 50, soup: 50, stew: 50 }), KITS, MORNING)).toBe(7);
  });

  it('names the meals that nothing suits', () => {
    expect(unfedSlots(draft({ porridge: 1, soup: 1 }), KITS)).toEqual(['evening']);
    expect(unfedSlots(draft({ crackers: 1 }), KITS)).toEqual([]);
    expect(servingsIn(draft({ crackers: 2, soup: 1 }), KITS)).toBe(12);
  });
});

describe('what is stored', () => {
  const [cylinder, bottle] = containersSold(['propane']);
  const [armful] = containersSold(['wood']);
  const page = { households: [{ id: 'our-household', name: 'Taken', placeIds: ['our-household-2'] }] };

  it('has ids of its own for household and place', () => {
    if (cylinder === undefined) throw new Error('no container');
    const household = householdOf(draft({}, { containers: 2 }), cylinder, page);
    expect(household.id).toBe('our-household-2');
    expect(household.places[0]?.id).toBe('our-household-2-2');
    expect(household.people.map(({ label }) => label)).toEqual(['A', 'B', 'C', 'D']);
  });

  it('counts full cylinders, and weighs what is begun or lies in a heap', () => {
    if (bottle === undefined || armful === undefined) throw new Error('no container');
    const containerOf = (household: ReturnType<typeof householdOf>) => household.fuels?.[0]?.containers?.[0];
    expect(containerOf(householdOf(draft({}, { containers: 2 }), bottle, page))).toEqual({
      id: 'propane-5',
      fullKg: 5,
      count: 2,
      level: 'full',
    });
    expect(containerOf(householdOf(draft({}, { containers: 0.5 }), bottle, page))).toEqual({
      id: 'propane-5',
      leftKg: 2.5,
    });
    expect(containerOf(householdOf(draft({}, { containers: 3 }), armful, page))).toEqual({
      id: 'wood-armful',
      leftKg: 18,
    });
  });

  it('asks for no set of which there is none, and packs in a year that has the day', () => {
    expect(setsOf(draft({ porridge: 0, soup: 2 }))).toEqual([{ kitId: 'soup', sets: 2 }]);
    expect(packedOnOf(draft({}, { packed: '5' }), '2028-02-29')).toBe('2023-02-28');
    expect(packedOnOf(draft({}), '2026-12-05')).toBe('2024-12-05');
  });

  it('reads a draft that something else has spoilt as none', () => {
    expect(readDraft({ getItem: () => '{"screen":2' })).toEqual({ screen: 1, sets: {} });
    expect(readDraft({ getItem: () => '7' })).toEqual({ screen: 1, sets: {} });
  });
});

it('the page knows the invented household by its id', () => {
  expect(demoDocuments('2026-12-05').household.id).toBe(SAMPLE_ID);
});
