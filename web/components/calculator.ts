/** Asks a calculator again at each change and shows its answer, each figure with its derivation beside it. */
import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { type Answer, type FieldError, ServerRefusal } from '../api-client.ts';
import type { ExplanationStep, SpreadShare } from '../api-types.ts';
import { html } from '../html.ts';
import { type Page, usePage } from '../page-state.ts';
import { HowButton } from './derivation.ts';
import { SpreadBlock } from './spread.ts';

export type Derived<Body> = Body & { explanation?: ExplanationStep[]; spread?: SpreadShare[] };

export interface Asked<Body> {
  answer: Derived<Body> | null;
  fault: string | null;
  errors: FieldError[];
}

/**
 * The answer to a question, asked again at each change.
 * @param ask sends the question
 * @param question whatever makes the question another one when it changes
 */
export function useAnswer<Body>(ask: (page: Page) => Promise<Answer<Derived<Body>>>, question: unknown): Asked<Body> {
  const page = usePage();
  const [asked, setAsked] = useState<Asked<Body>>({ answer: null, fault: null, errors: [] });
  const key = JSON.stringify(question);
  useEffect(() => {
    let gone = false;
    // Fields hand over when they are left, not at each key, so that there is nothing to wait for.
    ask(page)
      .then(({ body }) => !gone && setAsked({ answer: body, fault: null, errors: [] }))
      .catch((error) => {
        if (gone) return;
        const refused = error instanceof ServerRefusal ? error : new ServerRefusal(0, String(error));
        setAsked({ answer: null, fault: refused.message, errors: refused.errors });
      });
    return () => {
      gone = true;
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
    ${asked.answer === null ? null : html`<div class="answer">${children}</div><${SpreadBlock} spread=${asked.answer.spread ?? []} of=${`the ${title.toLowerCase()}`} />`}
  </section>`;
}

/** One figure of an answer, with the button that opens its derivation. */
export function Figure({
  label,
  answer,
  quantity,
  main,
  children,
}: {
  label: string;
  answer: Derived<unknown>;
  /** Names of the figure among the steps. */
  quantity: readonly string[];
  main?: boolean;
  children?: ComponentChildren;
}) {
  return html`<div class=${main ? 'figure-main' : undefined}>
    <dt>${label}</dt>
    <dd>
      ${children}
      ${(answer.explanation ?? []).length === 0 ? null : html` <${HowButton} of=${label} quantity=${quantity} steps=${answer.explanation} />`}
    </dd>
  </div>`;
}
