import type { Work } from './works-cited.ts';

export const WORKS_ON_PEOPLE = {} as const satisfies Record<string, Work>;
