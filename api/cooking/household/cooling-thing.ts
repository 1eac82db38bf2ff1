/** Boxes and flasks of a household as the cooling calculator asks for them. */
import type { CoolingQuestion } from '../calculators/calculator-types.ts';
import type { ResolvedBox } from './resolve-household.ts';

/** What is around a pot. @param box null: nothing, or a flask, which is its own insulation */
export function insulationOf(box: ResolvedBox | null): Pick<CoolingQuestion, 'insulation'> {
  if (box === null) return {};
  const { materialId, thicknessMm, conductivityWPerMK } = box;
  return {
    insulation: { materialId, thicknessMm, ...(conductivityWPerMK === null ? {} : { conductivityWPerMK }) },
  };
}

/** What its own readings say: all of them where they count, else the one that is kept with it. */
export function ownReadings(
  thing: Pick<ResolvedBox, 'reading' | 'measured'>,
): Pick<CoolingQuestion, 'reading' | 'measured'> {
  if (thing.measured !== undefined) return { measured: thing.measured };
  return thing.reading === null ? {} : { reading: thing.reading };
}
