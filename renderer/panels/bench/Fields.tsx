import { useId, type ReactElement, type ReactNode } from 'react';
import { useFieldNote } from './use-field.ts';

interface TextFieldProps {
  readonly name: string;
  /** As in the draft: `weigh.length`. */
  readonly place: string;
  readonly value: string;
  readonly change: (typed: string) => void;
  readonly unit?: string;
  /** A number stands to the right, a text to the left. */
  readonly kind?: 'number' | 'text';
  readonly example?: string;
  readonly className?: string;
}

/** A field with its name above, its unit behind, and below it what cannot be read. */
export function TextField(props: TextFieldProps): ReactElement {
  const { name, place, value, change, unit, kind = 'number', example, className = '' } = props;
  const id = useId();
  const note = useFieldNote(place, value);
  return (
    <div className={`bench-field ${kind} ${className}`}>
      <label htmlFor={id}>
        {name}
        {unit !== undefined && <span className="unit">, {unit}</span>}
      </label>
      <input
        id={id}
        inputMode={kind === 'number' ? 'decimal' : 'text'}
        autoComplete="off"
        spellCheck={false}
        value={value}
        placeholder={example}
        aria-invalid={note !== null}
        aria-describedby={note === null ? undefined : `${id}-note`}
        onChange={({ target }) => change(target.value)}
      />
      {note !== null && note.text !== '' && (
        <p className="field-note" id={`${id}-note`}>
          {note.text}
        </p>
      )}
    </div>
  );
}

interface ChoiceProps<T extends string> {
  readonly name: string;
  readonly options: readonly { readonly value: T; readonly word: string }[];
  /** Null while nobody has answered. */
  readonly chosen: T | null;
  readonly choose: (value: T) => void;
  readonly children?: ReactNode;
}

/** One of a few words; none is chosen until somebody chooses. */
export function Choice<T extends string>(props: ChoiceProps<T>): ReactElement {
  const { name, options, chosen, choose, children } = props;
  const group = useId();
  return (
    <fieldset className="bench-choice">
      <legend>{name}</legend>
      <div className="choice-words">
        {options.map(({ value, word }) => (
          <label key={value} className={value === chosen ? 'chosen' : ''}>
            <input
              type="radio"
              className="hidden"
              name={group}
              checked={value === chosen}
              onChange={() => choose(value)}
            />
            {word}
          </label>
        ))}
        {children}
      </div>
    </fieldset>
  );
}

interface UnitChoiceProps<T extends string> {
  readonly name: string;
  readonly words: Readonly<Record<T, string>>;
  readonly chosen: T;
  readonly choose: (unit: T) => void;
}

/** What numbers are in. */
export function UnitChoice<T extends string>(props: UnitChoiceProps<T>): ReactElement {
  const { name, words, chosen, choose } = props;
  const id = useId();
  const units = Object.keys(words).filter((unit): unit is T => unit in words);
  return (
    <div className="bench-field unit-choice">
      <label htmlFor={id}>{name}</label>
      <select
        id={id}
        value={chosen}
        onChange={({ target }) => {
          const unit = units.find((one) => one === target.value);
          if (unit !== undefined) choose(unit);
        }}
      >
        {units.map((unit) => (
          <option key={unit} value={unit}>
            {words[unit]}
          </option>
        ))}
      </select>
    </div>
  );
}
