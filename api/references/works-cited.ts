/** Every book, standard, paper and page that a figure in the program rests on, once. */
import { WORKS_ON_FOOD } from './works-on-food.ts';
import { WORKS_ON_FUEL_AND_HEAT } from './works-on-fuel-and-heat.ts';
import { WORKS_ON_PEOPLE } from './works-on-people.ts';

export interface Work {
  /** Authors or publishing body. */
  authors: string;
  title: string;
  year: number | null;
  /** Journal, report number, DOI or publisher: what a reader needs to find it. */
  where: string;
  /** How the work was seen: read in full or in part, in an abstract, quoted by another, recalled, or a rule of practice. */
  seen: 'read' | 'abstract' | 'second-hand' | 'memory' | 'common-practice' | 'derived';
}

export const WORKS_CITED = { ...WORKS_ON_FUEL_AND_HEAT, ...WORKS_ON_FOOD, ...WORKS_ON_PEOPLE } as const;
export type WorkKey = keyof typeof WORKS_CITED;
