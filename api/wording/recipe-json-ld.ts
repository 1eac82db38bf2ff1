/** A kit as a schema.org Recipe in JSON-LD, for recipe keepers that read it. */
import { hasKidneyFamily, soakableParts } from '../cooking/dishes/dish.ts';
import type { Kit } from '../cooking/dishes/kit.ts';
import { kitNutrition } from '../cooking/dishes/kit-nutrition.ts';
import { foodName, inSentence } from './names.ts';

const SLOT_WORDS = { breakfast: 'Breakfast', midday: 'Lunch', evening: 'Dinner' } as const;

/** The members of a Recipe that are filled. */
export interface RecipeJsonLd {
  '@context': 'https://schema.org';
  '@type': 'Recipe';
  identifier: string;
  name: string;
  recipeYield: string;
  recipeCategory: string[];
  recipeIngredient: string[];
  recipeInstructions: { '@type': 'HowToStep'; text: string }[];
  nutrition: {
    '@type': 'NutritionInformation';
    servingSize: string;
    calories: string;
    proteinContent: string;
  };
  keywords: string;
  description: string;
}

/**
 * @param kit own foods resolved
 * @returns amounts for one set; energy and protein per serving. Minutes and water are left out: they depend on elevation,
 * stove and age, and a number without these would be wrong; so is sodium, of which only a part is known
 */
export function recipeJsonLd(kit: Kit): RecipeJsonLd {
  const { kcalPerServing, proteinGPerServing, allergens } = kitNutrition(kit);
  const soakable = soakableParts(kit).map((part) => inSentence(part.name));
  const steps = [
    ...(soakable.length === 0
      ? []
      : [
          `Soak ${soakable.join(', ')} where it saves fuel, apart from everything else${hasKidneyFamily(kit) ? ', pour that water away' : ''}.`,
        ]),
    ...(kit.style === 'no-cook'
      ? ['Add safe water where a part must take it up, and let it stand; what is eaten dry stays dry.']
      : ['Boil each part for its own time, sour and milk goods last, so that all are done together.']),
    ...(hasKidneyFamily(kit)
      ? ['Beans of the kidney family boil hard for at least 30 minutes and are never cooked below the boil.']
      : []),
    'Water, minutes and fuel depend on elevation, stove and the age of the food: have them worked out before cooking.',
  ];
  return {
    '@context': 'https://schema.org',
    '@type': 'Recipe',
    identifier: kit.id,
    name: kit.name,
    recipeYield: `${figure(kit.servings)} servings`,
    recipeCategory: kit.suits.map((slot) => SLOT_WORDS[slot]),
    recipeIngredient: kit.parts.flatMap((part) =>
      part.ingredients.map((one) => {
        const others = (one.alternatives ?? []).map((foodId) => inSentence(foodName({ foodId })));
        const or = others.length === 0 ? '' : `, or ${others.join(', or ')}`;
        return `${figure(one.massG)} g ${inSentence(foodName(one))}${or} (${inSentence(part.name)})`;
      }),
    ),
    recipeInstructions: steps.map((text) => ({ '@type': 'HowToStep', text })),
    nutrition: {
      '@type': 'NutritionInformation',
      servingSize: '1 serving',
      calories: `${Math.round(kcalPerServing)} calories`,
      proteinContent: `${Math.round(proteinGPerServing)} g`,
    },
    keywords: [kit.style, ...allergens.map((allergen) => `contains ${allergen}`)].join(', '),
    description: kit.note ?? `A dry kit in ${kit.parts.length === 1 ? '1 part' : `${kit.parts.length} parts`}.`,
  };
}

function figure(value: number): string {
  return String(Math.round(value * 10) / 10);
}
