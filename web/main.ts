/** Starts the page: reads what is stored, then shows the view that the address names. */
import { render } from 'preact';
import { useEffect, useReducer, useRef } from 'preact/hooks';
import { createApiClient, ServerRefusal } from './api-client.ts';
import type { Kit } from './api-types.ts';
import { CautionsBlock } from './components/cautions.ts';
import { DerivationPanel } from './components/derivation.ts';
import { Later } from './components/later.ts';
import { openHousehold } from './household-choice.ts';
import { html } from './html.ts';
import { type NamedRow, type Page, PageContext, type PageState, type Theme } from './page-state.ts';
import { forgetTriedPlan } from './tried-plan.ts';
import { PlanView } from './views/plan.ts';
import { SetUpView } from './views/set-up.ts';

const VIEWS = [
  ['plan', 'Plan'],
  ['tonight', 'Now'],
  ['stores', 'Stores'],
  ['set-up', 'Set-up'],
  ['numbers', 'Numbers'],
] as const;

const THEMES: readonly (readonly [Theme, string])[] = [
  ['system', 'As the device'],
  ['light', 'Light'],
  ['dark', 'Dark'],
];

/** The view and what follows it: `#/stores/kit/oats` gives `stores/kit/oats`; an anchor within the page keeps the view. */
function routeOf(hash: string, current: string): string {
  return hash.startsWith('#/') ? hash.slice(2) : hash === '' ? 'plan' : current;
}

function say(regionId: 'status' | 'alarm', text: string) {
  const region = document.getElementById(regionId);
  if (region === null) return;
  // The same words said twice are only heard when the region was empty in between.
  region.textContent = '';
  setTimeout(() => {
    region.textContent = text;
  }, 30);
}

function showTheme(theme: Theme) {
  if (theme === 'system') document.documentElement.removeAttribute('data-theme');
  else document.documentElement.setAttribute('data-theme', theme);
}

async function loadTables(page: Page) {
  const rows = async (path: string) => {
    const { body } = await page.api.get<{ items?: NamedRow[] } | NamedRow[]>(path);
    return (Array.isArray(body) ? body : (body.items ?? [])).map((row) => ({
      ...row,
      name: String(row.name ?? row.id),
    }));
  };
  const [foods, fuels, stoveTypes, materials] = await Promise.all(
    ['/api/foods', '/api/fuels', '/api/stove-types', '/api/insulation-materials'].map((path) =>
      rows(path).catch(() => []),
    ),
  );
  const works = await page.api
    .get<Record<string, unknown>>('/api/references')
    .then(({ body }) => worksOf(body))
    .catch(() => ({}));
  page.set({
    tables: { foods: foods ?? [], fuels: fuels ?? [], stoveTypes: stoveTypes ?? [], materials: materials ?? [], works },
  });
}

function worksOf(body: Record<string, unknown>): PageState['tables']['works'] {
  const listed = (body.items ?? body.works ?? body) as unknown;
  if (!Array.isArray(listed)) return listed as PageState['tables']['works'];
  return Object.fromEntries(
    (listed as { key?: string; id?: string; title?: string }[]).map((work) => [work.key ?? work.id ?? '', work]),
  );
}

const LAZY = {
  'first-minutes': () => import('./views/first-minutes.ts').then((part) => part.FirstMinutesView),
  book: () => import('./views/book.ts').then((part) => part.BookView),
  numbers: () => import('./views/numbers.ts').then((part) => part.NumbersView),
  stores: () => import('./views/stores.ts').then((part) => part.StoresView),
  tonight: () => import('./views/tonight.ts').then((part) => part.TonightView),
};

function isLater(view: string): view is keyof typeof LAZY {
  return Object.hasOwn(LAZY, view);
}

function Whole({ state, storage }: { state: PageState; storage: Storage }) {
  const [, redraw] = useReducer((count: number) => count + 1, 0);
  const held = useRef(state);
  const page: Page = {
    ...held.current,
    set(part) {
      held.current = { ...held.current, ...(typeof part === 'function' ? part(held.current) : part) };
      redraw(undefined);
    },
    redraw: () => redraw(undefined),
    announce: (text) => say('status', text),
    alarm: (text) => say('alarm', text),
    async reloadStores() {
      const [kits, stock] = await Promise.all([
        page.api.get<{ items: Kit[] }>('/api/kits'),
        page.api.get<PageState['stock']>('/api/stock'),
      ]);
      page.set({ kits: kits.body.items, stock: stock.body, storesRead: true });
    },
  };

  function readAll() {
    page.set({ readFault: null });
    const steps = [openHousehold(page), page.reloadStores(), loadTables(page)];
    void Promise.allSettled(steps).then((outcomes) => {
      const failed = outcomes.find((outcome) => outcome.status === 'rejected');
      if (failed === undefined) return;
      const text = failed.reason instanceof ServerRefusal ? failed.reason.message : 'Something could not be read.';
      page.set({ readFault: text });
      say('alarm', text);
    });
  }

  useEffect(() => {
    const onHash = () => {
      const route = routeOf(location.hash, held.current.route);
      if (route === held.current.route) return;
      page.set({ route });
      document.getElementById('main')?.focus({ preventScroll: true });
      scrollTo(0, 0);
    };
    addEventListener('hashchange', onHash);
    readAll();
    // Nothing typed may be lost by closing the page; the draft is kept in any case.
    addEventListener('pagehide', () => {
      void held.current.household?.flush();
      forgetTriedPlan(storage);
    });
    return () => removeEventListener('hashchange', onHash);
  }, []);

  const view = page.route.split('/')[0] ?? 'plan';
  const name =
    { 'first-minutes': 'First minutes', book: 'Book' }[view] ?? VIEWS.find(([id]) => id === view)?.[1] ?? 'Plan';
  useEffect(() => {
    document.title = `${page.planErrors.length > 0 && view === 'plan' ? 'Error: ' : ''}${name} · Outage kitchen`;
  }, [name, view, page.planErrors]);

  const elevationM = page.household?.state().body.places[0]?.elevationM;
  const emergencySheet = `/api/emergency-sheet?units=${page.units}${elevationM === undefined ? '' : `&elevationM=${elevationM}`}`;
  return html`<${PageContext.Provider} value=${page}>
    <header class="band">
      <a class="brand" href="#/plan"><span aria-hidden="true" class="brand-mark"></span>Outage kitchen</a>
      <div class="switches">
        <label for="units">Units</label>
        <select
          id="units"
          onChange=${(event: Event) => {
            const units = (event.target as HTMLSelectElement).value === 'us' ? 'us' : 'metric';
            storage.setItem('units', units);
            page.set({ units });
          }}
        >
          <option value="metric" selected=${page.units === 'metric'}>Metric</option>
          <option value="us" selected=${page.units === 'us'}>US</option>
        </select>
      </div>
      <nav aria-label="Views">
        ${VIEWS.map(([id, title]) => html`<a href=${`#/${id}`} aria-current=${id === view ? 'page' : undefined}>${title}</a>`)}
      </nav>
    </header>
    <main id="main" tabindex="-1">
      ${page.readFault === null ? null : html`<p class="notice">${page.readFault} What is stored is as it was. <button type="button" class="small" onClick=${readAll}>Try again</button></p>`}
      ${
        isLater(view)
          ? html`<${Later} key=${view} load=${LAZY[view]} props=${{}} />`
          : view === 'set-up'
            ? html`<${SetUpView} />`
            : html`<${PlanView} />`
      }
    </main>
    <footer>
      <${CautionsBlock} />
      <p>
        <a href=${emergencySheet} target="_blank" rel="noopener">A sheet that needs no plan<span class="unseen"> (opens a new tab)</span></a>:
        boiling point, safe water, soak and boil of dry foods, to print before it is needed.
      </p>
      <div class="switches">
        <label for="theme">Colours</label>
        <select
          id="theme"
          onChange=${(event: Event) => {
            const theme = (event.target as HTMLSelectElement).value as Theme;
            storage.setItem('theme', theme);
            showTheme(theme);
            page.set({ theme });
          }}
        >
          ${THEMES.map(([id, title]) => html`<option value=${id} selected=${page.theme === id}>${title}</option>`)}
        </select>
      </div>
      <p>Other users of this computer can reach this page. Nothing typed here leaves it.</p>
    </footer>
    <${DerivationPanel} />
  <//>`;
}

function start() {
  const storage = window.localStorage;
  const theme = (storage.getItem('theme') ?? 'system') as Theme;
  showTheme(theme);
  document.querySelector('.skip')?.addEventListener('click', (event) => {
    event.preventDefault();
    document.getElementById('main')?.focus();
  });
  const state: PageState = {
    api: createApiClient((input, init) => fetch(input, init)),
    storage,
    units: storage.getItem('units') === 'us' ? 'us' : 'metric',
    theme,
    route: routeOf(location.hash, 'plan'),
    tables: { foods: [], fuels: [], stoveTypes: [], materials: [], works: {} },
    household: null,
    households: [],
    loadFault: null,
    readFault: null,
    kits: [],
    stock: { items: [], totals: [], sets: [] },
    storesRead: false,
    removedKit: null,
    removedFood: null,
    plan: null,
    planBefore: null,
    planning: null,
    longWork: {},
    planErrors: [],
    planFault: null,
    derivation: null,
  };
  const root = document.getElementById('page');
  if (root === null) return;
  root.textContent = '';
  render(html`<${Whole} state=${state} storage=${storage} />`, root);
}

start();
