/** A client of the program as it is served: every figure of the accuracy tables is asked over HTTP. */
import type {
  BoilingPointAnswer,
  CookTimeAnswer,
  CookTimeQuestion,
  CoolingAnswer,
  CoolingQuestion,
  FuelUseAnswer,
  FuelUseQuestion,
  SoakingAnswer,
  SoakingQuestion,
} from '../../api/cooking/calculators/calculator-types.ts';
import { type TestApp, testApp } from '../http/test-app.ts';

/** Each answer with the members that every calculator adds. */
type WithSpread<T> = T & {
  spread: { cause: string; share: number }[];
  explanation?: { quantity: string; value: unknown }[];
};

export interface Api {
  boilingPoint(query: Record<string, number>): Promise<WithSpread<BoilingPointAnswer>>;
  soaking(q: SoakingQuestion): Promise<WithSpread<SoakingAnswer>>;
  cookTime(q: CookTimeQuestion): Promise<WithSpread<CookTimeAnswer>>;
  fuelUse(q: FuelUseQuestion): Promise<WithSpread<FuelUseAnswer>>;
  cooling(q: CoolingQuestion): Promise<WithSpread<CoolingAnswer>>;
  /** One named quantity of the derivation of a fuel question (`?explain=1`). */
  fuelQuantity(q: FuelUseQuestion, quantity: string): Promise<number>;
}

/** Opens the app in process; a refusal is an error that shows the question and the whole problem. */
export async function openApi(): Promise<Api> {
  const app = await testApp();
  const post = <T>(path: string, body: unknown): Promise<T> => ask<T>(app.send('POST', path, body), { path, body });
  return {
    boilingPoint: (query) => {
      const search = new URLSearchParams(Object.entries(query).map(([name, value]) => [name, String(value)]));
      return ask(app.get(`/api/boiling-point?${search}`), { path: '/api/boiling-point', body: query });
    },
    soaking: (q) => post('/api/soaking', q),
    cookTime: (q) => post('/api/cook-time', q),
    fuelUse: (q) => post('/api/fuel-use', q),
    cooling: (q) => post('/api/cooling', q),
    fuelQuantity: async (q, quantity) => {
      const answer = await post<WithSpread<FuelUseAnswer>>('/api/fuel-use?explain=1', q);
      const value = answer.explanation?.find((step) => step.quantity === quantity)?.value;
      if (typeof value !== 'number') throw new Error(`the derivation has no number ${quantity}`);
      return value;
    },
  };
}

async function ask<T>(sent: ReturnType<TestApp['get']>, question: { path: string; body: unknown }): Promise<T> {
  const response = await sent;
  const answer = (await response.json()) as T;
  if (response.status !== 200)
    throw new Error(`${response.status} for ${JSON.stringify(question)}: ${JSON.stringify(answer)}`);
  return answer;
}
