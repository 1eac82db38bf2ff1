/** What hot and varied meals cost in fuel: the question, and the point that a plan was made at. */
import { useMemo } from 'preact/hooks';
import { textInSystem } from '../../api/wording/text-in-system.ts';
import type { SolverProgress } from '../api-client.ts';
import type { Plan, TradeOff } from '../api-types.ts';
import { curveKeyOf, planAtPoint } from '../chosen-point.ts';
import { Later } from '../components/later.ts';
import { LongWorkBlock, useLongQuestion } from '../components/long-work.ts';
import { html } from '../html.ts';
import { usePage } from '../page-state.ts';
import { outcomeInWords } from './plan.ts';

const TIME_LIMIT_S = 20;

export function TradeOffSection({ plan }: { plan: Plan }) {
  // Plans at other points have the same curve: it stays when one is made.
  const key = useMemo(() => curveKeyOf(plan), [plan]);
  const question = useLongQuestion<TradeOff>(
    'trade-off',
    `/api/plans/${plan.id}/trade-off?explain=1`,
    key,
    TIME_LIMIT_S,
  );
  const ask = () => question.ask({ timeLimitS: TIME_LIMIT_S }, ({ points }) => `${points.length} points on the curve.`);
  return html`<section aria-labelledby="trade-off-title">
    <h2 id="trade-off-title">Fuel against hot and varied meals</h2>
    <p class="hint">How much fuel each further hot meal takes, and what it takes that no dish comes again too soon.</p>
    <${LongWorkBlock} question=${question} doing="Working out the curve" label="Show the curve" said=${progressInWords} onAsk=${() => void ask()} />
    ${question.answer === null ? null : html`<${Later} load=${loadCurve} props=${{ plan, answer: question.answer }} />`}
  </section>`;
}

const loadCurve = () => import('./plan-trade-off-curve.ts').then((part) => part.Curve);

function progressInWords({ best, bound }: SolverProgress): string {
  return typeof best === 'number' && typeof bound === 'number'
    ? `${best === 1 ? '1 hot meal' : `${best} hot meals`}, of ${bound} at most.`
    : 'Laying out the plan.';
}

/** What was chosen, where a plan was made at a point of the curve, and the way back. */
export function ChosenPointLine({ plan }: { plan: Plan }) {
  const page = usePage();
  if (plan.tradeOff === undefined) return null;
  const ordinary = () => void planAtPoint(page, plan, null, (made) => `The ordinary plan. ${outcomeInWords(made)}`);
  return html`<div class="save-line">
    <p>${textInSystem(plan.tradeOff.text, page.units)} <a href="#trade-off-title">Another point</a></p>
    <button type="button" class="small" aria-disabled=${page.planning === null ? undefined : 'true'} onClick=${ordinary}>Plan without sparing</button>
  </div>`;
}
