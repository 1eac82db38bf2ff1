/** Words for what is in store: sets, parts that limit, signs of harm. */
import type { InspectionSign } from '../planning/stock-changes.ts';

/** What a sign of harm looks like, and what is done about it. Common practice; food is never tasted to find out. */
export const SIGN_WORDS: Readonly<Record<InspectionSign, { name: string; look: string; act: string }>> = {
  bulging: {
    name: 'Bulging',
    look: 'Lid or bag blown up, hissing when opened, a tin that gives and springs back',
    act: 'Throw it away unopened and out of reach of animals. Never taste it.',
  },
  rodents: {
    name: 'Gnawed or droppings',
    look: 'Tooth marks, holes, droppings, webs, insects',
    act: 'Throw away every container that was opened so. Wipe down the others and close the way in.',
  },
  rancid: {
    name: 'Rancid',
    look: 'Smells of old oil, paint or putty',
    act: 'Throw it away.',
  },
  moist: {
    name: 'Moist or mouldy',
    look: 'Clumps, mould, a musty smell, water inside',
    act: 'Throw it away: mould that is not seen is there too.',
  },
  'no-vacuum': {
    name: 'No vacuum',
    look: 'A bag that was drawn tight and is loose now, and is dry, whole and smells right',
    act: 'Eat this lot before all others of its part.',
  },
};

/** "1 set", "3 sets" */
export function setsText(sets: number): string {
  return sets === 1 ? '1 set' : `${figure(sets)} sets`;
}

/** "1 bag", "2.5 bags" */
export function bagsText(quantity: number): string {
  return quantity === 1 ? '1 bag' : `${figure(quantity)} bags`;
}

/** Two digits at most behind the point, none where they are zero. */
export function figure(value: number): string {
  return String(Math.round(value * 100) / 100);
}
