/** Puts what a bench measured into the README, between two marks. */
import { readFileSync, writeFileSync } from 'node:fs';

/**
 * @param name of the marks `<!-- name:begin -->` and `<!-- name:end -->`
 * @param lines markdown that replaces what stands between them
 * @throws Error when the README has no such marks
 */
export function writeReadmePart(name: string, lines: readonly string[]): void {
  const path = 'README.md';
  const text = readFileSync(path, 'utf8');
  const begin = text.indexOf(`<!-- ${name}:begin -->`);
  const end = text.indexOf(`<!-- ${name}:end -->`);
  if (begin < 0 || end < begin) throw new Error(`README.md has no part ${name}`);
  const head = text.slice(0, begin + `<!-- ${name}:begin -->`.length);
  writeFileSync(path, `${head}\n${lines.join('\n')}\n${text.slice(end)}`);
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1
    ? (sorted[middle] as number)
    : ((sorted[middle - 1] as number) + (sorted[middle] as number)) / 2;
}
