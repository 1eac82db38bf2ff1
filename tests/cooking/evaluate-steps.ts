/**
 * Works a derivation out again from its listed values, by a parser that this program did not write, and with the
 * functions as `EXPLANATION_FUNCTIONS` writes them out: nothing of the calculation is called.
 */
import { all, create, type EvalFunction, type FactoryFunctionMap } from 'mathjs';
import { expect } from 'vitest';
import type { ExplanationStep } from '../../api/cooking/calculators/calculator-types.ts';
import {
  EXPLANATION_FUNCTIONS,
  type ExplanationFunction,
  ORDINARY_FUNCTIONS,
} from '../../api/cooking/derivations/explanation-functions.ts';
import { WORKS_CITED } from '../../api/references/works-cited.ts';

type Scope = Record<string, unknown>;
type Numeric = (...numbers: number[]) => number;

/** Its comparisons take nearly equal numbers as equal unless they are told not to. */
const math = create(all as FactoryFunctionMap, { relTol: Number.MIN_VALUE, absTol: 0 });

const compiled = new Map<string, EvalFunction>();
function evaluate(relation: string, scope: Scope): unknown {
  const known = compiled.get(relation) ?? inOwnLanguage(relation);
  compiled.set(relation, known);
  return known.evaluate({ ...FUNCTIONS, ...scope });
}

/** A function as it is written out, line by line. */
function fromLines({ takes, lines }: ExplanationFunction): Numeric {
  return (...numbers) => {
    expect(numbers.length).toBe(takes.length);
    const scope: Scope = Object.fromEntries(takes.map((name, at) => [name, numbers[at]]));
    for (const { quantity, relation } of lines) scope[quantity] = evaluate(relation, scope);
    return scope[lines.at(-1)?.quantity ?? ''] as number;
  };
}

/** Functions that are sums over many intervals, written here from their rule in words. */
const FROM_RULES: Record<string, (...values: never[]) => unknown> = {
  localTimeAfter: (localTime: string, minutes: number) => {
    const later = new Date(`${localTime}:00Z`);
    later.setUTCMinutes(later.getUTCMinutes() + minutes);
    return later.toISOString().slice(0, 16);
  },
  hotSoakIntegral: (
    hours: number,
    waterC: number,
    airC: number,
    timeConstant: number,
    k1Reference: number,
    referenceC: number,
    ...ranges: number[]
  ) => {
    const rate = (atC: number): number => {
      // From the reference in small steps would do as well; here range by range.
      let lnK1 = Math.log(k1Reference as number);
      let fromC = Number.NEGATIVE_INFINITY;
      for (let at = 0; at < ranges.length; at += 2) {
        const toC = at + 2 >= ranges.length ? Number.POSITIVE_INFINITY : (ranges[at] as number);
        const inside = (c: number) => Math.min(Math.max(c, fromC), toC);
        const inverse = (c: number) => 1 / (inside(c) + 273.15);
        lnK1 += ((ranges[at + 1] as number) / 0.008314) * (inverse(atC) - inverse(referenceC as number));
        fromC = toC;
      }
      return Math.exp(-lnK1);
    };
    const interval = (hours as number) / 32;
    const atC = (i: number) =>
      (airC as number) + ((waterC as number) - (airC as number)) * Math.exp((-i * interval) / (timeConstant as number));
    let sum = rate(atC(0)) + rate(atC(32));
    for (let i = 1; i < 32; i += 1) sum += (i % 2 === 0 ? 2 : 4) * rate(atC(i));
    return (sum * interval) / 3;
  },
  boilBeforeBoxMinutes: (...numbers: number[]) => {
    const [soften, hydrate, zBelow, zAbove, zWater, cutOffC, potC, startC, airC, tauHours, boxMinutes] =
      numbers as Elevenfold;
    const z = (atC: number) => (atC <= 100 ? zBelow : zAbove);
    const minutesUntil = (endC: number) =>
      startC <= endC
        ? 0
        : airC >= endC
          ? Number.POSITIVE_INFINITY
          : 60 * tauHours * Math.log((startC - airC) / (endC - airC));
    const interval = Math.min(boxMinutes, minutesUntil(cutOffC)) / 48;
    const atC = (i: number) => airC + (startC - airC) * Math.exp(-(i * interval) / (60 * tauHours));
    const worth = (rate: (c: number) => number) => {
      const sums = [0];
      for (let i = 1; i <= 48; i += 1)
        sums.push((sums[i - 1] as number) + ((rate(atC(i - 1)) + rate(atC(i))) / 2) * interval);
      return sums;
    };
    const softened = worth((c) => 10 ** ((c - 100) / z(c)));
    const entered = worth((c) => 10 ** ((c - 100) / zWater));
    const whole = softened[48] as number;
    const softAtPot = 10 ** ((100 - potC) / z(potC));
    const waterAtPot = 10 ** ((100 - potC) / zWater);
    if (hydrate <= 0 || soften > whole || interval <= 0)
      return hydrate * waterAtPot + Math.max(0, soften - whole) * softAtPot;
    // The last place from which the rest of the box still softens.
    const from = softened.findLastIndex((done) => whole - done >= soften);
    const next = Math.min(48, from + 1);
    const step = (softened[next] as number) - (softened[from] as number);
    const share = step > 0 ? Math.min(1, Math.max(0, (whole - soften - (softened[from] as number)) / step)) : 0;
    const waterIn = (entered[from] as number) + share * ((entered[next] as number) - (entered[from] as number));
    return Math.max(0, hydrate - waterIn) * waterAtPot;
  },
};
type Elevenfold = [number, number, number, number, number, number, number, number, number, number, number];

/** Compiled, after a look at its functions: the parser knows many more than a relation may name. */
function inOwnLanguage(relation: string): EvalFunction {
  for (const [, name] of relation.matchAll(/(\w+)\(/g))
    expect([...ORDINARY_FUNCTIONS, ...Object.keys(EXPLANATION_FUNCTIONS)], relation).toContain(name);
  expect(relation).toMatch(/^[\w\s.,+\-*/^()<>=?:]*$/);
  return math.compile(relation);
}

const FUNCTIONS: Scope = {
  ln: Math.log,
  floor: Math.floor,
  round: (value: number, decimals: number) => Math.round(value * 10 ** decimals) / 10 ** decimals,
  ...FROM_RULES,
  ...Object.fromEntries(
    Object.entries(EXPLANATION_FUNCTIONS)
      .filter(([, written]) => written.lines.length > 0)
      .map(([name, written]) => [name, fromLines(written)]),
  ),
};

/** Whether each function is known here, so that none is missing when a relation names it. */
export const KNOWN_FUNCTIONS: readonly string[] = Object.keys(FUNCTIONS);

/** Two ways through the same arithmetic: a few units in the last place for each of some hundred operations. */
const RELATIVE = 1e-9;
/** What is left of one where a share next to nothing is one less a number next to one. */
const LEFT_OF_ONE = 1e-15;

/**
 * Holds a derivation to what it promises: names once, inputs before use, sources that exist, and every value worked out
 * again from the values listed before it.
 * @returns the value of the last step as worked out again
 */
export function recompute(steps: readonly ExplanationStep[], what = ''): unknown {
  const listed: Scope = {};
  let last: unknown;
  for (const step of steps) {
    const where = `${what} ${step.quantity} = ${step.relation}`;
    expect(step.quantity, where).toMatch(/^[a-z]\w*$/);
    expect(Object.hasOwn(listed, step.quantity), `${where}: named twice`).toBe(false);
    expect(Object.keys(WORKS_CITED), where).toContain(step.source.key);
    expect(step.source.place, where).toMatch(/\S/);
    expect(step.relation, where).toMatch(/\S/);
    for (const input of step.inputs) expect(Object.hasOwn(listed, input), `${where}: ${input}`).toBe(true);
    last = step.value;
    if (step.inputs.length > 0) {
      // Only its own inputs are in scope: a relation that names more than it lists fails here.
      last = evaluate(step.relation, Object.fromEntries(step.inputs.map((name) => [name, listed[name]])));
      if (typeof step.value === 'number') {
        const off = Math.abs((last as number) - step.value);
        expect(
          off <= RELATIVE * Math.abs(step.value) || off < LEFT_OF_ONE,
          `${where}: ${last} is not ${step.value}`,
        ).toBe(true);
      } else expect(last, where).toBe(step.value);
    }
    if (typeof step.value === 'number') expect(Number.isFinite(step.value), where).toBe(true);
    listed[step.quantity] = step.value;
  }
  return last;
}

/**
 * Works the list out anew with some of its facts and rows changed: everything after follows by the relations alone.
 * @param changed new values of steps without inputs, by quantity
 * @returns every value by quantity
 */
export function withChanged(
  steps: readonly ExplanationStep[],
  changed: Readonly<Record<string, number>>,
): Record<string, unknown> {
  const values: Scope = {};
  for (const { quantity, value, relation, inputs } of steps)
    values[quantity] = inputs.length > 0 ? evaluate(relation, values) : (changed[quantity] ?? value);
  return values;
}
