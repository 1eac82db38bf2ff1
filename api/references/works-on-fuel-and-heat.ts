import type { Work } from './works-cited.ts';

export const WORKS_ON_FUEL_AND_HEAT = {} as const satisfies Record<string, Work>;
