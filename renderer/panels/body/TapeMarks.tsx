import { useEffect, useRef, type ReactElement } from 'react';
import type { TapeReading } from '../../../core/body/body-tape.ts';
import { fixed } from '../../../core/sheet/number-format.ts';
import { girthLabel, TAPE_LEAF_WORDS, tapeName } from '../../../core/words/tape-leaf-words.ts';
import { tapeKey } from '../../store/body-store.ts';
import { useBody, useTable } from '../../table.ts';
import { useTapeKeys } from './use-tape-keys.ts';

/** Beside each tape that is looked at, its name and girth; the chosen one's is a handle for the keyboard too. */
export function TapeMarks(): ReactElement | null {
  const tape = useBody((body) => body.tape);
  const chosen = useBody((body) => body.chosen);
  const pointed = useBody((body) => body.pointed);
  const isOpen = useBody((body) => body.part === 'tape');
  if (tape === null || !isOpen) return null;
  const keys = [...new Set([chosen, pointed])];
  const shown = tape.readings.filter(({ line }) => keys.includes(tapeKey(line)));
  return (
    <>
      {shown.map((reading) => (
        <TapeMark key={tapeKey(reading.line)} reading={reading} />
      ))}
    </>
  );
}

function TapeMark({ reading }: { readonly reading: TapeReading }): ReactElement {
  const { line, girth, height } = reading;
  const key = tapeKey(line);
  const { signals } = useTable();
  const mark = useRef<HTMLDivElement>(null);
  const isChosen = useBody((body) => body.chosen === key);
  const keys = useTapeKeys(key);
  useEffect(() => {
    const place = (): void => {
      const at = signals.marks.get().marks.find((one) => one.key === key);
      if (mark.current === null || at === undefined) return;
      mark.current.style.transform = `translate(${at.x.toFixed(1)}px, ${at.y.toFixed(1)}px)`;
    };
    place();
    return signals.marks.listen(place);
  }, [signals, key]);
  const name = tapeName(line);
  const words = (
    <>
      <strong>{name}</strong> {girthLabel(girth)}
    </>
  );
  return (
    <div ref={mark} className="tape-mark">
      {isChosen ? (
        <div
          className="tape-handle"
          role="slider"
          tabIndex={0}
          aria-orientation="vertical"
          aria-label={TAPE_LEAF_WORDS.handle(name)}
          aria-valuemin={0}
          aria-valuemax={2200}
          aria-valuenow={Math.round(1000 * height)}
          aria-valuetext={TAPE_LEAF_WORDS.handleText(fixed(1000 * height, 0), fixed(1000 * girth, 0))}
          {...keys}
        >
          {words}
        </div>
      ) : (
        <div className="tape-handle">{words}</div>
      )}
    </div>
  );
}
