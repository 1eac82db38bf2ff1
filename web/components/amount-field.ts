/** An amount as people have it: by mass, by volume or per serving. What was understood stands beside it, in mass. */
import { useEffect, useId, useState } from 'preact/hooks';
import { massOfTyped } from '../../api/wording/typed-amount.ts';
import type { FieldError } from '../api-client.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { usePage } from '../page-state.ts';
import { fieldIdOf } from './fields.ts';

export interface AmountFieldProps {
  label: string;
  /** Stored mass, g. */
  massG: number;
  /** Density of the loose food, g/L. */
  bulkGPerL: number;
  servings: number;
  onMass: (massG: number) => void;
  pointer: string;
  errors: FieldError[];
}

/** Least and most that a recipe may hold of one food, g; the server keeps to the same. */
const LIMITS_G = { least: 0.1, most: 50_000 };

export function AmountField({ label, massG, bulkGPerL, servings, onMass, pointer, errors }: AmountFieldProps) {
  const { units, alarm } = usePage();
  const id = fieldIdOf(pointer) + useId().replaceAll(/[^A-Za-z0-9]/g, '');
  const shown = say(massG, 'g', units).replaceAll('\u00a0', ' ');
  const [typed, setTyped] = useState(shown);
  const [editing, setEditing] = useState(false);
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    if (!editing && fault === null) setTyped(shown);
  }, [shown, editing]);

  function read(text: string): { massG: number } | { fault: string } {
    const amount = massOfTyped(text, bulkGPerL, servings);
    if ('fault' in amount) return amount;
    if (amount.massG < LIMITS_G.least || amount.massG > LIMITS_G.most)
      return {
        fault: `From ${say(LIMITS_G.least, 'g', 'metric')} to ${say(LIMITS_G.most / 1000, 'kg', units)} a set.`,
      };
    return amount;
  }
  const error = fault ?? errors.find((one) => one.pointer === pointer)?.detail;
  const each = `${say(massG / servings, 'g', units)} a serving, ${say(massG / bulkGPerL, 'litres', units)} loose`;
  return html`<div class=${`field field-narrow${error === undefined ? '' : ' field-wrong'}`}>
    <label for=${id}>${label}</label>
    ${error === undefined ? null : html`<p class="wrong" id=${`${id}-wrong`}><span aria-hidden="true">✕ </span>${error}</p>`}
    <input
      id=${id}
      type="text"
      autocomplete="off"
      value=${typed}
      aria-invalid=${error === undefined ? undefined : 'true'}
      aria-describedby=${`${error === undefined ? '' : `${id}-wrong `}${id}-echo`}
      onFocus=${() => setEditing(true)}
      onInput=${(event: InputEvent) => {
        const text = (event.target as HTMLInputElement).value;
        setTyped(text);
        setFault(null);
        const amount = read(text);
        // What can be read is taken over at each key, so that figures follow and a crash loses nothing.
        if ('massG' in amount && amount.massG !== massG) onMass(Math.round(amount.massG * 100) / 100);
      }}
      onBlur=${() => {
        setEditing(false);
        if (typed === shown) return;
        const amount = read(typed);
        if ('fault' in amount) {
          setFault(amount.fault);
          alarm(`${label}: ${amount.fault}`);
        }
      }}
    />
    <p class="echo" id=${`${id}-echo`}>= ${say(massG, 'g', units)} a set: ${each}</p>
  </div>`;
}
