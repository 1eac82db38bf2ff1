import { describe, expect, it } from 'vitest';
import { wholePotBoilMinutes } from '../../api/cooking/kinetics/box-cooking.ts';
import { STEP_ACTIONS } from '../../api/planning/plan-types.ts';
import { cautionsForPage } from '../../api/wording/cautions.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { addMinutes } from '../../api/wording/times.ts';
import { planDraftFixture, planFixture } from './plan-fixture.ts';

const plan = planFixture();
const steps = plan.schedule;

const VERBS =
  'Add|Boil|Carry|Drain|Feed|Fill|Heat|Hold|Let|Light|Measure|Melt|Mix|Open|Pour|Press|Pull|Put|Refill|Serve|Set|Shut|Smell|Soak|Stir|Switch|Take|Test|Throw|Turn|Wash|Weigh';

describe('phrases', () => {
  it('begin with a verb from the list', () => {
    for (const step of steps) expect(step.text).toMatch(new RegExp(`^(${VERBS}) `));
  });

  it('join no two actions with "and"', () => {
    const joined = new RegExp(` and (${VERBS})\\b`, 'i');
    for (const step of steps) {
      expect(step.text).not.toMatch(joined);
      expect(step.ifNot ?? '').not.toMatch(joined);
    }
  });

  it('leave no sums, no half-day times, no bare midnight, no block capitals', () => {
    for (const step of steps) {
      for (const text of [step.text, step.ifNot ?? '']) {
        expect(text).not.toMatch(/\d\s*[+×/*]\s*\d/);
        expect(text).not.toMatch(/\b[ap]\.?m\.?\b/i);
        expect(text).not.toMatch(/\b00:00\b/);
        expect(text).not.toMatch(/[A-Z]{4,}/);
        expect(text).not.toMatch(/NaN|undefined|null|Infinity/);
      }
    }
  });

  it('put a unit, a clock or a counted word after every number', () => {
    const allowed =
      /\d+(?:[.:]\d+)?[½¼¾]?(?:\u00a0(?:mL|L|g|kg|min|h|m|ft|°C|°F|oz|lb|cups?|gal|tbsp|kPa|psi|%)|(?=\b.*)$)/;
    for (const step of steps) {
      for (const text of [step.text, step.ifNot ?? '']) {
        const bare = text.replace(/\d{2}:\d{2}/g, '').match(/\d+(?:\.\d+)?[½¼¾]?(?!\d|\.\d|[½¼¾]|\u00a0)/g) ?? [];
        expect(bare, text).toEqual([]);
        if (/\d/.test(text.replace(/\d{2}:\d{2}/g, ''))) expect(text).toMatch(allowed);
      }
    }
  });

  it('are short sentences', () => {
    for (const step of steps) {
      for (const sentence of step.text.split(/[.:] /)) expect(sentence.split(' ').length).toBeLessThanOrEqual(20);
    }
  });
});

describe('order', () => {
  it('is by time, ids are unique and keep their form', () => {
    const times = steps.map((step) => step.at);
    expect(times).toEqual([...times].sort());
    expect(new Set(steps.map((step) => step.id)).size).toBe(steps.length);
    for (const step of steps) {
      expect(step.id).toMatch(/^[a-z0-9-]{1,64}$/);
      expect(STEP_ACTIONS).toContain(step.action);
      expect(step.at).toMatch(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/);
    }
  });

  it('is the same when worded again, and points back only to earlier steps', () => {
    expect(makeSchedule(planDraftFixture())).toEqual(steps);
    const at = new Map(steps.map((step) => [step.id, step.at]));
    for (const step of steps) {
      if (step.afterStepId === null) continue;
      expect(at.has(step.afterStepId)).toBe(true);
      expect((at.get(step.afterStepId) ?? '') <= step.at, `${step.id} after ${step.afterStepId}`).toBe(true);
    }
  });

  it('puts the alarm first and a weighing on every morning', () => {
    expect(steps[0]?.text).toContain('carbon-monoxide alarm');
    expect(steps.filter((step) => step.action === 'weigh')).toHaveLength(7);
  });

  it('lights before the pot goes on, boils after, shuts off after the last', () => {
    for (const lighting of plan.lightings) {
      const light = steps.find((step) => step.id.startsWith(`${lighting.id}-light`));
      const off = steps.find((step) => step.id.startsWith(`${lighting.id}-shut-off`));
      const mine = plan.cookings.filter((cooking) => cooking.method.lightingId === lighting.id).map((one) => one.id);
      const fire = steps.filter(
        (step) => mine.includes(step.cookingId ?? '') && ['put-on', 'boil', 'add', 'turn-down'].includes(step.action),
      );
      expect(fire.length).toBeGreaterThan(0);
      for (const step of fire) {
        expect(step.at >= (light?.at ?? 'x')).toBe(true);
        expect(step.at <= (off?.at ?? '')).toBe(true);
      }
    }
  });
});

describe('what must not be missing', () => {
  it('a soak says what, how much water, where, and the latest time; it is drained just before the pot', () => {
    const soaked = plan.cookings.filter((cooking) => cooking.method.soak !== null);
    expect(soaked.length).toBeGreaterThan(0);
    for (const cooking of soaked) {
      const soak = steps.find((step) => step.cookingId === cooking.id && step.action === 'soak');
      const drain = steps.find((step) => step.cookingId === cooking.id && step.action === 'drain');
      expect(soak?.text).toMatch(/^Soak .* in the blue bowl/);
      expect(soak?.quantities.some((one) => one.what.includes('water') && one.unit === 'L')).toBe(true);
      expect(soak?.latestAt).toBe(addMinutes(cooking.method.soak?.at ?? '', 30));
      expect(drain?.text).toContain('Never drink');
      expect(drain?.ifNot).toMatch(/sour smell: throw/);
      expect((drain?.at ?? '') >= addMinutes(cooking.startsAt, -15)).toBe(true);
      expect((drain?.at ?? '') <= cooking.startsAt).toBe(true);
    }
  });

  it('kidney-type beans keep big bubbles for at least the minutes needed, counted again when they stop', () => {
    const beans = plan.cookings.filter((cooking) => cooking.method.lectin.verdict === 'safe');
    expect(beans.length).toBeGreaterThan(0);
    for (const cooking of beans) {
      const boil = steps.find((step) => step.cookingId === cooking.id && step.action === 'boil');
      expect(boil?.minutes).toBeGreaterThanOrEqual(cooking.method.lectin.boilMinutesNeeded);
      expect(boil?.ifNot).toMatch(/start the count again/);
      const down = steps.find((step) => step.cookingId === cooking.id && step.action === 'turn-down');
      if (down !== undefined && boil !== undefined) {
        expect(down.at >= addMinutes(boil.at, cooking.method.lectin.boilMinutesNeeded)).toBe(true);
      }
    }
  });

  it('boxes stand beside the stove, and are checked against 60 C before the meal', () => {
    const boxed = plan.cookings.filter((cooking) => cooking.method.finish === 'box');
    for (const cooking of boxed) {
      const mine = steps.filter((step) => step.cookingId === cooking.id);
      expect(mine.find((step) => step.action === 'box')?.text).toContain('beside the stove');
      const check = mine.find((step) => step.action === 'unbox');
      expect(check?.text).toMatch(/60\u00a0°C \(140\u00a0°F\)/);
      expect(check?.ifNot).toMatch(/full boil/);
    }
  });

  it('without a thermometer nobody is asked for a temperature', () => {
    const draft = planDraftFixture();
    draft.resolved.household.thermometer = false;
    const worded = makeSchedule(draft);
    for (const step of worded.filter((one) => one.action === 'unbox' || one.action === 'heat-water')) {
      expect(step.text).not.toMatch(/°C/);
      if (step.action === 'unbox') expect(step.ifNot).toMatch(/full boil/);
    }
  });

  it('a longer boil than typical says how long, and that its fuel is there', () => {
    const boil = steps.find((step) => step.action === 'boil' && step.text.includes('Test'));
    expect(boil?.ifNot).toMatch(/up to .* in all, its fuel is set aside/);
  });

  it('a pressure cooker has a way out when no pressure comes', () => {
    const boil = steps.find((step) => step.action === 'boil' && step.text.startsWith('Hold'));
    expect(boil?.ifNot).toMatch(/If no pressure .*shut the flame off/);
    expect(steps.some((step) => step.action === 'release-pressure')).toBe(true);
  });

  it('bleach is in drops, doubled for cold water, with 30 min to wait', () => {
    const treat = steps.find((step) => step.action === 'treat-water');
    const drops = treat?.quantities.find((one) => one.unit === 'drops')?.amount ?? 0;
    // 20 L at 4 C: 16 drops a gallon of 3.785 L (EPA, very cold water).
    expect(drops).toBe(85);
    const smell = steps.find((step) => step.action === 'check' && step.text.includes('chlorine'));
    expect(smell?.at).toBe(addMinutes(treat?.at ?? '', 35));
  });

  it('every meal is served with a time to eat it by, thrown away after, washed up', () => {
    for (const meal of plan.meals) {
      const mine = steps.filter((step) => step.meal === meal.id);
      expect(mine.some((step) => step.action === 'serve')).toBe(true);
      expect(mine.some((step) => step.action === 'wash-up')).toBe(true);
      const wet = meal.dishes.some(
        (dish) => (plan.cookings.find((one) => one.id === dish.cookingId)?.waterL.inPot ?? 0) > 0,
      );
      expect(mine.some((step) => step.action === 'throw-away')).toBe(wet);
    }
  });

  it('an alcohol burner is filled cold, before it is lit, and cools before more goes in', () => {
    const spirits = plan.lightings.filter((lighting) => lighting.fuelId === 'denatured-alcohol');
    expect(spirits.length).toBeGreaterThan(0);
    for (const lighting of spirits) {
      const light = steps.find((step) => step.id.startsWith(`${lighting.id}-light`));
      expect(light?.text).toMatch(/^Fill .* cold to the touch, with at most 80\u00a0mL .*\. Light it/);
      const boils = steps.filter(
        (step) =>
          step.action === 'boil' &&
          plan.cookings.some(
            (one) => one.id === step.cookingId && one.method.lightingId === lighting.id && one.method.gaugeKPa === null,
          ),
      );
      for (const boil of boils) expect(boil.ifNot).toMatch(/cool 15\u00a0min, refill/);
    }
  });

  it('a box holds only what has boiled as a whole', () => {
    const draft = planDraftFixture();
    const boxed = draft.cookings.find((cooking) => cooking.kitId === 'red-bean-barley-stew');
    if (boxed === undefined) throw new Error('the fixture has the stew');
    const part = draft.resolved.kits.find((kit) => kit.id === boxed.kitId)?.parts.find((one) => one.id === 'barley');
    boxed.method.additions = [{ partId: part?.id ?? '', foodId: 'pearl-barley', atMinute: 60, massG: 185 }];
    const mine = makeSchedule(draft).filter((step) => step.cookingId === boxed.id);
    const add = mine.find((step) => step.action === 'add');
    const box = mine.find((step) => step.action === 'box');
    expect(add).toBeDefined();
    expect(addMinutes(add?.at ?? '', wholePotBoilMinutes(false)) <= (box?.at ?? '')).toBe(true);
  });

  it('salt in a bag of milk powder does not hurry it into the pot', () => {
    const draft = planDraftFixture();
    const porridge = draft.cookings.find((cooking) => cooking.kitId === 'oat-apple-porridge');
    if (porridge === undefined) throw new Error('the fixture has the porridge');
    porridge.method.additions = [
      { partId: 'milk-fruit', foodId: 'whole-milk-powder', atMinute: 7, massG: 90 },
      { partId: 'milk-fruit', foodId: 'salt', atMinute: 0, massG: 3 },
    ];
    const mine = makeSchedule(draft).filter((step) => step.cookingId === porridge.id);
    const boil = mine.find((step) => step.action === 'boil');
    expect(mine.find((step) => step.action === 'add')?.at).toBe(addMinutes(boil?.at ?? '', 7));
  });

  it('a bag goes in with what cooks longest in it', () => {
    const draft = planDraftFixture();
    const boxed = draft.cookings.find((cooking) => cooking.kitId === 'red-bean-barley-stew');
    if (boxed === undefined) throw new Error('the fixture has the stew');
    boxed.method.additions = [
      { partId: 'barley', foodId: 'pearl-barley', atMinute: 0, massG: 185 },
      { partId: 'barley', foodId: 'onion-flakes', atMinute: 20, massG: 5 },
    ];
    const mine = makeSchedule(draft).filter((step) => step.cookingId === boxed.id);
    expect(mine.some((step) => step.action === 'add')).toBe(false);
    expect(mine.find((step) => step.action === 'put-on')?.quantities.some((one) => one.what.includes('barley'))).toBe(
      true,
    );
  });
});

describe('cautions', () => {
  it('name the harm and a source, and cover what hurts', () => {
    const all = cautionsForPage();
    const ids = all.map((caution) => caution.id);
    for (const id of ['carbon-monoxide', 'fire', 'pressure-cooker', 'beans', 'holding', 'refuelling']) {
      expect(ids).toContain(id);
    }
    const harm = /kill|poison|vomit|spray|burn|spread|diarrhoea|harm|ill/;
    for (const caution of all) {
      expect(caution.short).toMatch(harm);
      expect(caution.source).not.toBe('');
      expect(caution.full.length).toBeGreaterThan(caution.short.length);
    }
    expect(all.some((caution) => caution.full.includes('maker'))).toBe(true);
  });
});

describe('beans that were not soaked', () => {
  it('are boiled up in the first water that the plan counts, then put into fresh water', () => {
    const draft = planDraftFixture();
    const [cooking] = draft.cookings.filter((one) => one.kitId === 'red-bean-barley-stew');
    if (cooking === undefined) throw new Error('no bean stew in the fixture');
    cooking.method = { ...cooking.method, soak: null, finish: 'flame', firstWater: 'poured-away' };
    cooking.waterL = { ...cooking.waterL, inPot: 1.6, soakPouredAway: 0, rinse: 0.99 };
    const watersOf = makeSchedule(draft)
      .filter((step) => step.cookingId === cooking.id)
      .flatMap((step) => step.quantities)
      .filter((quantity) => quantity.what.includes('safe water'));
    expect(watersOf.map((quantity) => [quantity.what, quantity.amount])).toEqual([
      ['safe water', 0.99],
      ['fresh safe water', 1.6],
    ]);
  });
});

describe('without a clock', () => {
  it('a soak, a box and a meal say how long as well as until when, and never longer than is safe', () => {
    for (const step of steps) {
      if (step.action === 'soak') expect(step.text).toMatch(/ for [\d½¼¾]+\u00a0h, indoors/);
      if (step.action === 'box' && step.text.includes('until')) {
        expect(step.text).toMatch(/ for ([\d½¼¾]+\u00a0h|\d+\u00a0min), until .*\d{2}:\d{2}\./);
      }
      const within = /throw away within ([\d]*)([½¼¾]?)\u00a0h, by /.exec(step.text);
      if (within === null) continue;
      const hours = Number(within[1] || 0) + ({ '¼': 0.25, '½': 0.5, '¾': 0.75 }[within[2] ?? ''] ?? 0);
      expect(addMinutes(step.at, hours * 60) <= (step.latestAt ?? '')).toBe(true);
    }
    expect(steps.some((step) => step.text.includes('throw away within'))).toBe(true);
  });
});
