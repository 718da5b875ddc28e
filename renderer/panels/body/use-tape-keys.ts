import type { KeyboardEvent } from 'react';
import { tapeKey } from '../../store/body-store.ts';
import { movedTape } from '../../store/moved-tape.ts';
import { useTable, type Table } from '../../table.ts';

/** How far an arrow key moves a tape, m; with Shift the farther. */
const STEP = 0.001;
const FAR_STEP = 0.01;

export interface TapeKeys {
  readonly onKeyDown: (event: KeyboardEvent) => void;
  readonly onKeyUp: (event: KeyboardEvent) => void;
}

/** Arrow keys that move a tape up and down: it follows at once and is laid when the key is let go. */
export function useTapeKeys(key: string): TapeKeys {
  const table = useTable();
  return {
    onKeyDown: (event) => {
      if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
      event.preventDefault();
      event.stopPropagation();
      const way = (event.key === 'ArrowUp' ? 1 : -1) * (event.shiftKey ? FAR_STEP : STEP);
      moveTape(table, key, way);
    },
    onKeyUp: ({ key: released }) => {
      if (released === 'ArrowUp' || released === 'ArrowDown') table.bodyDeeds.letTapeGo();
    },
  };
}

/** Moves a tape from where it lies now, m. */
export function moveTape({ body, bodyDeeds }: Table, key: string, way: number): void {
  const { tape } = body.getState();
  const reading = tape?.readings.find(({ line }) => tapeKey(line) === key);
  if (tape === null || reading === undefined) return;
  if (body.getState().chosen !== key) body.setState({ chosen: key });
  bodyDeeds.holdTape(movedTape(bodyDeeds.tapeNotes(), reading.line, tape.landmarks, way));
}
