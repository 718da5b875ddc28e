import { useId, type ReactElement } from 'react';

interface TryChoiceProps<T extends string> {
  readonly name: string;
  readonly options: Readonly<Record<T, string>>;
  readonly chosen: T;
  readonly choose: (value: T) => void;
}

/** One of two words. */
export function TryChoice<T extends string>({
  name,
  options,
  chosen,
  choose,
}: TryChoiceProps<T>): ReactElement {
  const group = useId();
  const values = Object.keys(options).filter((value): value is T => value in options);
  return (
    <fieldset className="try-choice">
      <legend>{name}</legend>
      {values.map((value) => (
        <label key={value} className={value === chosen ? 'chosen' : ''}>
          <input
            type="radio"
            className="hidden"
            name={group}
            checked={value === chosen}
            onChange={() => choose(value)}
          />
          {options[value]}
        </label>
      ))}
    </fieldset>
  );
}
