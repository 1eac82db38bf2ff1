import { describe, expect, it } from 'vitest';
import { textInSystem } from '../../api/wording/text-in-system.ts';

/** Factors are those of the units: 1 gal 3.785411784 L, 1 lb 0.45359237 kg, 1 ft 0.3048 m, 1 psi 6.894757 kPa. */
const SENTENCES: [metric: string, us: string][] = [
  [
    'it carries pots up to 5 L; this one holds 6 L.',
    'it carries pots up to 1¼ gal (5 L); this one holds 1½ gal (6 L).',
  ],
  ['hot food must stay above 60 °C', 'hot food must stay above 140\u00a0°F (60 °C)'],
  ['Outdoors -5 °C, wind screened', 'Outdoors 23\u00a0°F (-5 °C), wind screened'],
  ['Water boils at 94 °C at 1780 m.', 'Water boils at 201\u00a0°F (94 °C) at 5840\u00a0ft (1780 m).'],
  ['1 kg more wood: nothing changes', '2\u00a0lb\u00a03½\u00a0oz (1 kg) more wood: nothing changes'],
  ['at 90\u00a0kPa (13\u00a0psi)', 'at 13\u00a0psi (90\u00a0kPa)'],
  ['Add 2.0\u00a0L (8½\u00a0cups) of water', 'Add 8½\u00a0cups (2.0\u00a0L) of water'],
  ['At 1780 m (5840 ft) water boils at 94.0 °C (201.2 °F).', 'At 5840 ft (1780 m) water boils at 201.2 °F (94.0 °C).'],
  ['86 g of protein', '86 g of protein'],
  ['5 min, 2 mm of felt, 3 L/day', '5 min, 2 mm of felt, 3 L/day'],
];

describe('sentences in US units', () => {
  for (const [metric, us] of SENTENCES) {
    it(metric, () => {
      expect(textInSystem(metric, 'us').replaceAll('\u00a0gal', ' gal')).toBe(us);
      expect(textInSystem(metric, 'metric')).toBe(metric);
    });
  }

  it('changes nothing when done twice', () => {
    for (const [metric] of SENTENCES) {
      const once = textInSystem(metric, 'us');
      expect(textInSystem(once.replace(/ \([^()]*\)/g, ''), 'us')).toBe(once.replace(/ \([^()]*\)/g, ''));
    }
  });
});
