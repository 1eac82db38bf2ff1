/** What the whole page shares: stored documents, tables, the plan, and how it is shown. Made once in `main.ts`. */
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { ApiClient, FieldError, SolverProgress } from './api-client.ts';
import type {
  ExplanationStep,
  HouseholdDocument,
  Kit,
  OwnFood,
  Plan,
  SetsAtPlace,
  StockEntry,
  StockLot,
} from './api-types.ts';
import type { UnitSystem } from './measures.ts';
import type { SavedDocument } from './saved-document.ts';

/** A row of a table the server serves; only these members are relied on. */
export interface NamedRow {
  id: string;
  name: string;
  [member: string]: unknown;
}

export interface Tables {
  foods: NamedRow[];
  fuels: NamedRow[];
  stoveTypes: NamedRow[];
  materials: NamedRow[];
  works: Record<string, { authors?: string; title?: string; year?: number | string; where?: string }>;
}

export type Theme = 'system' | 'light' | 'dark';

export interface PlanSummary {
  id: string;
  createdAt?: string;
  householdId?: string;
}

/** A figure whose derivation is to be shown. */
export interface DerivationAsked {
  /** The figure in words. */
  of: string;
  /** Names that it may have among the steps; the first that is there counts. */
  quantity: readonly string[];
  /** Its value, where several dishes have a step of that name, each with the name of its kit before it. */
  near?: number | undefined;
  steps: readonly ExplanationStep[] | ((page: Page) => Promise<readonly ExplanationStep[]>);
}

/** A question to the solver that takes a while: at work, answered, or refused. */
export interface LongWork {
  /** What was asked; another question makes the answer an old one. */
  key: string;
  working: { progress: SolverProgress; limitS: number; stop: () => void } | null;
  answer: unknown;
  fault: string | null;
  errors: FieldError[];
}

export interface PageState {
  api: ApiClient;
  storage: Storage;
  units: UnitSystem;
  theme: Theme;
  route: string;
  tables: Tables;
  household: SavedDocument<HouseholdDocument> | null;
  /** All that are stored, in short. */
  households: { id: string; name: string; placeIds: string[] }[];
  /** Why there is no household to show. */
  loadFault: string | null;
  /** Why not all that is stored could be read from the server. */
  readFault: string | null;
  kits: Kit[];
  stock: { items: StockEntry[]; totals: StockLot[]; sets: SetsAtPlace[] };
  /** Kits and stock have been read from the server. */
  storesRead: boolean;
  /** The kit removed last, until it is put back or another is removed. */
  removedKit: Kit | null;
  /** The own food that was removed last, which can be put back. */
  removedFood: OwnFood | null;
  plan: Plan | null;
  /** The plan that the shown one was changed from, until another is made: it can be put back. */
  planBefore: Plan | null;
  planning: { progress: SolverProgress; limitS: number; stop: () => void } | null;
  /** Long questions by name; they go on while another view is open. */
  longWork: Readonly<Record<string, LongWork>>;
  planErrors: FieldError[];
  planFault: string | null;
  /** Shown in the panel over the page; null while it is shut. */
  derivation: DerivationAsked | null;
}

export interface Page extends PageState {
  set(part: Partial<PageState> | ((state: PageState) => Partial<PageState>)): void;
  /** Says something in the polite live region. */
  announce(text: string): void;
  /** Says something in the urgent live region. */
  alarm(text: string): void;
  /** Draws again after a document changed inside. */
  redraw(): void;
  /** Reads kits and stock from the server again. */
  reloadStores(): Promise<void>;
}

export const PageContext = createContext<Page | null>(null);

/** The page's shared state inside a component. */
export function usePage(): Page {
  const page = useContext(PageContext);
  if (page === null) throw new Error('used outside the page');
  return page;
}
