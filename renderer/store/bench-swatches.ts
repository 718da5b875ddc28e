import { fabricLetter } from '../../core/words/stage-words.ts';
import type { BenchState, BenchStore } from './bench-store.ts';
import type { SwatchDeeds } from './swatch-runner.ts';
import type { SwatchSubject } from './swatch-store.ts';

const isShown = ({ isOpen, part }: BenchState): boolean => isOpen && part === 'swatch';

/** Lays the bench's fabrics down as swatches while their page is open; what ran is stopped when it is left. */
export function showSwatches({
  bench,
  swatchDeeds,
}: {
  readonly bench: BenchStore;
  readonly swatchDeeds: SwatchDeeds;
}): void {
  bench.subscribe((state, before) => {
    const { outcome } = state.reading;
    if (!isShown(state)) {
      if (isShown(before)) swatchDeeds.stop();
      return;
    }
    const isSame =
      isShown(before) && before.beside === state.beside && before.reading.outcome === state.reading.outcome;
    if (isSame || outcome.kind !== 'fabric') return;
    const { beside } = state;
    const sheets = [
      { sheet: outcome.fabric.sheet, text: JSON.stringify(outcome.fabric.sheet) },
      ...(beside === null ? [] : [{ sheet: beside.fabric.sheet, text: beside.text }]),
    ];
    swatchDeeds.show(
      sheets.map(({ sheet, text }, index): SwatchSubject => ({
        letter: fabricLetter(index),
        name: sheet.name,
        invented: sheet.invented,
        text,
      })),
    );
  });
}
