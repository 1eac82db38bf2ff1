import { describe, expect, it } from 'vitest';
import { cautionsForPage } from '../../api/wording/cautions.ts';
import { emergencySheetHtml } from '../../api/wording/print/emergency-sheet.ts';
import { planFixture } from './plan-fixture.ts';

/** Syllables of an English word by its groups of vowels, a silent e at the end left out: good to about one in twenty. */
function syllables(word: string): number {
  const letters = word.toLowerCase().replace(/[^a-z]/g, '');
  if (letters.length <= 3) return 1;
  const groups = letters.replace(/(?:[^laeiouy]es|[^aeiouy]ed|[^laeiouy]e)$/, '').match(/[aeiouy]+/g);
  return Math.max(1, groups?.length ?? 1);
}

/**
 * The Flesch-Kincaid grade: 0.39 words/sentence + 11.8 syllables/word - 15.59 (Kincaid et al. 1975, from memory;
 * page-print-and-exchange P36). Numbers and units are left out, they are figures and not words.
 */
function grade(texts: readonly string[]): number {
  let words = 0;
  let sentences = 0;
  let count = 0;
  for (const text of texts) {
    for (const sentence of text.split(/[.:;]\s|[.:;]$/)) {
      const found = sentence.replaceAll('\u00a0', ' ').match(/[A-Za-z][A-Za-z'-]*[a-z]/g) ?? [];
      if (found.length === 0) continue;
      sentences += 1;
      words += found.length;
      count += found.reduce((sum, word) => sum + syllables(word), 0);
    }
  }
  return (0.39 * words) / sentences + (11.8 * count) / words - 15.59;
}

/** The paragraphs of a sheet without their markup; tables are no sentences. */
function sentencesOf(html: string): string[] {
  return [...html.matchAll(/<p>(.*?)<\/p>/g)].map((match) => (match[1] as string).replace(/<[^>]*>/g, ''));
}

describe('reading grade (P36)', () => {
  const { schedule } = planFixture();

  it('counts as the formula does on a text counted by hand', () => {
    // 6 words, 1 sentence, 6 syllables: 0.39 * 6 + 11.8 - 15.59.
    expect(grade(['The cat sat on the mat.'])).toBeCloseTo(-1.45, 2);
    expect(syllables('porridge')).toBe(2);
    expect(syllables('pressure')).toBe(2);
    expect(syllables('cooker')).toBe(2);
  });

  it.each([
    ['what to do', schedule.map((step) => step.text)],
    ['what to do if not', schedule.flatMap((step) => (step.ifNot === null ? [] : [step.ifNot]))],
    ['cautions on paper', cautionsForPage().map((caution) => caution.short)],
    ['cautions on the page', cautionsForPage().map((caution) => caution.full)],
    ['the emergency sheet', sentencesOf(emergencySheetHtml(1780, 'metric'))],
    ['the emergency sheet for any height', sentencesOf(emergencySheetHtml(null, 'us'))],
  ])('%s: at most 8', (_name, texts) => {
    expect(grade(texts)).toBeLessThanOrEqual(8);
  });
});
