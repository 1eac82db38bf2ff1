/** Joins an answer with its derivation. */
import type { ExplanationStep } from '../cooking/calculators/calculator-types.ts';

/** The answer, and its steps where they are asked for: they are many, and are not worked out otherwise. */
export function explained<Question, Answer extends object>(
  answerOf: (question: Question) => Answer,
  explain: (question: Question) => ExplanationStep[],
  question: Question,
  query: { explain?: '0' | '1' | undefined },
): Answer & { explanation?: ExplanationStep[] } {
  const plain = answerOf(question);
  return query.explain === '1' ? { ...plain, explanation: explain(question) } : plain;
}
