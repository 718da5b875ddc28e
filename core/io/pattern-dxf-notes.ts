import { textOf } from './pattern-dxf-file.ts';
import type { PlacedEntity } from './pattern-dxf-shapes.ts';

/** What texts of the form `Key: value` say, by the key in lower case without spaces; the first of each key counts. */
export function dxfNotes(entities: readonly PlacedEntity[]): ReadonlyMap<string, string> {
  const notes = new Map<string, string>();
  for (const { entity } of entities) {
    if (entity.type !== 'TEXT' && entity.type !== 'MTEXT') continue;
    const [, key, value] = /^([a-z/ ]{2,40}?)\s*:\s*(.*)$/i.exec(textOf(entity, 1).trim()) ?? [];
    if (key === undefined || value === undefined) continue;
    const plain = key.toLowerCase().replaceAll(' ', '');
    if (!notes.has(plain)) notes.set(plain, value.trim());
  }
  return notes;
}

/** How often a piece is cut from each side. */
export interface CutCount {
  readonly right: number;
  readonly left: number;
}

/** `1,0` or `2`: how often a piece is cut as drawn and mirrored. */
export function cutCount(quantity: string | undefined): CutCount {
  const [, right, left] = /^(\d{1,3})\s*(?:,\s*(\d{1,3}))?$/.exec(quantity ?? '') ?? [];
  return { right: right === undefined ? 1 : Number(right), left: left === undefined ? 0 : Number(left) };
}
