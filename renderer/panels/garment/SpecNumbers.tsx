import type { ReactElement } from 'react';
import type { SpecField } from '../../../core/sheet/spec-sheet.ts';
import { measureName } from '../../../core/words/spec-words.ts';
import { SpecNumber, type SpecNumberProps } from './SpecNumber.tsx';

interface SpecNumbersProps {
  readonly title: string;
  readonly fields: readonly SpecField[];
  readonly range: SpecNumberProps['range'];
  /** What a field is called for who cannot see its place. */
  readonly said: (name: string) => string;
  readonly empty: (field: SpecField) => SpecNumberProps['empty'];
  readonly isRefused: (name: string) => boolean;
  readonly set: (name: string, metres: number | null) => void;
}

/** Numbers of the sheet in two columns. */
export const SpecNumbers = ({
  title,
  fields,
  range,
  said,
  empty,
  isRefused,
  set,
}: SpecNumbersProps): ReactElement => (
  <fieldset className="spec-numbers figures">
    <legend>{title}</legend>
    {fields.map((field) => (
      <div key={field.name}>
        <span aria-hidden="true">{measureName(field.name)}</span>
        <SpecNumber
          name={said(measureName(field.name))}
          value={field.value}
          opened={field.opened}
          range={range}
          empty={empty(field)}
          isRefused={isRefused(field.name)}
          set={(metres) => set(field.name, metres)}
        />
      </div>
    ))}
  </fieldset>
);
