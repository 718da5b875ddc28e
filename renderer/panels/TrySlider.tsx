import { useEffect, useId, useRef, type ReactElement, type ReactNode } from 'react';
import { fixed } from '../../core/sheet/number-format.ts';
import { TRY_WORDS } from '../../core/words/try-words.ts';
import type { TryPace } from '../store/study-runner.ts';
import { TypedNumber } from './TypedNumber.tsx';

interface TrySliderProps {
  readonly name: string;
  readonly unit?: string;
  /** What the value is in words, beside the name. */
  readonly said?: string;
  /** In the slider's own unit, as are all numbers here. */
  readonly value: number;
  /** What the study says; null where it says nothing of it. */
  readonly asSheet: number | null;
  readonly range: { readonly low: number; readonly high: number; readonly step: number };
  readonly decimals: number;
  /** The value as it is said. */
  readonly text: string;
  readonly marks?: readonly { readonly at: number; readonly word: string }[];
  /** A line below it. */
  readonly children?: ReactNode;
  readonly set: (value: number, pace: TryPace) => void;
}

/** A slider like a tape: the sheet's own value is a notch in it, published ones are marks; the number may be typed. */
export function TrySlider(props: TrySliderProps): ReactElement {
  const { name, unit, said, value, asSheet, range, decimals, text, marks = [], children, set } = props;
  const id = useId();
  return (
    <div className="try-slider">
      <div className="try-head">
        <label htmlFor={id}>{name}</label>
        <span className="try-said">{said}</span>
        <TypedNumber
          key={fixed(value, decimals)}
          name={`${unit === undefined ? name : `${name}, ${unit}`}, typed`}
          label={fixed(value, decimals)}
          set={(typed) => set(typed, 'now')}
        />
        <span className="try-unit">{unit}</span>
      </div>
      <div className="try-track">
        {asSheet !== null && <span className="try-notch" style={{ left: placeOf(asSheet, range) }} />}
        {marks.map(({ at, word }) => (
          <span key={word} className="try-mark" style={{ left: placeOf(at, range) }} />
        ))}
        <SliderInput id={id} value={value} range={range} text={text} set={set} />
      </div>
      <div className="try-foot">
        <span className="try-marks">
          {marks.map(({ at, word }) => (
            <button key={word} type="button" className="plain" onClick={() => set(at, 'now')}>
              {word}
            </button>
          ))}
          {children}
        </span>
        <BackToSheet {...props} />
      </div>
    </div>
  );
}

/** Says that the value is the sheet's, or leads back to it. */
function BackToSheet(props: TrySliderProps): ReactElement | null {
  const { name, value, asSheet, range, decimals, set } = props;
  if (asSheet === null) return null;
  if (Math.abs(value - asSheet) < range.step / 1000) return <span>{TRY_WORDS.asSheet}</span>;
  const shown = fixed(asSheet, decimals);
  return (
    <button
      type="button"
      className="plain"
      aria-label={`${name}: ${TRY_WORDS.back(shown)}`}
      onClick={() => set(asSheet, 'now')}
    >
      {TRY_WORDS.back(shown)}
    </button>
  );
}

type SliderInputProps = Pick<TrySliderProps, 'value' | 'range' | 'text' | 'set'> & { readonly id: string };

/** Tries in turn while the hand moves; the value it leaves is tried at once. */
export function SliderInput({ id, value, range, text, set }: SliderInputProps): ReactElement {
  const input = useRef<HTMLInputElement>(null);
  const isHeld = useRef(false);
  const latest = useRef(set);
  useEffect(() => {
    latest.current = set;
  }, [set]);
  useEffect(() => {
    const slider = input.current!;
    // React hears `input` under the name of `change`; the browser's own `change` is the hand letting go.
    const letGo = (): void => latest.current(Number(slider.value), isHeld.current ? 'in turn' : 'now');
    slider.addEventListener('change', letGo);
    return () => slider.removeEventListener('change', letGo);
  }, []);
  const release = (): void => {
    if (isHeld.current) latest.current(Number(input.current!.value), 'now');
    isHeld.current = false;
  };
  return (
    <input
      ref={input}
      id={id}
      type="range"
      min={range.low}
      max={range.high}
      step={range.step}
      value={value}
      aria-valuetext={text}
      onChange={({ target }) => set(Number(target.value), 'in turn')}
      onKeyDown={({ repeat }) => {
        isHeld.current ||= repeat;
      }}
      onKeyUp={release}
      onBlur={release}
    />
  );
}

/** Half a slider's thumb, px, as in try.css: the ends of the range lie so far within its box. */
const HALF_THUMB = 8;

function placeOf(value: number, { low, high }: TrySliderProps['range']): string {
  const share = Math.min(1, Math.max(0, (value - low) / (high - low)));
  return `calc(${HALF_THUMB}px + ${share} * (100% - ${2 * HALF_THUMB}px))`;
}
