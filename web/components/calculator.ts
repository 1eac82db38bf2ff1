/** Asks a calculator again at each change and shows its answer with the derivation beside it. */
import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { type Answer, type FieldError, ServerRefusal } from '../api-client.ts';
import type { ExplanationStep, SpreadShare } from '../api-types.ts';
import { html } from '../html.ts';
import { wordsOf } from '../names.ts';
import { writeShort } from '../numbers.ts';
import { type Page, usePage } from '../page-state.ts';
import { DataTable } from './data-table.ts';

export type Derived<Body> = Body & { explanation?: ExplanationStep[]; spread?: SpreadShare[] };

export interface Asked<Body> {
  answer: Derived<Body> | null;
  fault: string | null;
  errors: FieldError[];
}

/**
 * The answer to a question, asked again shortly after each change.
 * @param ask sends the question
 * @param question whatever makes the question another one when it changes
 */
export function useAnswer<Body>(ask: (page: Page) => Promise<Answer<Derived<Body>>>, question: unknown): Asked<Body> {
  const page = usePage();
  const [asked, setAsked] = useState<Asked<Body>>({ answer: null, fault: null, errors: [] });
  const key = JSON.stringify(question);
  useEffect(() => {
    let gone = false;
    const timer = setTimeout(() => {
      ask(page)
        .then(({ body }) => !gone && setAsked({ answer: body, fault: null, errors: [] }))
        .catch((error) => {
          if (gone) return;
          const refused = error instanceof ServerRefusal ? error : new ServerRefusal(0, String(error));
          setAsked({ answer: null, fault: refused.message, errors: refused.errors });
        });
    }, 120);
    return () => {
      gone = true;
      clearTimeout(timer);
    };
  }, [key]);
  return asked;
}

export function Calculator<Body>({
  title,
  asked,
  form,
  children,
}: {
  title: string;
  asked: Asked<Body>;
  form: ComponentChildren;
  children?: ComponentChildren;
}) {
  const known = asked.errors.map((error) => `${error.pointer.replace(/^#\/?/, '')}: ${error.detail}`);
  return html`<section class="calculator">
    <h2>${title}</h2>
    <div class="fields">${form}</div>
    ${asked.fault === null ? null : html`<p class="notice" role="alert">${asked.fault} ${known.join('; ')}</p>`}
    ${asked.answer === null ? null : html`<div class="answer" aria-live="polite">${children}</div><${Derivation} title=${title} answer=${asked.answer} />`}
  </section>`;
}

function Derivation({ title, answer }: { title: string; answer: Derived<unknown> }) {
  const page = usePage();
  const steps = answer.explanation ?? [];
  if (steps.length === 0) return null;
  return html`<details class="more">
    <summary>How it was worked out</summary>
    <${DataTable}
      caption=${`${title}: steps, in order`}
      head=${['Quantity', 'Value', 'Relation', 'Source']}
      words=${[1, 2, 3]}
      rows=${steps.map((step) => [
        step.quantity,
        `${typeof step.value === 'number' ? writeShort(step.value) : String(step.value)}${step.unit === '' || step.unit === '1' ? '' : `\u00a0${step.unit}`}${step.estimate ? ' (estimate)' : ''}`,
        step.relation,
        sourceInWords(page, step.source),
      ])}
    />
    ${
      (answer.spread ?? []).length === 0
        ? null
        : html`<p>The range comes from: ${(answer.spread ?? []).map((row) => `${wordsOf(row.cause).toLowerCase()} ${Math.round(row.share * 100)}\u00a0%`).join(', ')}.</p>`
    }
  </details>`;
}

function sourceInWords(page: Page, source: { key: string; place: string }): string {
  const work = page.tables.works[source.key];
  const name =
    work === undefined
      ? wordsOf(source.key)
      : [work.authors, work.title, work.year]
          .filter((part) => part !== undefined && part !== null && part !== '')
          .join(', ');
  return source.place === '' ? name : `${name}: ${source.place}`;
}
