/** Writing the steps of a derivation: facts, table rows, parameters, and quantities worked out from those before. */
import type { Parameter, SourceRef } from '../../physics/parameter.ts';
import type { ExplanationStep } from '../calculators/calculator-types.ts';

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
    value: ExplanationStep['value'],
    unit: string,
    relation: string,
    source?: SourceRef,
    estimate?: boolean,
  ): void;
  /**
   * Takes in the steps of another derivation. What is listed already, by the same relation, is not listed again.
   * @returns the name under which a quantity of the other derivation now stands
   */
  include(steps: readonly ExplanationStep[], how: Inclusion): (quantity: string) => string;
}

/** How the steps of another derivation are taken in. */
export interface Inclusion {
  /** Put before names, as of a food or a question: `lentil` makes `softeningMinutes` `lentilSofteningMinutes`. */
  prefix: string;
  /** Whether a quantity keeps its own name where that is free; default: none does. */
  plain?: (quantity: string) => boolean;
  /** Quantities of the other derivation that stand here under another name. */
  aliases?: Readonly<Record<string, string>>;
  /** Facts of the other derivation that follow here from a relation. */
  relations?: Readonly<Record<string, string>>;
}

/** An empty list of steps. */
export function stepList(): StepList {
  const steps: ExplanationStep[] = [];
  /** Own name of what was taken in, by the name here. */
  const ownNames = new Map<string, string>();
  const isTaken = (name: string) => steps.some(({ quantity }) => quantity === name);
  const freeName = (name: string): string => {
    if (!isTaken(name)) return name;
    let again = 2;
    while (isTaken(`${name}${again}`)) again += 1;
    return `${name}${again}`;
  };
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
    include(others, { prefix, plain = () => false, aliases = {}, relations = {} }) {
      const names = new Map(Object.entries(aliases));
      for (const other of others) {
        const own = other.quantity;
        if (names.has(own)) continue;
        const given = relations[own];
        const relation = given ?? (other.inputs.length === 0 ? other.relation : renamed(other.relation, names));
        const inputs = given === undefined && other.inputs.length === 0 ? [] : namesIn(relation);
        const known = steps.find(
          (step) =>
            (step.quantity === own || ownNames.get(step.quantity) === own) &&
            step.value === other.value &&
            step.unit === other.unit &&
            step.relation === relation,
        );
        if (known !== undefined) {
          names.set(own, known.quantity);
          continue;
        }
        const quantity =
          plain(own) && !isTaken(own) ? own : freeName(prefix + own.charAt(0).toUpperCase() + own.slice(1));
        steps.push({ ...other, quantity, relation, inputs });
        ownNames.set(quantity, own);
        names.set(own, quantity);
      }
      return (quantity) => names.get(quantity) ?? quantity;
    },
  };
}

/** The steps of a derivation that a quantity rests on, itself included, in their order. */
export function stepsBehind(steps: readonly ExplanationStep[], quantity: string): ExplanationStep[] {
  const wanted = new Set([quantity]);
  const kept = [...steps].reverse().filter((step) => {
    if (!wanted.has(step.quantity)) return false;
    for (const input of step.inputs) wanted.add(input);
    return true;
  });
  return kept.reverse();
}

const NAME = /(?<![\w.])[A-Za-z]\w*(?!\w|\()/g;

function renamed(relation: string, names: ReadonlyMap<string, string>): string {
  return relation.replace(NAME, (name) => names.get(name) ?? name);
}

/** Quantities that a relation names, in order, each once; functions and `pi` are none. */
function namesIn(relation: string): string[] {
  const names = relation.match(NAME) ?? [];
  return [...new Set(names)].filter((name) => name !== 'pi');
}

/** A name in words or with hyphens as one identifier: `start-up minutes` becomes `startUpMinutes`. */
export function identifierOf(words: string): string {
  return words.replace(/[^A-Za-z0-9]+(.)/g, (_gap, letter: string) => letter.toUpperCase());
}

function short(value: number): string {
  return String(Number(value.toPrecision(6)));
}
