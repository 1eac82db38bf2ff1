import type { Work } from './works-cited.ts';

export const WORKS_ON_FOOD = {} as const satisfies Record<string, Work>;
