/** What the app is made of: the ports and the few facts that a runtime knows. */
import type { Clock, NewId } from '../planning/clock.ts';
import type { Solver } from '../planning/solver.ts';
import type { DocumentStore } from '../storage/document-store.ts';
import type { SiteFile } from './site.ts';

export interface Services {
  store: DocumentStore;
  solver: Solver;
  clock: Clock;
  newId: NewId;
  /** Lets the runtime answer others in the middle of long work; absent where there are no others. */
  pause?: () => Promise<void>;
  /** Version of the program, as in package.json. */
  programVersion: string;
  /** `host:port` of every Host that is served; anything else is refused before any route. */
  allowedHosts: readonly string[];
  /** The files of the page. */
  site?: ReadonlyMap<string, SiteFile>;
  /** Is told of faults of the program. Must not write down household data. */
  logFault?: (error: unknown) => void;
}
