import { Fault } from '../fault/fault.ts';
import { outlineOf } from '../pattern/flat-outline.ts';
import { crossingOf } from '../pattern/outline-crossing.ts';
import type { DraftedBlock } from './drafted-block.ts';

/**
 * The draft as it is, if each of its panels can be cut.
 *
 * @throws {Fault} `block/no-panel` where the sheet's numbers leave no curve, or a panel would run into itself.
 */
export function soundDraft(draft: DraftedBlock): DraftedBlock {
  for (const panel of draft.pattern.panels) {
    const loop = outlineOf(panel);
    const isDrawn = loop.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y));
    if (!isDrawn || crossingOf(loop) !== null) throw new Fault('block/no-panel', { panel: panel.name });
  }
  return draft;
}
