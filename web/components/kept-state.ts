/** State of a field that is kept on this device until it is taken back to nothing, so that a closed page loses no typing. */
import { useState } from 'preact/hooks';
import { usePage } from '../page-state.ts';

/**
 * @param key name of the field, among all that are kept on this device
 * @returns the kept number, and what keeps another; undefined: nothing is typed
 */
export function useKeptNumber(key: string): [number | undefined, (value: number | undefined) => void] {
  const { storage } = usePage();
  const name = `typed:${key}`;
  const [value, setValue] = useState(() => {
    const kept = storage.getItem(name);
    return kept === null || Number.isNaN(Number(kept)) ? undefined : Number(kept);
  });
  return [
    value,
    (next) => {
      if (next === undefined) storage.removeItem(name);
      else storage.setItem(name, String(next));
      setValue(next);
    },
  ];
}
