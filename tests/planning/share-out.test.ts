import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import { apportion, type ShareOut, type Sharer, shareOut } from '../../api/planning/share-out.ts';
import { lotOf } from './small-household.ts';

const DATE = '2026-12-05';
const kitOf = (id: string, servings: number): Kit => ({
  id,
  name: id,
  servings,
  style: 'stew',
  suits: ['evening'],
  parts: [
    { id: 'dry', name: 'Dry', containersPerSet: 2, ingredients: [{ foodId: 'split-pea', massG: 300 }] },
    { id: 'spice', name: 'Spice', ingredients: [{ foodId: 'salt', massG: 5 }] },
  ],
});
const KITS = [kitOf('stew', 8), kitOf('soup', 5), kitOf('mash', 2)];
const sharer = (label: string, heads: number, placeId: string | null = null): Sharer => ({ label, heads, placeId });
const total = (rows: { quantity: number }[]) => rows.reduce((sum, row) => sum + row.quantity, 0);

describe('an example that can be done by hand', () => {
  // 7 sets for 5 and 3 heads: exact parts 4.375 and 2.625, so 4 and 3.
  const out = shareOut(
    [KITS[0] as Kit],
    [lotOf('stew', 'dry', 15), lotOf('stew', 'spice', 4), lotOf('stew', 'spice', 3, { placeId: 'hut' })],
    [sharer('House', 5, 'home'), sharer('Hut', 3, 'hut')],
    DATE,
  );
  const [house, hut] = out.shares;

  it('deals whole sets by heads, and says which one does not divide and where it goes', () => {
    expect(house?.sets).toEqual([{ kitId: 'stew', sets: 4, due: 4.375 }]);
    expect(hut?.sets).toEqual([{ kitId: 'stew', sets: 3, due: 2.625 }]);
    expect(out.undivided[0]).toEqual({ kitId: 'stew', partId: null, quantity: 1, goesTo: ['Hut'] });
  });

  it('leaves what lies at a place there, and gives the bag that makes no set to one of them', () => {
    expect(hut?.takes).toEqual([
      { kitId: 'stew', partId: 'dry', placeId: 'home', packedOn: '2024-05-01', quantity: 6 },
      { kitId: 'stew', partId: 'spice', placeId: 'hut', packedOn: '2024-05-01', quantity: 3 },
    ]);
    expect(house?.takes.map((take) => [take.partId, take.placeId, take.quantity])).toEqual([
      ['dry', 'home', 8],
      ['spice', 'home', 4],
    ]);
    expect(house?.leftOver).toMatchObject([{ partId: 'dry', quantity: 1 }]);
    expect(out.undivided[1]).toEqual({ kitId: 'stew', partId: 'dry', quantity: 1, goesTo: ['House'] });
  });
});

it('carries what is owed from kit to kit, so that the same share does not lose each time', () => {
  const three = ['a', 'b', 'c'].map((id) => kitOf(id, 4));
  const lots = three.flatMap((kit) => [lotOf(kit.id, 'dry', 2), lotOf(kit.id, 'spice', 1)]);
  const out = shareOut(three, lots, [sharer('A', 1), sharer('B', 1), sharer('C', 1)], DATE);
  expect(out.shares.map((share) => share.servings)).toEqual([4, 4, 4]);
});

it('leaves out what is past its date, and refuses to share among nobody', () => {
  const out = shareOut(
    [KITS[0] as Kit],
    [lotOf('stew', 'dry', 2, { useBy: '2026-01-01' }), lotOf('stew', 'spice', 1)],
    [sharer('A', 1)],
    DATE,
  );
  expect(out.shares[0]?.takes).toEqual([]);
  expect(out.notSound).toMatchObject([{ partId: 'dry', why: 'past-use-by', quantity: 2 }]);
  expect(() => shareOut(KITS, [], [sharer('A', 0)], DATE)).toThrow(RangeError);
  expect(() => shareOut(KITS, [], [sharer('A', 1), sharer('A', 2)], DATE)).toThrow(RangeError);
});

it('spreads old and new bags over the shares', () => {
  const lots = [2020, 2022, 2024, 2025].flatMap((year) => [
    lotOf('stew', 'dry', 4, { packedOn: `${year}-01-01` }),
    lotOf('stew', 'spice', 2, { packedOn: `${year}-01-01` }),
  ]);
  const out = shareOut([KITS[0] as Kit], lots, [sharer('A', 1), sharer('B', 1)], DATE);
  for (const share of out.shares)
    expect(share.takes.filter((take) => take.partId === 'spice').map((take) => take.packedOn)).toEqual([
      '2020-01-01',
      '2022-01-01',
      '2024-01-01',
      '2025-01-01',
    ]);
});

const anySharers = fc
  .array(fc.record({ heads: fc.integer({ min: 0, max: 9 }), placeId: fc.constantFrom(null, 'home', 'hut') }), {
    minLength: 1,
    maxLength: 5,
  })
  .map((rows) => rows.map((row, index) => sharer(`S${index}`, row.heads, row.placeId)))
  .filter((rows) => rows.some((row) => row.heads > 0));
const anyLots = fc
  .array(
    fc.record({
      kitId: fc.constantFrom(...KITS.map((kit) => kit.id)),
      partId: fc.constantFrom('dry', 'spice'),
      placeId: fc.constantFrom('home', 'hut'),
      packedOn: fc.constantFrom('2020-01-01', '2023-01-01'),
      quantity: fc.integer({ min: 0, max: 30 }).map((number) => number / 2),
    }),
    { maxLength: 20 },
  )
  .map((rows) => {
    const byKey = new Map(rows.map((row) => [`${row.kitId}${row.partId}${row.placeId}${row.packedOn}`, row]));
    return [...byKey.values()].map((row) => lotOf(row.kitId, row.partId, row.quantity, row));
  });
const namesOf = (out: ShareOut) => new Map(out.shares.map((share) => [share.label, share]));

describe('every share-out', () => {
  it('keeps the sums: each bag goes to one share, whole or opened', () => {
    fc.assert(
      fc.property(anyLots, anySharers, (lots, sharers) => {
        const out = shareOut(KITS, lots, sharers, DATE);
        for (const row of lots) {
          const same = out.shares
            .flatMap((share) => [...share.takes, ...share.leftOver])
            .filter(
              (one) =>
                one.kitId === row.kitId &&
                one.partId === row.partId &&
                one.placeId === row.placeId &&
                one.packedOn === row.packedOn,
            );
          expect(total(same)).toBeCloseTo(row.quantity, 6);
        }
      }),
    );
  });

  it('gives every share complete sets, within one set of its exact part, and nothing to nobody', () => {
    fc.assert(
      fc.property(anyLots, anySharers, (lots, sharers) => {
        const out = shareOut(KITS, lots, sharers, DATE);
        for (const share of out.shares) {
          for (const { kitId, sets, due } of share.sets) {
            expect(Math.abs(sets - due)).toBeLessThan(1);
            for (const [partId, each] of [
              ['dry', 2],
              ['spice', 1],
            ] as const)
              expect(total(share.takes.filter((one) => one.kitId === kitId && one.partId === partId))).toBeCloseTo(
                sets * each,
                6,
              );
          }
          if (share.heads === 0) expect([...share.takes, ...share.leftOver]).toEqual([]);
        }
      }),
    );
  });

  it('does not depend on the order in which the sharers are named', () => {
    fc.assert(
      fc.property(anyLots, anySharers, (lots, sharers) => {
        const one = namesOf(shareOut(KITS, lots, sharers, DATE));
        const other = namesOf(shareOut(KITS, lots, [...sharers].reverse(), DATE));
        for (const [label, share] of one) expect(other.get(label)).toEqual(share);
      }),
    );
  });
});

it('is as near to the exact parts as whole sets can be: every other way of small numbers is tried', () => {
  const ways = (sets: number, among: number): number[][] =>
    among === 1
      ? [[sets]]
      : Array.from({ length: sets + 1 }, (_, first) =>
          ways(sets - first, among - 1).map((rest) => [first, ...rest]),
        ).flat();
  for (const heads of [
    [1, 1],
    [5, 3],
    [4, 2, 1],
    [3, 3, 1],
    [7, 2, 2],
  ])
    for (let sets = 0; sets <= 7; sets += 1) {
      const sharers = heads.map((count, index) => sharer(`S${index}`, count));
      const sum = heads.reduce((all, one) => all + one, 0);
      const farness = (parts: number[]) =>
        parts.reduce((all, part, index) => all + (part - (sets * (heads[index] as number)) / sum) ** 2, 0);
      const dealt = apportion(sets, sharers);
      const mine = farness(sharers.map(({ label }) => dealt.get(label)?.parts ?? 0));
      const best = Math.min(...ways(sets, heads.length).map(farness));
      // Squares of eighths and sevenths, summed in two orders.
      expect(mine).toBeCloseTo(best, 9);
    }
});
