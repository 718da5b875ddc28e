import { useState, type KeyboardEvent, type ReactElement } from 'react';
import { fixed, typedNumber } from '../../../core/sheet/number-format.ts';
import { SPEC_WORDS } from '../../../core/words/spec-words.ts';

export interface SpecNumberProps {
  /** What it measures, for who cannot see where it stands. */
  readonly name: string;
  /** m; null where nothing is given. */
  readonly value: number | null;
  /** As the study was opened, m. */
  readonly opened: number | null;
  /** What may be typed, cm. */
  readonly range: readonly [low: number, high: number];
  /** What stands in place of a number where none is given, and what the way back to nothing is called. */
  readonly empty: { readonly shown: string; readonly said: string } | null;
  readonly isRefused: boolean;
  readonly set: (metres: number | null) => void;
}

const centimetres = (metres: number | null): string => (metres === null ? '' : fixed(100 * metres, 1));
/** Typed to the millimetre. */
const SAME = 5e-5;

/** A number of the sheet in cm: Enter or leaving the field takes it, Escape gives the old one back, ↺ the sheet's. */
export function SpecNumber(props: SpecNumberProps): ReactElement {
  const { name, value, opened, empty, set } = props;
  const isChanged = value === null || opened === null ? value !== opened : Math.abs(value - opened) > SAME;
  const before = opened === null ? (empty?.said ?? '') : centimetres(opened);
  const label = SPEC_WORDS.back(name, before);
  return (
    <span className="spec-number">
      <Typed key={centimetres(value)} {...props} />
      {isChanged && (
        <button
          type="button"
          className="measure-back"
          aria-label={label}
          title={label}
          onClick={() => set(opened)}
        >
          ↺
        </button>
      )}
    </span>
  );
}

function Typed({ name, value, range: [low, high], empty, isRefused, set }: SpecNumberProps): ReactElement {
  const label = centimetres(value);
  const [text, setText] = useState(label);
  const typed = typedNumber(text);
  const isLeftOut = text.trim() === '' && empty !== null;
  const take = (): void => {
    if (text === label) return;
    if (isLeftOut) set(null);
    else if (typed === null) setText(label);
    else {
      const within = Math.min(high, Math.max(low, typed));
      // Shown at once: the same number again would not bring a new field.
      setText(fixed(within, 1));
      set(Math.round(100 * within) / 1e4);
    }
  };
  const press = ({ key }: KeyboardEvent<HTMLInputElement>): void => {
    if (key === 'Enter') take();
    if (key === 'Escape') setText(label);
  };
  return (
    <input
      className="range-end"
      aria-label={name}
      aria-invalid={isRefused || (typed === null && !isLeftOut)}
      inputMode="decimal"
      placeholder={empty?.shown}
      value={text}
      onChange={({ target }) => setText(target.value)}
      onBlur={take}
      onKeyDown={press}
    />
  );
}
