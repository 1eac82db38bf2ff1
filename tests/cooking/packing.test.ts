import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import { FOODS } from '../../api/cooking/foods/foods-table.ts';
import { type OwnFood, ownFoodRow } from '../../api/cooking/foods/own-food.ts';
import { fatGPer100G, kernelDensityOf, shelfLifeClassOf } from '../../api/cooking/keeping/keeping-class.ts';
import { absorberToOrderCc, oxygenCc } from '../../api/cooking/keeping/oxygen-absorbers.ts';
import { type PackingQuestion, packKit } from '../../api/cooking/keeping/packing.ts';
import {
  ABSORBER_SIZES_CC,
  absorberPackets,
  BAG_SIZES_L,
  bagFor,
  bagsInBucket,
} from '../../api/cooking/keeping/packing-containers.ts';
import { useByDate } from '../../api/cooking/keeping/use-by.ts';
import { gallonsToLitres } from '../../api/physics/units.ts';
import { demoKits } from '../../api/storage/demo-kits.ts';

const STEW = demoKits().find((kit) => kit.id === 'red-bean-barley-stew') as Kit;

function pack(kit: Kit, own: Partial<PackingQuestion> = {}) {
  return packKit({ kit, bulk: [], storageC: 18, ...own });
}

function onePart(ingredients: Kit['parts'][number]['ingredients'], own: Partial<Kit['parts'][number]> = {}): Kit {
  return { ...STEW, parts: [{ id: 'a', name: 'Part', ingredients, ...own }] };
}

function remarksOn(kit: Kit, own: Partial<PackingQuestion> = {}) {
  return pack(kit, own).parts.flatMap((part) => part.remarks);
}

describe('sets from goods on hand', () => {
  it('are as many as the scarcest food gives, and the rest is said', () => {
    // 10 kg of beans at 330 g a set are 30 sets and 100 g; 10 kg of barley at 220 g would be 45.
    const packing = pack(STEW, {
      bulk: [
        { foodId: 'kidney-bean', massG: 10_000 },
        { foodId: 'pearl-barley', massG: 4000 },
        { foodId: 'pearl-barley', massG: 6000 },
        { foodId: 'white-rice', massG: 1000 },
      ],
    });
    expect(packing.sets).toBe(30);
    expect(packing.limitedBy).toBe('Kidney beans');
    expect(packing.leftOver).toEqual([
      { foodId: 'kidney-bean', name: 'Kidney beans', massG: 100 },
      { foodId: 'pearl-barley', name: 'Pearl barley', massG: 3400 },
    ]);
    expect(packing.missing.find(({ foodId }) => foodId === 'tomato-powder')?.massG).toBe(30 * 50);
    expect(packing.unused).toEqual([{ foodId: 'white-rice', massG: 1000 }]);
  });

  it('never take more of anything than there is, whatever is on hand', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 60_000 }), fc.integer({ min: 0, max: 60_000 }), (beans, barley) => {
        const packing = pack(STEW, {
          bulk: [
            { foodId: 'kidney-bean', massG: beans },
            { foodId: 'pearl-barley', massG: barley },
          ],
        });
        expect(packing.sets * 330).toBeLessThanOrEqual(beans + 1e-6);
        expect(packing.sets * 220).toBeLessThanOrEqual(barley + 1e-6);
        // One set more would be too much of one of them.
        expect((packing.sets + 1) * 330 > beans || (packing.sets + 1) * 220 > barley).toBe(true);
        expect(packing.leftOver.every(({ massG }) => massG >= 0)).toBe(true);
      }),
    );
  });

  it('count a part of several containers by container', () => {
    const kit = onePart([{ foodId: 'white-rice', massG: 900 }], { containersPerSet: 3 });
    const [part] = pack(kit, { sets: 4 }).parts;
    expect(part).toMatchObject({ containers: 12, massG: 300, packets: [200] });
  });

  it('are refused for an empty part, a negative amount and an unknown food', () => {
    expect(() => pack(onePart([{ foodId: 'white-rice', massG: 0 }]))).toThrow(/empty/);
    expect(() => pack(STEW, { bulk: [{ foodId: 'kidney-bean', massG: -1 }] })).toThrow(/0 g or more/);
    expect(() => pack(onePart([{ foodId: 'moon-dust', massG: 5 }]))).toThrow(/foodId/);
    expect(() => pack(STEW, { sets: 0 })).toThrow(/sets/);
  });
});

describe('bags and absorbers', () => {
  it('a bag is the smallest whose four fifths hold the heap', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 15, noNaN: true }), (heapL) => {
        const bag = bagFor(heapL) as number;
        expect(bag * 0.8).toBeGreaterThanOrEqual(heapL - 1e-6);
        expect(BAG_SIZES_L.filter((size) => size < bag).every((size) => size * 0.8 < heapL)).toBe(true);
      }),
    );
    expect(bagFor(16)).toBeNull();
  });

  it('packets hold what is needed, as few as the sizes allow', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9000 }), (needed) => {
        const packets = absorberPackets(needed);
        const sum = packets.reduce((total, cc) => total + cc, 0);
        expect(sum).toBeGreaterThanOrEqual(needed);
        const largest = Math.max(...ABSORBER_SIZES_CC);
        expect(packets.length).toBe(Math.ceil(needed / largest));
        // The last packet could not be the next smaller one.
        const last = packets[packets.length - 1] as number;
        const smaller = ABSORBER_SIZES_CC.filter((size) => size < last);
        for (const size of smaller) expect(sum - last + size).toBeLessThan(needed);
      }),
    );
    expect(absorberPackets(0)).toEqual([]);
  });

  it('the sum of a bag is that of its foods: 0.2095 (V - m / rho), times 1.25, up to 100 cc', () => {
    const [part] = pack(onePart([{ foodId: 'white-rice', massG: 2300 }])).parts;
    // 2,300 g in a bag of 3.8 L: 0.2095 x (3,800 - 2,300 / 1.46) = 466.1 cc; x 1.25 = 583, so 600, so one of 1,000.
    expect(part?.bagL).toBe(3.8);
    expect(part?.oxygenCc).toBeCloseTo(466.1, 0);
    expect(part?.neededCc).toBe(600);
    expect(part?.packets).toEqual([1000]);
  });

  it('a mixed bag never holds more oxygen than air, nor less than its kernels leave', () => {
    const foods = ['white-rice', 'lentil-red', 'onion-flakes', 'milk-powder', 'pasta', 'rolled-oats'];
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom(...foods), fc.integer({ min: 1, max: 2000 })), {
          minLength: 1,
          maxLength: 5,
        }),
        (rows) => {
          const [part] = pack(onePart(rows.map(([foodId, massG]) => ({ foodId, massG })))).parts;
          if (part?.bagL === null || part === undefined) return;
          expect(part.oxygenCc).toBeLessThanOrEqual(0.2095 * 1000 * part.bagL + 0.05);
          // A heap holds a third of air or more.
          expect(part.voidShare).toBeGreaterThan(0.3);
          expect(part.voidShare).toBeLessThan(1);
        },
      ),
    );
  });

  it('bags lie in a bucket by its shape and size, and not where they are wider than it', () => {
    const gallon = gallonsToLitres(1);
    // Common practice counts four or five bags of a gallon, four fifths full, in a bucket of five.
    expect(bagsInBucket(0.8 * gallon, gallonsToLitres(5), 'round')).toBe(4);
    expect(bagsInBucket(0.8 * gallon, gallonsToLitres(5), 'rectangular')).toBeGreaterThanOrEqual(4);
    expect(bagsInBucket(15, 19, 'round')).toBe(0);
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        fc.double({ min: 5, max: 60, noNaN: true }),
        (bag, bucket) => {
          const round = bagsInBucket(bag, bucket, 'round');
          expect(round * bag).toBeLessThanOrEqual(bucket);
          expect(bagsInBucket(bag, bucket, 'rectangular')).toBeGreaterThanOrEqual(round === 0 ? 0 : round);
        },
      ),
    );
  });

  it('a part too large for any bag is to be divided', () => {
    const [part] = pack(onePart([{ foodId: 'rolled-oats', massG: 8000 }])).parts;
    expect(part?.bagL).toBeNull();
    expect(part?.remarks[0]?.wayOut).toMatch(/2 containers/);
  });
});

describe('what must not be packed so', () => {
  const jerky: OwnFood = { id: 'own-jerky', name: 'Own jerky', foodClass: 'dried-meat', homeDried: true };

  it('H15: home-dried meat with an absorber is refused, and the whole bag goes without one', () => {
    const ownFood = ownFoodRow(jerky);
    const [part] = pack(
      onePart([
        { foodId: 'white-rice', massG: 300 },
        { foodId: 'own-jerky', ownFood, massG: 60 },
      ]),
    ).parts;
    expect(part?.verdict).toBe('refused');
    expect(part?.packets).toEqual([]);
    expect(part?.remarks.map(({ text }) => text).join(' ')).toMatch(/botulism/);
    expect(part?.remarks.every(({ wayOut }) => wayOut.length > 10)).toBe(true);
  });

  it('H15: tins are looked at before packing and before opening; fat and nuts turn rancid', () => {
    expect(remarksOn(onePart([{ foodId: 'tinned-fish', massG: 200 }]))[0]?.wayOut).toMatch(
      /bulging.*frozen and thawed/,
    );
    expect(remarksOn(onePart([{ foodId: 'oil', massG: 200 }]))[0]?.text).toMatch(/rancid/);
    expect(remarksOn(onePart([{ foodId: 'walnuts', massG: 200 }]))[0]?.text).toMatch(/rancid/);
    expect(pack(onePart([{ foodId: 'walnuts', massG: 200 }])).parts[0]?.packets).toEqual([]);
  });

  it('H12: beans in one bag with what a soak would pour away or spoil are refused, with the way out', () => {
    const remarks = remarksOn(
      onePart(
        [
          { foodId: 'kidney-bean', massG: 300 },
          { foodId: 'milk-powder', massG: 50 },
          { foodId: 'tomato-powder', massG: 30 },
        ],
        { soakable: true },
      ),
    );
    expect(remarks.find(({ foodId, verdict }) => foodId === 'kidney-bean' && verdict === 'refused')).toMatchObject({
      wayOut: expect.stringMatching(/part of their own/),
      text: expect.stringMatching(/poison/),
    });
    const chickpeas = remarksOn(
      onePart([
        { foodId: 'chickpea', massG: 300 },
        { foodId: 'tomato-powder', massG: 30 },
      ]),
    );
    expect(chickpeas.find(({ foodId }) => foodId === 'chickpea')).toMatchObject({
      verdict: 'warn',
      text: expect.stringMatching(/longer.*sour/i),
    });
    expect(remarksOn(onePart([{ foodId: 'kidney-bean', massG: 300 }], { soakable: true }))).toEqual([]);
  });

  it('home-dried food waits for the snap test; what is moist and on no list is warned about or refused', () => {
    const carrots = onePart([{ foodId: 'carrot-dehydrated', massG: 80 }]);
    expect(remarksOn(carrots)).toEqual([]);
    expect(remarksOn(carrots, { homeDried: ['carrot-dehydrated'] })[0]?.text).toMatch(/snaps/);
    const own = (moistureGPer100G: number) => {
      const ownFood = ownFoodRow({ id: 'x', name: 'X', foodClass: 'dried-vegetable', moistureGPer100G });
      return remarksOn(onePart([{ foodId: 'x', ownFood, massG: 50 }]))[0];
    };
    expect(own(9)).toBeUndefined();
    expect(own(12)?.verdict).toBe('warn');
    expect(own(16)?.verdict).toBe('refused');
  });

  it('a fatty own food is told from its label, and its fat may be read off its energy', () => {
    const ownFood = ownFoodRow({ id: 'x', name: 'X', foodClass: 'meal', fatGPer100G: 25 });
    expect(remarksOn(onePart([{ foodId: 'x', ownFood, massG: 50 }]))[0]?.text).toMatch(/rancid/);
    // USDA SR28: almonds 49.93, oats 6.52, white rice 0.66 g of fat; the sum is a lower bound, for fibre holds less energy.
    for (const [id, fat] of [
      ['almonds', 49.93],
      ['rolled-oats', 6.52],
      ['white-rice', 0.66],
      ['oil', 100],
    ] as const) {
      const food = FOODS[id];
      if (food === undefined) throw new Error(id);
      expect(fatGPer100G(food), id).toBeLessThanOrEqual(fat + 2.2);
      expect(fatGPer100G(food), id).toBeGreaterThanOrEqual(fat * 0.7 - 2);
    }
  });

  it('salt and sugar get no absorber of their own, and set hard beside one', () => {
    expect(pack(onePart([{ foodId: 'salt', massG: 500 }])).parts[0]?.packets).toEqual([]);
    expect(
      remarksOn(
        onePart([
          { foodId: 'onion-flakes', massG: 100 },
          { foodId: 'salt', massG: 20 },
        ]),
      )[0]?.text,
    ).toMatch(/hard/);
  });
});

describe('how long it keeps', () => {
  it('goes by the shortest-lived food of a part and of the kit, and by the room', () => {
    const cool = pack(STEW, { storageC: 12 });
    const warm = pack(STEW, { storageC: 30 });
    expect(cool.keepsMonths).toBeGreaterThan(warm.keepsMonths);
    expect(cool.keepsMonths).toBe(Math.min(...cool.parts.map((part) => part.keepsMonths)));
    expect(cool.parts.find(({ partId }) => partId === 'beans')?.keepsMonths).toBeGreaterThan(300);
    expect(pack(STEW, { absorbers: false }).parts[0]?.keepsMonths).toBeLessThanOrEqual(24);
  });

  it('every food has a class and a density, sealed and not', () => {
    for (const food of Object.values(FOODS)) {
      expect(shelfLifeClassOf(food, true)).toEqual(expect.any(String));
      expect(shelfLifeClassOf(food, false)).toEqual(expect.any(String));
      // No kernel is lighter than the heap that it makes.
      if (food.group !== 'fat' && food.id !== 'honey')
        expect(kernelDensityOf(food) * 1000, food.id).toBeGreaterThan(food.bulkDensityGPerL.value);
    }
  });

  it('a use-by date is whole months after packing, on a day that exists', () => {
    expect(useByDate('2026-01-31', 1)).toBe('2026-02-28');
    expect(useByDate('2026-11-25', 24)).toBe('2028-11-25');
    expect(useByDate('2026-11-25', 0.5)).toBe('2026-12-10');
    expect(() => useByDate('2026-11-25', -1)).toThrow(/months/);
  });
});

it('every demonstration kit can be packed, and none of its parts is refused', () => {
  for (const kit of demoKits()) {
    const packing = pack(kit, { sets: 2 });
    for (const part of packing.parts) {
      expect(part.verdict, `${kit.id} ${part.partId}`).not.toBe('refused');
      // Dried fruit is moist: whatever lies with it gets no absorber.
      if (part.contents.some(({ foodId }) => foodId === 'raisins')) expect(part.packets).toEqual([]);
      if (part.oxygenCc !== null && part.neededCc !== null)
        expect(part.neededCc).toBe(absorberToOrderCc(part.oxygenCc));
    }
  }
  expect(oxygenCc(3.785, 2.96, 1.46)).toBeGreaterThan(0);
});
