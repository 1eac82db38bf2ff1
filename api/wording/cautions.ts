/**
 * The cautions that every page and every print carries: what to do, which harm it keeps away, and who says so. The page
 * shows them in full, the paper in short.
 */

import { NBSP } from './numbers.ts';

export interface Caution {
  id: string;
  title: string;
  /** One or two short sentences for paper, the harm in words. */
  short: string;
  /** The whole text for the page. */
  full: string;
  /** Who says so, in short. */
  source: string;
}

const CAUTIONS: readonly Caution[] = [
  {
    id: 'carbon-monoxide',
    title: 'Fumes',
    short: 'Flames outdoors, 6 m (20 ft) off openings. Carbon monoxide kills.',
    full: 'Use camp stoves, grills, wood, charcoal, gas or alcohol flames outdoors only, 6 m (20 ft) away from doors, windows and vents: never in a home, garage, tent or porch. The gas from a flame has no smell and kills; an open window or a fan is not enough. Embers make it until they are fully out. Only a built-in, vented stove may burn indoors, as its maker says. If the alarm sounds, or somebody has a headache, feels sick or dizzy: go outside, then call for help.',
    source: 'CDC; CPSC',
  },
  {
    id: 'fire',
    title: 'Fire',
    short: 'Bare ground, water at hand. No warm stove indoors. Fires spread.',
    full: 'Put the stove on level, bare ground with 1 m (3 ft) cleared around it, and water or an extinguisher within reach. A fire that spreads takes the house. Keep children 1 m (3 ft) away; hot pots and steam scald. Local codes and fire bans come first: many bans allow only burners with a shut-off valve. Follow the maker of each stove.',
    source: 'Forest Service',
  },
  {
    id: 'refuelling',
    title: 'Refuelling',
    short: 'Only a cold burner. Unseen alcohol flames flash back, burn people.',
    full: 'Refill a burner only when its flame is out and it is cold to the touch. Alcohol flames are hard to see by day; pouring onto one flashes back along the stream and has burned people to death. Close gas cylinders after use and store them outdoors. Keep methanol away from food: a mouthful is deadly.',
    source: 'CPSC; NIOSH',
  },
  {
    id: 'pressure-cooker',
    title: 'Pressure cooker',
    short: 'Half full. Open without pressure, or boiling food sprays out.',
    full: "Follow its maker's instructions. Fill it to half for beans and grains and to two thirds for the rest, because foam blocks the vent. Check the vent and the gasket, let the air out before closing the valve, stay beside it, and open it only when the pressure is gone: otherwise boiling food sprays out.",
    source: 'makers',
  },
  {
    id: 'beans',
    title: 'Beans',
    short: 'Soak, pour away, boil hard in fresh water. Underdone: violent vomiting.',
    full: 'Kidney beans and their family hold a poison that only a full boil destroys: soak at least 5 h, pour that water away, then boil hard in fresh water for at least 30 min before any low flame or insulated box. Four or five underdone beans cause violent vomiting. Count only minutes of a visible rolling boil.',
    source: 'FDA',
  },
  {
    id: 'holding',
    title: 'Warm food',
    short: 'At 60 °C (140 °F) or eaten within 2 h. Else it poisons: throw it away.',
    full: 'Keep cooked food at 60 °C (140 °F) or hotter, or eat it within 2 h (1 h above 32 °C, 90 °F). Between 5 °C and 60 °C germs grow, and some leave a poison that reheating does not destroy. Without cold storage nothing is kept: throw leftovers away. Food that has been wetted spoils like fresh food. Never taste to judge.',
    source: 'FSIS; FDA',
  },
  {
    id: 'water',
    title: 'Water',
    short: 'Drink, cook, wash dishes with safe water, or diarrhoea follows.',
    full: 'Drink, cook, brush teeth and wash dishes with safe or treated water only. Boil it hard for 1 min (3 min above 1500 m, 5000 ft), or treat it with plain, unscented bleach and wait 30 min. Neither removes fuel or chemicals. Soak water and pasta water flush toilets; nobody drinks them.',
    source: 'CDC; EPA',
  },
  {
    id: 'people',
    title: 'Frail people',
    short: 'Infants, illness, diets: ask a clinician. Lukewarm food harms.',
    full: 'Young children, people over 65, pregnant women and people with weak immunity eat nothing lukewarm, no leftovers, and no egg or meat that did not boil. Infant formula needs water of 70 °C (158 °F) or hotter and is fed within 2 h. No honey below one year. For special diets and illness ask a clinician.',
    source: 'WHO; FDA',
  },
];

/** The line that stands under every list of cautions. */
export const DEFER_LINE = "Local codes, fire bans and makers' instructions come before this sheet.";

/** The cautions in full, for the page. */
export function cautionsForPage(): Caution[] {
  return CAUTIONS.map((caution) => ({ ...caution }));
}

/**
 * The cautions that belong on one plan's paper, in short.
 * @param uses what the plan uses: without it its caution is left off
 */
export function cautionsForSheet(uses: {
  flame: boolean;
  pressureCooker: boolean;
  kidneyFamily: boolean;
  liquidFuel: boolean;
}): Caution[] {
  const cautions = cautionsForPage().map((caution) => ({ ...caution, short: keepUnits(caution.short) }));
  return cautions.filter((caution) => {
    if (caution.id === 'pressure-cooker') return uses.pressureCooker;
    if (caution.id === 'beans') return uses.kidneyFamily;
    if (caution.id === 'refuelling') return uses.flame && uses.liquidFuel;
    if (caution.id === 'carbon-monoxide' || caution.id === 'fire') return uses.flame;
    return true;
  });
}

/** Puts a non-breaking space between each number and its unit. */
function keepUnits(text: string): string {
  return text.replace(/(\d) (m|ft|h|°[CF])(?![a-z])/g, `$1${NBSP}$2`);
}
