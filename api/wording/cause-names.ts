/** Causes of a spread in plain words, and the own test that narrows each. */

interface Cause {
  words: string;
  /** Own test that narrows it; null: none of this program does. */
  test: string | null;
}

const BOIL_TEST = 'a boil test';
const READING = 'a box or flask reading';
const BEANS = 'a twenty-bean test or a cooking note';

const CAUSES: Readonly<Record<string, Cause>> = {
  'stove efficiency': { words: 'How well the stove heats the pot', test: BOIL_TEST },
  'stove power': { words: 'Power of the stove', test: BOIL_TEST },
  'lowest flame': { words: 'How low the flame can be turned', test: null },
  'start-up': { words: 'Fuel to light the stove', test: null },
  'start-up minutes': { words: 'Time until the stove burns well', test: null },
  wind: { words: 'Wind at the stove', test: null },
  'air pressure': { words: 'Air pressure of the day', test: null },
  fuel: { words: 'Heat in the fuel, and its moisture', test: null },
  lid: { words: 'How snug the lid is', test: null },
  'pot surface': { words: 'How strongly the pot radiates', test: null },
  'pot mass': { words: 'Weight of the pot', test: null },
  'valve steam': { words: 'Steam past the valve', test: null },
  'open pot': { words: 'Loss of an open pot', test: null },
  'pot loss': { words: 'Loss of the pot in still air', test: null },
  'temperature dependence': { words: 'How softening slows below 100 °C', test: BEANS },
  'extrapolated kinetics': { words: 'Cooking outside the measured temperatures', test: BEANS },
  cook: { words: 'How the cook handles the flame', test: null },
  measuring: { words: 'Water and food measured by eye', test: null },
  'soak temperature': { words: 'Temperature of the soak', test: null },
  'food lot': { words: 'How fast this lot softens', test: BEANS },
  'water entry': { words: 'How fast water enters the seed', test: null },
  'soak uptake': { words: 'How much water the soak brings in', test: null },
  'hard seeds': { words: 'Seeds that take up nothing', test: BEANS },
  'limit of uptake': { words: 'Most water that the seed takes', test: null },
  'storage age': { words: 'Hardening in store', test: BEANS },
  'additive in the water': { words: 'What is in the water', test: null },
  'water held': { words: 'Water that the food holds', test: null },
  insulation: { words: 'How the box is built', test: READING },
  'insulation material': { words: 'What the box is filled with', test: READING },
  flask: { words: 'How well the flask keeps hot', test: READING },
  'own reading': { words: 'The one reading of the box or flask', test: READING },
  draught: { words: 'Draught around the box', test: READING },
  pot: { words: 'Heat that the pot holds', test: null },
};

/** A cause of spread in words: "How well the stove heats the pot"; unknown causes as they are named. */
export function causeWords(cause: string): string {
  return CAUSES[cause]?.words ?? cause.charAt(0).toUpperCase() + cause.slice(1);
}

/** The own test that narrows a cause of spread, in words, or null where none does. */
export function testThatNarrows(cause: string): string | null {
  return CAUSES[cause]?.test ?? null;
}
