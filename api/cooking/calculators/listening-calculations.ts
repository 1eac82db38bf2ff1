/** The calculators with an ear: what is asked of them while a dish is worked out, in order. */
import type { BoxBoilQuestion } from '../kinetics/box-cooking.ts';
import { type Calculations, createCalculations } from './calculations.ts';
import type { CookTimeQuestion, CoolingQuestion, FuelUseQuestion, SoakingQuestion } from './calculator-types.ts';

/** What was asked of the calculators, in order. */
export interface Asked {
  soaking: SoakingQuestion[];
  cookTime: CookTimeQuestion[];
  cooling: CoolingQuestion[];
  boilBeforeBox: BoxBoilQuestion[];
  fuelUse: FuelUseQuestion[];
}

/** Calculators, and the list of what they are asked from now on. */
export function listeningCalculations(): { calculations: Calculations; asked: Asked } {
  const plain = createCalculations();
  const asked: Asked = { soaking: [], cookTime: [], cooling: [], boilBeforeBox: [], fuelUse: [] };
  const listening =
    <Question, Answer>(answerOf: (question: Question) => Answer, heard: Question[]) =>
    (question: Question): Answer => {
      heard.push(question);
      return answerOf(question);
    };
  return {
    asked,
    calculations: {
      ...plain,
      soaking: listening(plain.soaking, asked.soaking),
      cookTime: listening(plain.cookTime, asked.cookTime),
      cooling: listening(plain.cooling, asked.cooling),
      fuelUse: listening(plain.fuelUse, asked.fuelUse),
      boilBeforeBox: listening(plain.boilBeforeBox, asked.boilBeforeBox),
    },
  };
}

/** The questions on boils before the box; a lot is asked after again for its hardened end, which is left out. */
export function typicalQuestions({ boilBeforeBox }: Asked): BoxBoilQuestion[] {
  return boilBeforeBox.filter((question, index) => {
    const before = boilBeforeBox[index - 1];
    if (before === undefined || before.storageFactor === question.storageFactor) return true;
    return JSON.stringify({ ...question, storageFactor: before.storageFactor }) !== JSON.stringify(before);
  });
}
