/** Form fields: label above with its unit, hint before the field, error at the field, defaults marked as such. */
import type { ComponentChildren } from 'preact';
import { useEffect, useId, useState } from 'preact/hooks';
import type { FieldError } from '../api-client.ts';
import { html } from '../html.ts';
import { fieldText, type Quantity, say, spellingsOf, storedValue, unitOf } from '../measures.ts';
import { type ReadNumber, readNumber, writeNumber } from '../numbers.ts';
import { usePage } from '../page-state.ts';

/** The id of the field that a JSON pointer of a refusal belongs to. */
export function fieldIdOf(pointer: string): string {
  return `at${pointer.replaceAll(/[^A-Za-z0-9]+/g, '-')}`;
}

interface FrameProps {
  id: string;
  label: string;
  hint?: string | undefined;
  mark?: string | undefined;
  error?: string | undefined;
  echo?: string | undefined;
  narrow?: boolean | undefined;
  wide?: boolean | undefined;
  children: ComponentChildren;
}

function Frame({ id, label, hint, mark, error, echo, narrow, wide, children }: FrameProps) {
  return html`<div class=${`field${narrow ? ' field-narrow' : ''}${wide ? ' field-wide' : ''}${error ? ' field-wrong' : ''}`}>
    <label for=${id}>${label}${mark === undefined ? null : html` <span class="default-mark">${mark}</span>`}</label>
    ${hint === undefined ? null : html`<p class="hint" id=${`${id}-hint`}>${hint}</p>`}
    ${error === undefined ? null : html`<p class="wrong" id=${`${id}-wrong`}><span aria-hidden="true">✕ </span>${error}</p>`}
    ${children}
    ${echo === undefined ? null : html`<p class="echo" id=${`${id}-echo`}>${echo}</p>`}
  </div>`;
}

function described(id: string, hint?: string, error?: string): string | undefined {
  const ids = [hint === undefined ? '' : `${id}-hint`, error === undefined ? '' : `${id}-wrong`].filter(
    (part) => part !== '',
  );
  return ids.length === 0 ? undefined : ids.join(' ');
}

export interface NumberFieldProps {
  label: string;
  quantity: Quantity;
  /** The stored value; undefined where none was given. */
  value: number | undefined;
  /** Called with the stored value, or undefined when the field was emptied and may be. */
  onValue: (value: number | undefined) => void;
  /** Stored limits. */
  minimum?: number;
  maximum?: number;
  /** What holds while the field is empty; the field may be empty only where this is given. Empty text: nothing is said. */
  whenEmpty?: string | number | undefined;
  hint?: string | undefined;
  /** JSON pointer into the document, for errors of the server. */
  pointer?: string;
  errors?: FieldError[];
  /** Hands over at each key what can be read already, so that a crash loses nothing; complaints still wait. */
  live?: boolean;
}

/** A number with its unit: tolerant reading, a question where a comma is ambiguous, the user's own text kept on error. */
export function NumberField(props: NumberFieldProps) {
  const { label, quantity, value, onValue, minimum, maximum, whenEmpty, hint, pointer, errors = [], live } = props;
  const { units, alarm } = usePage();
  const own = useId();
  const id = pointer === undefined ? `n${own}` : fieldIdOf(pointer);
  const shown = value === undefined ? '' : fieldText(value, quantity, units);
  const [typed, setTyped] = useState(shown);
  const [fault, setFault] = useState<string | null>(null);
  const [question, setQuestion] = useState<[number, number] | null>(null);
  // What was understood stays when the field is left: a line that goes away would move the button that is being pressed.
  const [understood, setUnderstood] = useState<string | undefined>(undefined);
  // The shown text follows the stored value and the units, never while a text stands that was not understood or is typed.
  useEffect(() => {
    if (fault === null && question === null && !(live && document.activeElement?.id === id)) setTyped(shown);
  }, [shown]);
  const unit = unitOf(quantity, units);
  const range = rangeInWords(minimum, maximum, quantity, units);

  function settle(read: ReadNumber) {
    setQuestion(null);
    setFault(null);
    if (read.outcome === 'ambiguous') {
      setQuestion(read.readings);
      return;
    }
    if (read.outcome === 'empty') {
      if (whenEmpty === undefined) return complain(`Enter a number${range}.`);
      onValue(undefined);
      return;
    }
    if (read.outcome === 'not-a-number') return complain(`This is not read as a number. Enter a number${range}.`);
    const stored = storedValue(read.value, quantity, units);
    if (!isInRange(stored, minimum, maximum)) return complain(`Enter a number${range}.`);
    setUnderstood(echo);
    onValue(stored);
    setTyped(fieldText(stored, quantity, units));
  }
  function handOver(text: string) {
    const read = readNumber(text, spellingsOf(quantity, units));
    if (read.outcome === 'empty') return onValue(undefined);
    if (read.outcome !== 'number') return;
    const stored = storedValue(read.value, quantity, units);
    if (isInRange(stored, minimum, maximum)) onValue(stored);
  }
  function complain(text: string) {
    setFault(text);
    alarm(`${label}: ${text}`);
  }

  const served = errors.find((error) => error.pointer === pointer)?.detail;
  const error = question === null ? (fault ?? served) : undefined;
  const reading = readNumber(typed, spellingsOf(quantity, units));
  const plain = writeNumber(reading.outcome === 'number' ? reading.value : 0, 6);
  const echo =
    reading.outcome === 'number' && typed.trim() !== plain && typed !== shown
      ? `= ${plain}${unit === '' ? '' : `\u00a0${unit}`}`
      : undefined;
  const mark =
    (live ? typed.trim() !== '' : value !== undefined) || whenEmpty === undefined || whenEmpty === ''
      ? undefined
      : `default: ${typeof whenEmpty === 'number' ? say(whenEmpty, quantity, units) : whenEmpty}`;
  return html`<${Frame} id=${id} label=${unit === '' ? label : `${label} (${unit})`} hint=${hint} mark=${mark} error=${error} echo=${echo ?? understood} narrow>
    <input
      id=${id}
      type="text"
      inputmode=${minimum !== undefined && minimum < 0 ? 'text' : 'decimal'}
      autocomplete="off"
      value=${typed}
      aria-invalid=${error === undefined && question === null ? undefined : 'true'}
      aria-describedby=${described(id, hint, error)}
      onInput=${(event: InputEvent) => {
        const text = (event.target as HTMLInputElement).value;
        setTyped(text);
        setUnderstood(undefined);
        if (live) handOver(text);
      }}
      onKeyDown=${(event: KeyboardEvent) => {
        if (event.key === 'Enter') settle(reading);
      }}
      onBlur=${() => {
        if (typed !== shown || fault !== null) settle(reading);
      }}
    />
    ${
      question === null
        ? null
        : html`<div class="question" role="group" aria-label=${`Which number is meant by ${typed}?`}>
            <p>“${typed}” can be read in two ways. Which is meant?</p>
            ${question.map(
              (
                number,
              ) => html`<button type="button" class="small" onClick=${() => settle({ outcome: 'number', value: number })}>
                ${writeNumber(number, 3)} ${unit}
              </button>`,
            )}
          </div>`
    }
  <//>`;
}

function isInRange(value: number, minimum = Number.NEGATIVE_INFINITY, maximum = Number.POSITIVE_INFINITY): boolean {
  const tolerance = 1e-9 * Math.max(1, Math.abs(value));
  return value >= minimum - tolerance && value <= maximum + tolerance;
}

function rangeInWords(
  minimum: number | undefined,
  maximum: number | undefined,
  quantity: Quantity,
  units: 'metric' | 'us',
): string {
  const unit = unitOf(quantity, units);
  const behind = unit === '' ? '' : `\u00a0${unit}`;
  if (minimum !== undefined && maximum !== undefined) {
    return ` from ${fieldText(minimum, quantity, units)} to ${fieldText(maximum, quantity, units)}${behind}`;
  }
  if (minimum !== undefined) return ` of at least ${fieldText(minimum, quantity, units)}${behind}`;
  return unit === '' ? '' : ` in ${unit}`;
}

export interface TextFieldProps {
  label: string;
  value: string | undefined;
  onValue: (value: string) => void;
  hint?: string;
  type?: 'text' | 'time' | 'date' | 'datetime-local' | 'search';
  required?: boolean;
  pointer?: string;
  errors?: FieldError[];
  mark?: string | undefined;
}

/** A line of text, a time or a date; taken over when the field is left. */
export function TextField({
  label,
  value,
  onValue,
  hint,
  type = 'text',
  required,
  pointer,
  errors = [],
  mark,
}: TextFieldProps) {
  const own = useId();
  const id = pointer === undefined ? `t${own}` : fieldIdOf(pointer);
  const [typed, setTyped] = useState(value ?? '');
  const [fault, setFault] = useState<string | undefined>(undefined);
  useEffect(() => {
    setTyped(value ?? '');
    setFault(undefined);
  }, [value]);
  const error = fault ?? errors.find((one) => one.pointer === pointer)?.detail;
  return html`<${Frame} id=${id} label=${label} hint=${hint} error=${error} mark=${mark} narrow=${type !== 'text'} wide=${type === 'datetime-local'}>
    <input
      id=${id}
      type=${type}
      autocomplete="off"
      value=${typed}
      aria-invalid=${error === undefined ? undefined : 'true'}
      aria-describedby=${described(id, hint, error)}
      onInput=${(event: InputEvent) => setTyped((event.target as HTMLInputElement).value)}
      onBlur=${(event: FocusEvent) => {
        const text = (event.target as HTMLInputElement).value.trim();
        if (required && text === '') setFault('This cannot be left empty.');
        else if (text !== (value ?? '')) {
          setFault(undefined);
          onValue(text);
        }
      }}
    />
  <//>`;
}

export interface ChoiceFieldProps {
  label: string;
  value: string | undefined;
  options: readonly (readonly [id: string, name: string])[];
  onValue: (value: string | undefined) => void;
  /** What holds while nothing is chosen; absent: a choice must stand. */
  whenEmpty?: string | undefined;
  hint?: string;
  pointer?: string;
  errors?: FieldError[];
}

/** One of a short list. */
export function ChoiceField({
  label,
  value,
  options,
  onValue,
  whenEmpty,
  hint,
  pointer,
  errors = [],
}: ChoiceFieldProps) {
  const own = useId();
  const id = pointer === undefined ? `c${own}` : fieldIdOf(pointer);
  const error = errors.find((one) => one.pointer === pointer)?.detail;
  return html`<${Frame} id=${id} label=${label} hint=${hint} error=${error}>
    <select
      id=${id}
      value=${value ?? ''}
      aria-invalid=${error === undefined ? undefined : 'true'}
      aria-describedby=${described(id, hint, error)}
      onChange=${(event: Event) => {
        const chosen = (event.target as HTMLSelectElement).value;
        onValue(chosen === '' ? undefined : chosen);
      }}
    >
      ${whenEmpty === undefined ? null : html`<option value="" selected=${value === undefined}>${whenEmpty === '' ? 'Default' : `Default: ${whenEmpty}`}</option>`}
      ${options.map(([key, name]) => html`<option value=${key} key=${key} selected=${key === value}>${name}</option>`)}
    </select>
  <//>`;
}

/** A yes or no. */
export function CheckField({
  label,
  value,
  onValue,
}: {
  label: string;
  value: boolean;
  onValue: (value: boolean) => void;
}) {
  const id = `k${useId()}`;
  return html`<div class="field field-check">
    <input id=${id} type="checkbox" checked=${value} onChange=${(event: Event) => onValue((event.target as HTMLInputElement).checked)} />
    <label for=${id}>${label}</label>
  </div>`;
}

/** All errors together; each leads to its field. */
export function ErrorSummary({ title, errors }: { title: string; errors: FieldError[] }) {
  if (errors.length === 0) return null;
  return html`<div class="summary" id="error-summary" tabindex="-1" aria-labelledby="error-summary-title">
    <h2 id="error-summary-title">${title}</h2>
    <ul>
      ${errors.map(
        (error) => html`<li>
          <a
            href=${`#${fieldIdOf(error.pointer)}`}
            onClick=${(event: MouseEvent) => {
              event.preventDefault();
              document.getElementById(fieldIdOf(error.pointer))?.focus();
            }}
            >${error.pointer.replace(/^#\/?/, '').replaceAll('/', ' › ')}: ${error.detail}</a
          >
        </li>`,
      )}
    </ul>
  </div>`;
}
