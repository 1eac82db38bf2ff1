/**
 * The demonstration kits: our own everyday dishes for about five servings. Masses are common practice for a dish that
 * is a whole meal (100 to 120 g of dry food a serving in the morning, 130 to 155 g later in the day, oil included).
 */
import type { Ingredient, Kit } from '../cooking/dishes/kit.ts';

/**
 * The kits of the demonstration household, in a fresh array.
 * @returns kits whose masses are g per set
 */
export function demoKits(): Kit[] {
  return [
    {
      format: 1,
      id: 'oat-apple-porridge',
      name: 'Oat porridge with apple',
      servings: 5,
      divisible: true,
      style: 'porridge',
      suits: ['breakfast'],
      parts: [
        { id: 'oats', name: 'Oats', ingredients: grams({ 'rolled-oats': 330 }) },
        {
          id: 'milk-fruit',
          name: 'Milk powder, apple, walnuts and sugar',
          ingredients: grams({ 'whole-milk-powder': 160, 'apple-dried': 60, walnuts: 120, sugar: 70, salt: 3 }),
        },
      ],
    },
    {
      format: 1,
      id: 'millet-raisin-porridge',
      name: 'Millet porridge with raisins',
      servings: 5,
      divisible: true,
      style: 'porridge',
      suits: ['breakfast'],
      parts: [
        { id: 'millet', name: 'Millet', soakable: true, ingredients: grams({ millet: 330 }) },
        {
          id: 'milk-fruit',
          name: 'Milk powder, raisins, almonds and sugar',
          ingredients: grams({ 'whole-milk-powder': 170, raisins: 80, almonds: 110, sugar: 70, salt: 3 }),
        },
      ],
    },
    {
      format: 1,
      id: 'cornmeal-milk-porridge',
      name: 'Corn porridge with milk',
      servings: 5,
      divisible: true,
      style: 'porridge',
      suits: ['breakfast'],
      parts: [
        { id: 'corn', name: 'Cornmeal', ingredients: grams({ cornmeal: 330 }) },
        {
          id: 'milk-fruit',
          name: 'Milk powder, raisins, almonds and sugar',
          ingredients: grams({ 'whole-milk-powder': 180, raisins: 80, almonds: 100, sugar: 70, salt: 3 }),
        },
      ],
    },
    {
      format: 1,
      id: 'sweet-milk-rice',
      name: 'Sweet milk rice',
      servings: 5,
      divisible: true,
      style: 'porridge',
      suits: ['breakfast', 'midday'],
      parts: [
        { id: 'rice', name: 'White rice', ingredients: grams({ 'white-rice': 340 }) },
        {
          id: 'milk-fruit',
          name: 'Milk powder, raisins, almonds and sugar',
          ingredients: grams({ 'whole-milk-powder': 200, raisins: 90, almonds: 80, sugar: 80, salt: 3 }),
        },
      ],
    },
    {
      format: 1,
      id: 'lentil-bulgur-soup',
      name: 'Lentil and bulgur soup',
      servings: 5,
      divisible: true,
      style: 'soup',
      suits: ['midday'],
      parts: [
        { id: 'lentils', name: 'Brown lentils', soakable: true, ingredients: grams({ 'lentil-brown': 320 }) },
        { id: 'bulgur', name: 'Bulgur', ingredients: grams({ bulgur: 230 }) },
        { id: 'broth', name: 'Broth and onion', ingredients: grams({ 'onion-flakes': 30, 'bouillon-powder': 25 }) },
        { id: 'oil', name: 'Oil', ingredients: grams({ oil: 215 }) },
      ],
    },
    {
      format: 1,
      id: 'split-pea-potato-soup',
      name: 'Split pea and potato soup',
      servings: 5,
      divisible: true,
      style: 'soup',
      suits: ['midday'],
      parts: [
        { id: 'peas', name: 'Split peas', soakable: true, ingredients: grams({ 'split-pea': 340 }) },
        {
          id: 'potato',
          name: 'Dried potato',
          ingredients: grams({ 'potato-dice-dehydrated': 200, 'onion-flakes': 25 }),
        },
        { id: 'broth', name: 'Broth powder', ingredients: grams({ 'bouillon-powder': 25 }) },
        { id: 'oil', name: 'Oil', ingredients: grams({ oil: 220 }) },
      ],
    },
    {
      format: 1,
      id: 'crackers-nut-butter-fruit',
      name: 'Crackers, peanut butter and dried fruit',
      servings: 5,
      divisible: true,
      style: 'no-cook',
      suits: ['breakfast', 'midday', 'evening'],
      parts: [
        { id: 'crackers', name: 'Crackers', ingredients: grams({ crackers: 370 }) },
        { id: 'spread', name: 'Peanut butter', ingredients: grams({ 'peanut-butter': 210 }) },
        { id: 'fruit', name: 'Raisins and apple', ingredients: grams({ raisins: 110, 'apple-dried': 60 }) },
      ],
      note: 'Peanut: keep away from anyone with a peanut allergy.',
    },
    {
      format: 1,
      id: 'couscous-vegetable-bowl',
      name: 'Cold couscous with peas and corn',
      servings: 5,
      divisible: true,
      style: 'no-cook',
      suits: ['midday', 'evening'],
      parts: [
        { id: 'couscous', name: 'Couscous', ingredients: grams({ couscous: 420 }) },
        {
          id: 'vegetables',
          name: 'Freeze-dried peas and corn',
          ingredients: grams({ 'fd-peas': 60, 'fd-sweetcorn': 70, raisins: 50 }),
        },
        { id: 'seasoning', name: 'Seasoning', ingredients: grams({ salt: 8 }) },
        { id: 'oil', name: 'Oil', ingredients: grams({ oil: 225 }) },
      ],
    },
    {
      format: 1,
      id: 'red-bean-barley-stew',
      name: 'Red bean and barley stew',
      servings: 5,
      divisible: true,
      style: 'stew',
      suits: ['evening'],
      parts: [
        { id: 'beans', name: 'Kidney beans', soakable: true, ingredients: grams({ 'kidney-bean': 330 }) },
        { id: 'barley', name: 'Pearl barley', soakable: true, ingredients: grams({ 'pearl-barley': 220 }) },
        {
          id: 'seasoning',
          name: 'Tomato, onion and broth',
          ingredients: grams({ 'tomato-powder': 50, 'onion-flakes': 30, 'bouillon-powder': 20 }),
        },
        { id: 'oil', name: 'Oil', ingredients: grams({ oil: 215 }) },
      ],
    },
    {
      format: 1,
      id: 'small-red-bean-rice',
      name: 'Small red beans with rice',
      servings: 5,
      divisible: true,
      style: 'stew',
      suits: ['midday', 'evening'],
      parts: [
        { id: 'beans', name: 'Small red beans', soakable: true, ingredients: grams({ 'small-red-bean': 280 }) },
        { id: 'rice', name: 'Parboiled rice', ingredients: grams({ 'parboiled-rice': 300 }) },
        { id: 'seasoning', name: 'Onion and broth', ingredients: grams({ 'onion-flakes': 30, 'bouillon-powder': 22 }) },
        { id: 'oil', name: 'Oil', ingredients: grams({ oil: 215 }) },
      ],
    },
    {
      format: 1,
      id: 'chickpea-tomato-stew',
      name: 'Chickpea and tomato stew with bulgur',
      servings: 5,
      divisible: true,
      style: 'stew',
      suits: ['midday', 'evening'],
      parts: [
        { id: 'chickpeas', name: 'Chickpeas', soakable: true, ingredients: grams({ chickpea: 330 }) },
        { id: 'bulgur', name: 'Bulgur', ingredients: grams({ bulgur: 220 }) },
        {
          id: 'seasoning',
          name: 'Tomato, onion and salt',
          ingredients: grams({ 'tomato-powder': 55, 'onion-flakes': 30, salt: 8 }),
        },
        { id: 'oil', name: 'Oil', ingredients: grams({ oil: 210 }) },
      ],
    },
    {
      format: 1,
      id: 'chicken-noodle-pot',
      name: 'Chicken and vegetable pasta pot',
      servings: 5,
      divisible: true,
      style: 'soup',
      suits: ['midday', 'evening'],
      parts: [
        { id: 'pasta', name: 'Pasta', ingredients: grams({ pasta: 320 }) },
        {
          id: 'freeze-dried',
          name: 'Freeze-dried chicken, peas, corn and carrot',
          ingredients: grams({ 'fd-chicken': 150, 'fd-peas': 70, 'fd-sweetcorn': 60, 'fd-carrot': 50 }),
        },
        { id: 'broth', name: 'Broth powder', ingredients: grams({ 'bouillon-powder': 28 }) },
        { id: 'oil', name: 'Oil', ingredients: grams({ oil: 215 }) },
      ],
    },
    {
      format: 1,
      id: 'beef-potato-stew',
      name: 'Beef and potato stew',
      servings: 5,
      divisible: true,
      style: 'stew',
      suits: ['midday', 'evening'],
      parts: [
        {
          id: 'freeze-dried',
          name: 'Freeze-dried beef, carrot and peas',
          ingredients: grams({ 'fd-ground-beef': 190, 'fd-carrot': 60, 'fd-peas': 60 }),
        },
        {
          id: 'potato',
          name: 'Dried potato',
          ingredients: grams({ 'potato-dice-dehydrated': 290, 'onion-flakes': 25 }),
        },
        { id: 'broth', name: 'Broth powder', ingredients: grams({ 'bouillon-powder': 28 }) },
        { id: 'oil', name: 'Oil', ingredients: grams({ oil: 200 }) },
      ],
    },
    {
      format: 1,
      id: 'red-lentil-rice',
      name: 'Red lentils with rice',
      servings: 5,
      divisible: true,
      style: 'rice',
      suits: ['midday'],
      parts: [
        {
          id: 'rice-lentils',
          name: 'Rice and red lentils',
          ingredients: grams({ 'white-rice': 330, 'lentil-red': 240 }),
        },
        { id: 'seasoning', name: 'Onion and broth', ingredients: grams({ 'onion-flakes': 30, 'bouillon-powder': 22 }) },
        { id: 'oil', name: 'Oil', ingredients: grams({ oil: 215 }) },
      ],
    },
    {
      format: 1,
      id: 'chicken-pea-rice',
      name: 'Chicken, rice and peas',
      servings: 5,
      divisible: true,
      style: 'rice',
      suits: ['midday', 'evening'],
      parts: [
        { id: 'rice', name: 'Parboiled rice', ingredients: grams({ 'parboiled-rice': 400 }) },
        {
          id: 'freeze-dried',
          name: 'Freeze-dried chicken and peas',
          ingredients: grams({ 'fd-chicken': 140, 'fd-peas': 60 }),
        },
        { id: 'broth', name: 'Broth powder', ingredients: grams({ 'bouillon-powder': 24, 'onion-flakes': 20 }) },
        { id: 'oil', name: 'Oil', ingredients: grams({ oil: 215 }) },
      ],
    },
    {
      format: 1,
      id: 'pea-sweetcorn-chowder',
      name: 'Pea and sweetcorn chowder with chicken',
      servings: 5,
      divisible: true,
      style: 'soup',
      suits: ['midday', 'evening'],
      parts: [
        {
          id: 'pulses',
          name: 'Split peas',
          soakable: true,
          containersPerSet: 2,
          ingredients: [{ foodId: 'split-pea', massG: 400, alternatives: ['lentil-brown', 'lentil-red'] }],
        },
        {
          id: 'seasoning',
          name: 'Milk powder, onion and broth',
          ingredients: grams({ 'whole-milk-powder': 150, 'onion-flakes': 25, 'bouillon-powder': 25 }),
        },
        {
          id: 'freeze-dried',
          name: 'Freeze-dried chicken, corn and carrot',
          ingredients: grams({ 'fd-chicken': 150, 'fd-sweetcorn': 120, 'fd-carrot': 50 }),
        },
      ],
    },
  ];
}

function grams(masses: Readonly<Record<string, number>>): Ingredient[] {
  return Object.entries(masses).map(([foodId, massG]) => ({ foodId, massG }));
}
