import { useId, useState, type KeyboardEvent, type ReactElement } from 'react';
import type { DerivedNumber as Derived } from '../../../core/sheet/derived-number.ts';
import {
  DERIVED_PART_WORDS,
  derivedText,
  inputText,
  inputValueText,
  NO_STANDARD_WORDS,
  sourceText,
} from '../../../core/words/card-words.ts';

interface DerivedNumberProps {
  readonly number: Derived;
  /** Instead of the number's own full name, where the place around it says half of it. */
  readonly label?: string;
}

/** One number of the bench; its formula, inputs and standard unfold beneath it on demand. */
export function DerivedNumber({ number, label = derivedText(number) }: DerivedNumberProps): ReactElement {
  const [isOpen, setOpen] = useState(false);
  const works = useId();
  const closeOnEscape = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || !isOpen) return;
    // What lies around it stays open.
    event.stopPropagation();
    setOpen(false);
  };
  return (
    <div className="derived" onKeyDown={closeOnEscape}>
      <button
        type="button"
        className="derived-line"
        aria-expanded={isOpen}
        aria-controls={works}
        title={isOpen ? DERIVED_PART_WORDS.hide : DERIVED_PART_WORDS.show}
        onClick={() => setOpen(!isOpen)}
      >
        <span className="derived-label">{label}</span>
        <span className="derived-value">
          {number.value}
          {number.also === null ? null : <span className="soft"> · {number.also}</span>}
          {number.beyondReadings ? (
            <span className="derived-beyond"> · {DERIVED_PART_WORDS.beyond}</span>
          ) : null}
        </span>
        <span className="derived-turn" aria-hidden="true">
          {isOpen ? '−' : '+'}
        </span>
      </button>
      <div id={works} className="derived-works" hidden={!isOpen}>
        {isOpen ? <DerivedWorks number={number} /> : null}
      </div>
    </div>
  );
}

/** Formula, inputs and sources of a number. */
export function DerivedWorks({
  number: { formula, inputs, sources },
}: {
  readonly number: Derived;
}): ReactElement {
  return (
    <dl>
      <dt>{DERIVED_PART_WORDS.formula}</dt>
      <dd className="derived-formula">{formula}</dd>
      {inputs.length === 0 ? null : (
        <>
          <dt>{DERIVED_PART_WORDS.inputs}</dt>
          <dd>
            <table>
              <tbody>
                {inputs.map((input) => (
                  <tr key={`${input.what} ${input.direction ?? ''}`}>
                    <td className="derived-symbol">{input.symbol}</td>
                    <th scope="row">{inputText(input)}</th>
                    <td>{inputValueText(input)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </dd>
        </>
      )}
      <dt>{DERIVED_PART_WORDS.sources}</dt>
      <dd>
        {sources.length === 0 ? NO_STANDARD_WORDS : null}
        {sources.map((source) => (
          <p key={source.name}>{sourceText(source)}</p>
        ))}
      </dd>
    </dl>
  );
}
