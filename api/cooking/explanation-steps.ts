/** Writing the steps of a derivation: facts, table rows, parameters, and quantities worked out from those before. */
import type { Parameter, SourceRef } from '../physics/parameter.ts';
import type { ExplanationStep } from './calculator-types.ts';

export const THE_QUESTION: SourceRef = { key: 'planner-derivation', place: 'the question' };
export const ARITHMETIC: SourceRef = { key: 'planner-derivation', place: 'arithmetic of the steps before' };

/** A list of steps that grows; every quantity is named once. */
export interface StepList {
  readonly steps: ExplanationStep[];
  /** What was asked, or a choice that was made; `words` say which. */
  fact(quantity: string, value: ExplanationStep['value'], unit: string, words?: string, source?: SourceRef): void;
  /** A row of a table or a parameter, with its range. */
  row(quantity: string, parameter: Parameter, words?: string): void;
  /** A quantity that follows from those before it by `relation`, whose names are its inputs. */
  computed(
    quantity: string,
    value: number | boolean,
    unit: string,
    relation: string,
    source?: SourceRef,
    estimate?: boolean,
  ): void;
}

export function stepList(): StepList {
  const steps: ExplanationStep[] = [];
  return {
    steps,
    fact(quantity, value, unit, words = 'as asked', source = THE_QUESTION) {
      steps.push({ quantity, value, unit, relation: words, inputs: [], source, estimate: false });
    },
    row(quantity, { value, p10, p90, unit, source, estimate }, words = 'table row') {
      const range = p10 === p90 ? '' : `, P10 ${short(p10)} to P90 ${short(p90)}`;
      steps.push({ quantity, value, unit, relation: words + range, inputs: [], source, estimate });
    },
    computed(quantity, value, unit, relation, source = ARITHMETIC, estimate = false) {
      steps.push({ quantity, value, unit, relation, inputs: namesIn(relation), source, estimate });
    },
  };
}

/** Quantities that a relation names, in order, each once; functions and `pi` are none. */
function namesIn(relation: string): string[] {
  const names = relation.match(/(?<![\w.])[A-Za-z]\w*(?!\w|\()/g) ?? [];
  return [...new Set(names)].filter((name) => name !== 'pi');
}

/** A name in words or with hyphens as one identifier: `start-up minutes` becomes `startUpMinutes`. */
export function identifierOf(words: string): string {
  return words.replace(/[^A-Za-z0-9]+(.)/g, (_gap, letter: string) => letter.toUpperCase());
}

function short(value: number): string {
  return String(Number(value.toPrecision(6)));
}
