/** Questions that keep the solver busy: asked with progress and a stop button, answered into the page's state. */
import { type FieldError, ServerRefusal, type SolverProgress } from '../api-client.ts';
import { html } from '../html.ts';
import { writeNumber } from '../numbers.ts';
import { type LongWork, type Page, usePage } from '../page-state.ts';

export interface LongQuestion<Body> {
  /** null until it was answered for this key. */
  answer: Body | null;
  working: LongWork['working'];
  fault: string | null;
  errors: FieldError[];
  /** `about`: another key than the one at hand, where asking itself has changed what the question is about. */
  ask: (question: unknown, said: (answer: Body) => string, about?: string) => Promise<void>;
}

/**
 * One long question of the page.
 * @param name what it is kept under
 * @param key what it is about: answers to another key are not shown
 * @param limitS seconds that the search may take
 */
export function useLongQuestion<Body>(name: string, path: string, key: string, limitS: number): LongQuestion<Body> {
  const page = usePage();
  const kept = page.longWork[name];
  const own = kept?.key === key ? kept : undefined;
  return {
    answer: (own?.answer ?? null) as Body | null,
    working: own?.working ?? null,
    fault: own?.fault ?? null,
    errors: own?.errors ?? [],
    ask: (question, said, about = key) => askLong<Body>(page, name, path, about, limitS, question, said),
  };
}

async function askLong<Body>(
  page: Page,
  name: string,
  path: string,
  key: string,
  limitS: number,
  question: unknown,
  said: (answer: Body) => string,
) {
  const stopper = new AbortController();
  const keep = (part: Partial<LongWork>) =>
    page.set(({ longWork }) => {
      const before = longWork[name];
      const own = before?.key === key ? before : { key, working: null, answer: null, fault: null, errors: [] };
      return { longWork: { ...longWork, [name]: { ...own, ...part } } };
    });
  const began = performance.now();
  let latest: SolverProgress = { elapsedS: 0 };
  const tick = (progress: Partial<SolverProgress>) => {
    latest = { ...latest, ...progress, elapsedS: (performance.now() - began) / 1000 };
    keep({ working: { progress: latest, limitS, stop: () => stopper.abort() } });
  };
  keep({ fault: null, errors: [] });
  tick({});
  page.announce('Working it out…');
  // The solver may be silent for a while; the seconds go on all the same.
  const clock = setInterval(() => tick({}), 500);
  try {
    await page.household?.flush();
    const answer = await page.api.ask<Body>(path, question, stopper.signal, tick);
    keep({ working: null, answer });
    page.announce(said(answer));
  } catch (error) {
    if (stopper.signal.aborted) {
      keep({ working: null });
      page.announce('Stopped.');
      return;
    }
    const refused = error instanceof ServerRefusal ? error : new ServerRefusal(0, 'The answer could not be read.');
    keep({ working: null, fault: refused.message, errors: refused.errors });
    page.alarm(refused.message);
  } finally {
    clearInterval(clock);
  }
}

/** How long the work has taken of its limit, what it is at, and the button that ends it. */
export function WorkProgress({
  doing,
  after,
  progress,
  limitS,
  stop,
  said,
}: {
  doing: string;
  /** What goes on when the limit of the search is over. */
  after: string;
  progress: SolverProgress;
  limitS: number;
  stop: () => void;
  /** What the search is at, in words; else its aim and best value. */
  said?: ((progress: SolverProgress) => string) | undefined;
}) {
  return html`<div class="planning">
    <p>
      ${
        progress.elapsedS <= limitS
          ? `${doing}: ${Math.floor(progress.elapsedS)} of at most ${limitS} s.`
          : `${doing}: ${Math.floor(progress.elapsedS)} s. The limit of ${limitS} s for the search is over; ${after}.`
      }
      ${' '}${said === undefined ? aimInWords(progress) : said(progress)}
    </p>
    <progress max=${limitS} value=${Math.min(progress.elapsedS, limitS)} aria-label="Time used of the limit"></progress>
    <button type="button" onClick=${stop}>Stop</button>
  </div>`;
}

function aimInWords({ aim, best }: SolverProgress): string {
  const words = aim ? ` Aim: ${String(aim).replaceAll('-', ' ')}.` : '';
  return typeof best === 'number' ? `${words} Best so far ${writeNumber(best, 3)}.` : words;
}

/** The button of a long question with its progress and what went wrong. */
export function LongWorkBlock({
  question,
  doing,
  label,
  said,
  onAsk,
}: {
  question: Pick<LongQuestion<unknown>, 'working' | 'fault' | 'errors'>;
  doing: string;
  label: string;
  said: (progress: SolverProgress) => string;
  onAsk: () => void;
}) {
  const { working, fault, errors } = question;
  return html`<div class="row-end">
      <button type="button" aria-disabled=${working === null ? undefined : 'true'} onClick=${() => working === null && onAsk()}>${label}</button>
    </div>
    ${fault === null ? null : html`<p class="notice">${fault} ${errors.map((error) => error.detail).join(' ')}</p>`}
    ${working === null ? null : html`<${WorkProgress} doing=${doing} after="the answer is being put together" said=${said} ...${working} />`}`;
}
