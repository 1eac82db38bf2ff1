import { describe, expect, test } from 'vitest';
import { pointerOf, sameValueIn, valueAt, withItem, withoutItem, withValueAt } from '../../web/document-paths.ts';

const body = { name: 'A', places: [{ id: 'home', elevationM: 100 }], water: { lots: [{ id: 'cans', litres: 5 }] } };

describe('one place of a document', () => {
  test('is read, changed and named by its pointer, the rest untouched', () => {
    const changed = withValueAt(body, ['places', 0, 'elevationM'], 200);
    expect(valueAt(changed, ['places', 0, 'elevationM'])).toBe(200);
    expect(body.places[0]?.elevationM).toBe(100);
    expect(changed.water).toBe(body.water);
    expect(pointerOf(['places', 0, 'elevationM'])).toBe('#/places/0/elevationM');
  });

  test('is taken out when emptied, so that its default holds', () => {
    expect(withValueAt(body, ['water', 'lots', 0, 'litres'], undefined).water.lots[0]).toEqual({ id: 'cans' });
  });

  test('is made with what it stands in', () => {
    expect(withValueAt({}, ['water', 'dailySupply', 'litres'], 3)).toEqual({ water: { dailySupply: { litres: 3 } } });
  });

  test('lists grow and shrink', () => {
    expect(withItem({}, ['vessels'], { id: 'pot' })).toEqual({ vessels: [{ id: 'pot' }] });
    expect(withoutItem(body, ['places'], 0).places).toEqual([]);
  });

  test('is found in another version by id, not by position', () => {
    const other = { vessels: [{ id: 'new' }, { id: 'pot', lid: 'snug' }] };
    expect(sameValueIn(other, { vessels: [{ id: 'pot' }] }, ['vessels', 0, 'lid'])).toBe('snug');
    expect(sameValueIn(undefined, body, ['name'])).toBeUndefined();
  });
});
