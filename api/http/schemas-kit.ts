/** Kits and stock entries as sent: strict, with units and ranges. Mirrors `cooking/dishes/kit.ts` and `planning/plan-types.ts`. */
import type { Kit } from '../cooking/dishes/kit.ts';
import { DISH_STYLES, MEAL_SLOTS } from '../cooking/dishes/kit.ts';
import type { StockEntry } from '../planning/plan-types.ts';
import { STOCK_REASONS } from '../planning/plan-types.ts';
import {
  count,
  date,
  dateTime,
  distinctIds,
  dryFoodMoisturePercent,
  foodId,
  format,
  id,
  label,
  measure,
  note,
  storageC,
} from './schema-values.ts';
import { z } from './zod.ts';

const ingredient = z.strictObject({
  foodId,
  massG: measure(0.1, 50_000, 'g'),
  alternatives: z.array(foodId).max(10).optional(),
  addAtMinutesBeforeEnd: measure(0, 600, 'min').nullable().optional(),
});

export const kitSchema = z
  .strictObject({
    format,
    id,
    name: label,
    servings: measure(0.5, 500, '1'),
    divisible: z.boolean().optional(),
    style: z.enum(DISH_STYLES),
    suits: z.array(z.enum(MEAL_SLOTS)).min(1).max(MEAL_SLOTS.length),
    parts: z
      .array(
        z.strictObject({
          id,
          name: label,
          soakable: z.boolean().optional(),
          containersPerSet: count(1, 100).optional(),
          asItIs: z.boolean().optional(),
          ingredients: z.array(ingredient).min(1).max(40),
        }),
      )
      .min(1)
      .max(12)
      .refine(distinctIds, 'Two parts have the same id'),
    note: note.optional(),
  })
  .meta({ id: 'Kit', description: 'The recipe of one dish, stored so that only water and fuel are needed.' });

/** A kit as first sent: the id may be left to the server. */
export const newKitSchema = kitSchema.extend({ id: id.optional() }).meta({ id: 'NewKit' });

export const stockEntrySchema = z
  .strictObject({
    format,
    id,
    kitId: id,
    partId: id,
    placeId: id,
    packedOn: date,
    useBy: date.nullable().optional(),
    storageC: storageC.optional(),
    moisturePercent: dryFoodMoisturePercent.optional(),
    quantity: measure(-10_000, 10_000, '1'),
    reason: z.enum(STOCK_REASONS),
    at: dateTime,
    note: note.optional(),
    useFirst: z.boolean().optional(),
    undoes: id.optional(),
  })
  .meta({ id: 'StockEntry', description: 'One line of the stock ledger. Entries are added, never changed.' });

/** An entry as sent; what it takes back is said to `/api/stock/undo` alone, which looks at it first. */
export const newStockEntrySchema = stockEntrySchema
  .omit({ undoes: true })
  .extend({ id: id.optional() })
  .meta({ id: 'NewStockEntry' });

/** Compile only while whatever the schemas let through are documents of the calculation. */
export const kitOf = (sent: z.output<typeof kitSchema>): Kit => sent;
export const stockEntryOf = (sent: z.output<typeof stockEntrySchema>): StockEntry => sent;
