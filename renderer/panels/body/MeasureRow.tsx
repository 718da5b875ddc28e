import { useId, type ReactElement } from 'react';
import { fixed } from '../../../core/sheet/number-format.ts';
import type { TryPace } from '../../store/study-runner.ts';
import { SliderInput } from '../TrySlider.tsx';
import { TypedNumber } from '../TypedNumber.tsx';

interface MeasureRowProps {
  readonly name: string;
  readonly unit: string;
  /** In the row's own unit, as are all numbers here. */
  readonly value: number;
  readonly range: { readonly low: number; readonly high: number; readonly step: number };
  readonly decimals: number;
  /** What kind of number it is, for whoever cannot see that it is light. */
  readonly said: string | undefined;
  /** What the study says: a nick in the track. */
  readonly sheet: number | null;
  readonly set: (value: number, pace: TryPace) => void;
  /** The way back, where there is one. */
  readonly back: { readonly label: string; readonly go: () => void } | null;
}

/** One line of a card of measures: its name, a slider, the number to be typed, the way back. */
export function MeasureRow(props: MeasureRowProps): ReactElement {
  const { name, unit, value, range, decimals, said, sheet, set, back } = props;
  const id = useId();
  const label = fixed(value, decimals);
  return (
    <div className={`measure-row ${said === undefined ? '' : 'light'} ${back === null ? '' : 'changed'}`}>
      <label htmlFor={id}>{name}</label>
      <div className="try-track">
        {sheet !== null && <span className="try-notch" style={{ left: placeOf(sheet, range) }} />}
        <SliderInput
          id={id}
          value={value}
          range={range}
          text={`${label} ${unit}${said === undefined ? '' : `, ${said}`}`}
          set={set}
        />
      </div>
      <TypedNumber
        key={label}
        name={`${name}, ${unit}, typed`}
        label={label}
        set={(typed) => set(typed, 'now')}
      />
      {back === null ? (
        <span className="measure-unit">{unit}</span>
      ) : (
        <button
          type="button"
          className="measure-back"
          aria-label={back.label}
          title={back.label}
          onClick={back.go}
        >
          ↺
        </button>
      )}
    </div>
  );
}

/** Half a slider's thumb, px, as in body.css. */
const HALF_THUMB = 6;

function placeOf(value: number, { low, high }: MeasureRowProps['range']): string {
  const share = Math.min(1, Math.max(0, (value - low) / (high - low)));
  return `calc(${HALF_THUMB}px + ${share} * (100% - ${2 * HALF_THUMB}px))`;
}
