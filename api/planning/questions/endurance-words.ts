/** How long the stores last, in sentences. */
import { MOST_DAYS } from './days-by-arithmetic.ts';
import type { DaysServed, Endurance } from './endurance.ts';

/**
 * Endurance in sentences, the answer first.
 * @param nobodyEats nobody at the table eats from the pot (infants alone)
 */
export function enduranceInWords(
  {
    fed,
    fedHot,
    endsFed,
    endsFedHot,
    reverse,
  }: Pick<Endurance, 'fed' | 'fedHot' | 'endsFed' | 'endsFedHot' | 'reverse'>,
  nobodyEats: boolean,
): string[] {
  const text: string[] = [];
  if (nobodyEats) text.push('Nobody at the table eats from the pot: only the water for people and animals is counted.');
  const daysOf = (count: number) => (count === 1 ? '1 day' : `${count} days`);
  const sure = (found: DaysServed) => found.atMost === found.days;
  if (!sure(fed))
    text.push(
      `Everybody can be fed for at least ${daysOf(fed.days)} and at most ${fed.atMost}; there was no time to find out which.`,
    );
  else if (fed.days === 0) text.push('Not even the first day can be fed in full.');
  else if (fed.days >= MOST_DAYS) text.push(`Everybody can be fed for ${MOST_DAYS} days, the longest that is planned.`);
  else text.push(`Everybody can be fed for ${daysOf(fed.days)}, until the evening of ${fed.lastDate}.`);
  if (!sure(fedHot)) text.push(`Every meal that should be hot can be for at least ${daysOf(fedHot.days)}.`);
  else if (fed.days > 0 && fedHot.days < fed.days)
    text.push(
      fedHot.days === 0
        ? 'Not all meals that should be hot can be, not even on the first day.'
        : `Every meal that should be hot is hot for ${daysOf(fedHot.days)}; after that some are cold.`,
    );
  else if (fed.days > 0) text.push('Every meal that should be hot can be hot all that time.');
  if (fed.days > 0 && !fed.planFound)
    text.push('There was no time to put these days on a calendar: plan them to be sure.');
  if (endsFed !== null) text.push(`For ${daysOf(endsFed.days)}: ${endsFed.text}`);
  if (endsFedHot !== null) text.push(`For ${daysOf(endsFedHot.days)} with every hot meal: ${endsFedHot.text}`);
  if (reverse !== null) {
    text.push(`To be fed for ${daysOf(reverse.days)}: ${reverse.fed.text}`);
    if (reverse.fed.text !== reverse.fedHot.text)
      text.push(`With every hot meal for ${daysOf(reverse.days)}: ${reverse.fedHot.text}`);
  }
  return text;
}
