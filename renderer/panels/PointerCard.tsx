import { useEffect, useRef, type ReactElement } from 'react';
import { holdLevelAt } from '../../core/sheet/hold-level.ts';
import { bandText, fixed, readings } from '../../core/sheet/number-format.ts';
import { tapeUnits } from '../../core/sheet/display-unit.ts';
import { FIELD_WORDS } from '../../core/words/field-words.ts';
import { HOLD_WORDS, NO_SURE_DIFFERENCE } from '../../core/words/judgement-words.ts';
import type { PointerReading } from '../store/stage-signals.ts';
import { useTable } from '../table.ts';

/** The value under the pointer, written straight to the page: no render per move. */
export function PointerCard(): ReactElement {
  const { signals } = useTable();
  const card = useRef<HTMLDivElement>(null);
  useEffect(
    () =>
      signals.pointer.listen((reading) => {
        const element = card.current;
        if (element === null) return;
        element.hidden = reading === null;
        if (reading === null) return;
        const [first, ...rest] = linesOf(reading);
        element.children[0]!.textContent = first!;
        element.children[1]!.textContent = rest.join('\n');
        element.style.transform = `translate(${reading.x + 18}px, ${reading.y + 14}px)`;
      }),
    [signals],
  );
  return (
    <div ref={card} className="pointer-card" hidden aria-hidden="true">
      <strong />
      <span />
    </div>
  );
}

/** The reading in words: the value first, then its band, its other unit and what it means. */
export function linesOf(reading: PointerReading): readonly string[] {
  const { value, unit, field, showing, pair, band } = reading;
  if (value === null) return [FIELD_WORDS[field].missingHere];
  const isDifference = showing === 'difference';
  const [first, ...others] = readings(value, unit, isDifference);
  const lines = [first!, ...bandLines(reading), ...others];
  if (isDifference) {
    const isUnsure = band !== null && band.low <= 0 && band.high >= 0;
    return [...lines, ...pairLines(pair, unit), ...(isUnsure ? [NO_SURE_DIFFERENCE] : [])];
  }
  return unit === 'Pa' ? [...lines, HOLD_WORDS[holdLevelAt(value)]] : lines;
}

function bandLines({ band, unit, showing }: PointerReading): readonly string[] {
  if (band === null) return [];
  const { first } = tapeUnits(unit);
  const isDifference = showing === 'difference';
  return [`band ${bandText(band, first, { decimals: first.decimals, isDifference })}`];
}

function pairLines(pair: PointerReading['pair'], unit: PointerReading['unit']): readonly string[] {
  if (pair === null) return [];
  const { fromSi, name, decimals } = tapeUnits(unit).first;
  const [a, b] = pair.map((si) => fixed(fromSi(si), decimals));
  return [`A ${a}, B ${b} ${name}`];
}
