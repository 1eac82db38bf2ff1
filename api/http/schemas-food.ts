/** Own foods as sent: strict, with units and ranges. Mirrors `cooking/foods/own-food.ts`. */
import { ALLERGENS } from '../cooking/foods/food.ts';
import { LABEL_RANGES, type OwnFood } from '../cooking/foods/own-food.ts';
import { OWN_FOOD_CLASSES, type OwnFoodClass } from '../cooking/foods/own-food-classes.ts';
import { format, id, label, measure, note } from './schema-values.ts';
import { z } from './zod.ts';

function onLabel(field: keyof typeof LABEL_RANGES) {
  const { minimum, maximum, unit } = LABEL_RANGES[field];
  return measure(minimum, maximum, unit).nullable().optional();
}

export const ownFoodSchema = z
  .strictObject({
    format,
    id,
    name: label,
    foodClass: z.enum(Object.keys(OWN_FOOD_CLASSES) as [OwnFoodClass, ...OwnFoodClass[]]),
    kcalPer100G: onLabel('kcalPer100G'),
    proteinGPer100G: onLabel('proteinGPer100G'),
    fatGPer100G: onLabel('fatGPer100G'),
    saltGPer100G: onLabel('saltGPer100G'),
    moistureGPer100G: onLabel('moistureGPer100G'),
    packetMinutes: onLabel('packetMinutes'),
    packetMinutesSoaked: z.boolean().optional(),
    waterTakenUpGPerG: onLabel('waterTakenUpGPerG'),
    bulkDensityGPerL: onLabel('bulkDensityGPerL'),
    allergens: z.array(z.enum(ALLERGENS)).max(ALLERGENS.length).optional(),
    sour: z.boolean().optional(),
    homeDried: z.boolean().optional(),
    note: note.optional(),
  })
  .refine(
    ({ proteinGPer100G, fatGPer100G, moistureGPer100G, saltGPer100G }) =>
      (proteinGPer100G ?? 0) + (fatGPer100G ?? 0) + (moistureGPer100G ?? 0) + (saltGPer100G ?? 0) <= 100.5,
    'Protein, fat, water and salt of 100 g are more than 100 g together',
  )
  .meta({
    id: 'OwnFood',
    description:
      'A food that no table holds, as its label describes it, per 100 g as bought. What is left out is guessed from the class and marked.',
    examples: [{ id: 'garden-beans', name: 'Garden beans', foodClass: 'bean', packetMinutes: 70, allergens: [] }],
  });

/** Compiles only while whatever the schema lets through is a document of the calculation. */
export const ownFoodOf = (sent: z.output<typeof ownFoodSchema>): OwnFood => sent as OwnFood;
