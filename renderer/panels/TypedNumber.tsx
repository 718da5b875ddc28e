import { useState, type KeyboardEvent, type ReactElement } from 'react';
import { typedNumber } from '../../core/sheet/number-format.ts';

interface TypedNumberProps {
  /** For who cannot see where it stands. */
  readonly name: string;
  /** The number as it is shown; give it as the key too, so that a new one replaces what was typed. */
  readonly label: string;
  readonly set: (typed: number) => void;
}

/** A number to be typed: Enter or leaving the field takes it, Escape gives the old one back. */
export function TypedNumber({ name, label, set }: TypedNumberProps): ReactElement {
  const [text, setText] = useState(label);
  const take = (): void => {
    const typed = typedNumber(text);
    if (typed !== null && text !== label) set(typed);
    else setText(label);
  };
  const press = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Enter') take();
    if (event.key === 'Escape') setText(label);
  };
  return (
    <input
      className="range-end"
      aria-label={name}
      aria-invalid={typedNumber(text) === null}
      inputMode="decimal"
      value={text}
      onChange={({ target }) => setText(target.value)}
      onBlur={take}
      onKeyDown={press}
    />
  );
}
