/** The members that tests use. The package's own types contradict themselves (`export =` beside named exports). */
export interface Composition {
  code: string;
  name: string;
  /** kJ per 100 g */
  enerc: number;
  /** g per 100 g */
  protcnt: number;
  fatce: number;
  choavldf: number;
  fibtg: number;
  water: number;
}
export function load(): Promise<Map<string, Composition>>;
