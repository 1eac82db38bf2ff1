import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import { kitWithParts, packableParts, standInId } from '../../api/cooking/dishes/part-choices.ts';
import type { StockLot } from '../../api/planning/plan-types.ts';
import { completeSets, setsByPlace } from '../../api/planning/stock-sets.ts';
import { lotOf } from './small-household.ts';

const DATE = '2026-12-05';
const kit: Kit = {
  id: 'pea-rice',
  name: 'Peas and rice',
  servings: 4,
  style: 'stew',
  suits: ['evening'],
  parts: [
    {
      id: 'pulses',
      name: 'Split peas',
      containersPerSet: 2,
      ingredients: [{ foodId: 'split-pea', massG: 300, alternatives: ['lentil-brown', 'lentil-red'] }],
    },
    { id: 'seasoning', name: 'Seasoning', ingredients: [{ foodId: 'bouillon-powder', massG: 20 }] },
    { id: 'freeze-dried', name: 'Freeze-dried peas', ingredients: [{ foodId: 'fd-peas', massG: 60 }] },
  ],
};

const lot = (partId: string, quantity: number, more: Partial<StockLot> = {}) => lotOf(kit.id, partId, quantity, more);

describe('complete sets', () => {
  it('says how many there are, which part limits, what lacks for one more and what is left over', () => {
    const found = completeSets(kit, [lot('pulses', 5), lot('seasoning', 1), lot('freeze-dried', 3)], DATE);
    expect(found.sets).toBe(1);
    expect(found.limitingPartIds).toEqual(['seasoning']);
    expect(found.lacking).toEqual([{ partId: 'seasoning', quantity: 1 }]);
    expect(found.leftOver.map(({ partId, quantity }) => [partId, quantity])).toEqual([
      ['pulses', 3],
      ['freeze-dried', 2],
    ]);
  });

  it('names no limit where nothing is left over', () => {
    const found = completeSets(kit, [lot('pulses', 4), lot('seasoning', 2), lot('freeze-dried', 2)], DATE);
    expect(found).toMatchObject({ sets: 2, limitingPartIds: [], lacking: [], leftOver: [] });
  });

  it('takes what is to be used first, then what passes its date first, then the oldest; never what is past its date', () => {
    const found = completeSets(
      kit,
      [
        lot('pulses', 2),
        lot('freeze-dried', 1),
        lot('seasoning', 1, { packedOn: '2020-01-01' }),
        lot('seasoning', 1, { packedOn: '2023-01-01', useBy: '2027-01-01' }),
        lot('seasoning', 1, { packedOn: '2019-01-01', useBy: '2026-12-04' }),
        lot('seasoning', 1, { packedOn: '2025-01-01', useFirst: true }),
        lot('seasoning', 1, { packedOn: '2027-01-01' }),
      ],
      DATE,
    );
    expect(found.alike[0]?.takes.find((take) => take.partId === 'seasoning')?.packedOn).toBe('2025-01-01');
    expect(found.leftOver.map((one) => one.packedOn)).toEqual(['2023-01-01', '2020-01-01']);
    expect(found.notSound.map((one) => [one.packedOn, one.why])).toEqual([
      ['2019-01-01', 'past-use-by'],
      ['2027-01-01', 'packed-later'],
    ]);
  });

  it('makes no set out of parts at two places', () => {
    const rows = setsByPlace(
      [kit],
      [lot('pulses', 2), lot('seasoning', 1), lot('freeze-dried', 1, { placeId: 'shed' })],
      DATE,
    );
    expect(rows.map((row) => [row.placeId, row.sets, row.limitingPartIds])).toEqual([
      ['home', 0, ['freeze-dried']],
      ['shed', 0, ['pulses', 'seasoning']],
    ]);
  });

  it('takes a part that may stand in, the older bags first, and never mixes the two kinds in one set', () => {
    const lentils = standInId('pulses', 'lentil-brown');
    expect(packableParts(kit).map((part) => part.id)).toEqual([
      'pulses',
      'pulses-with-lentil-brown',
      'pulses-with-lentil-red',
      'seasoning',
      'freeze-dried',
    ]);
    const found = completeSets(
      kit,
      [lot('pulses', 3), lot(lentils, 3, { packedOn: '2021-01-01' }), lot('seasoning', 4), lot('freeze-dried', 2)],
      DATE,
    );
    expect(found.alike.map(({ standIns, sets }) => [standIns, sets])).toEqual([
      [[lentils], 1],
      [[], 1],
    ]);
    expect(kitWithParts(kit, [lentils])).toMatchObject({
      madeFrom: kit.id,
      name: 'Peas and rice (with brown or green lentils)',
      parts: [{ id: lentils, ingredients: [{ foodId: 'lentil-brown', massG: 300 }] }, kit.parts[1], kit.parts[2]],
    });
    expect(kitWithParts(kit, [])).toBe(kit);
  });

  const anyLots = fc.array(
    fc.record({
      partId: fc.constantFrom(...packableParts(kit).map((part) => part.id)),
      packedOn: fc.constantFrom('2020-01-01', '2022-01-01', '2024-01-01', '2027-01-01'),
      useBy: fc.constantFrom(null, '2026-01-01', '2028-01-01'),
      quantity: fc.integer({ min: 0, max: 6 }),
    }),
    { maxLength: 12 },
  );

  it('loses and invents nothing, and makes as many sets as can be made', () => {
    fc.assert(
      fc.property(anyLots, (rows) => {
        const byKey = new Map(rows.map((row) => [`${row.partId} ${row.packedOn}`, lot(row.partId, row.quantity, row)]));
        const lots = [...byKey.values()];
        const found = completeSets(kit, lots, DATE);
        for (const part of packableParts(kit)) {
          const of = (list: { partId: string; quantity: number }[]) =>
            list.filter((one) => one.partId === part.id).reduce((sum, one) => sum + one.quantity, 0);
          const taken = of(found.alike.flatMap(({ takes }) => takes));
          expect(taken + of(found.leftOver) + of(found.notSound)).toBe(of(lots));
        }
        expect(found.alike.reduce((sum, one) => sum + one.sets, 0)).toBe(found.sets);
        for (const { standIns, sets, takes } of found.alike)
          for (const part of kitWithParts(kit, standIns).parts)
            expect(takes.filter((take) => take.partId === part.id).reduce((sum, take) => sum + take.quantity, 0)).toBe(
              sets * (part.containersPerSet ?? 1),
            );
        // One more set would need a whole set's worth of every part, and some part has none left of any one kind.
        const left = (id: string) =>
          found.leftOver.filter((one) => one.partId === id).reduce((sum, one) => sum + one.quantity, 0);
        const pulses = ['pulses', 'pulses-with-lentil-brown', 'pulses-with-lentil-red'].some((id) => left(id) >= 2);
        expect(pulses && left('seasoning') >= 1 && left('freeze-dried') >= 1).toBe(false);
      }),
    );
  });
});
