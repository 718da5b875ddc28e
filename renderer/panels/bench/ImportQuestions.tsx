import { useId, useState, type ReactElement } from 'react';
import type { TableQuestion } from '../../../core/io/tensile-table.ts';
import { DIRECTION_ANSWERS, IMPORT_WORDS } from '../../../core/words/bench-place-words.ts';
import { sayTableQuestion } from '../../../core/words/table-words.ts';
import { numberIn } from '../../store/bench-draft.ts';
import { withAnswer, type Incoming } from '../../store/bench-import.ts';
import { useTable } from '../../table.ts';

type Answer = Parameters<typeof withAnswer>[1];

/** What the table leaves open, question by question; an answer reads the table again. */
export function ImportQuestions({ incoming }: { readonly incoming: Incoming }): ReactElement {
  const { benchDeeds } = useTable();
  const { table } = incoming;
  const answer = (one: Answer): void => void benchDeeds.sayOfTable((wish) => withAnswer(wish, one));
  return (
    <div className="import-questions">
      {table.questions.slice(0, 4).map((question) => (
        <Question key={questionKey(question)} question={question} answer={answer} />
      ))}
    </div>
  );
}

const questionKey = (question: TableQuestion): string =>
  `${question.asks} ${'column' in question ? question.column : ''} ${'text' in question ? question.text : ''}`;

interface QuestionProps {
  readonly question: TableQuestion;
  readonly answer: (answer: Answer) => void;
}

function Question({ question, answer }: QuestionProps): ReactElement {
  const { what, remedy } = sayTableQuestion(question);
  const words = `${what} ${remedy}`;
  const { asks } = question;
  return asks === 'gaugeMm' || asks === 'circumferenceMm' || asks === 'widthMm' ? (
    <LengthAsked words={words} answer={(value) => answer({ [asks]: value })} />
  ) : (
    <OneOf words={words} options={optionsOf(question)} answer={answer} />
  );
}

interface Option {
  readonly word: string;
  readonly answer: Answer;
}

/** What one may answer, each with what it says of the table. */
function optionsOf(question: TableQuestion): readonly Option[] {
  switch (question.asks) {
    case 'decimalMark':
      return [
        { word: IMPORT_WORDS.comma, answer: { decimalMark: 'comma' } },
        { word: IMPORT_WORDS.point, answer: { decimalMark: 'point' } },
      ];
    case 'column':
      return question.candidates.map(({ column, header }) => ({
        word: `${column} · ${header}`,
        answer: { column: { column, meaning: question.meaning } },
      }));
    case 'unit':
      return question.choices.map((unit) => ({
        word: unit === question.likely ? IMPORT_WORDS.likely(unit) : unit,
        answer: { column: { column: question.column, unit } },
      }));
    case 'direction':
      return DIRECTION_ANSWERS.map(({ direction, word }) => ({
        word,
        answer: { directions: { [question.text]: direction } },
      }));
    case 'gaugeMm':
    case 'circumferenceMm':
    case 'widthMm':
      return [];
  }
}

interface OneOfProps {
  readonly words: string;
  readonly options: readonly Option[];
  readonly answer: (answer: Answer) => void;
}

function OneOf({ words, options, answer }: OneOfProps): ReactElement {
  return (
    <label className="import-line">
      <span>{words}</span>
      <select
        defaultValue=""
        onChange={({ target }) => {
          const option = options[Number(target.value)];
          if (target.value !== '' && option !== undefined) answer(option.answer);
        }}
      >
        <option value="">{IMPORT_WORDS.choose}</option>
        {options.map(({ word }, index) => (
          <option key={word} value={index}>
            {word}
          </option>
        ))}
      </select>
    </label>
  );
}

interface LengthAskedProps {
  readonly words: string;
  readonly answer: (value: number) => void;
}

/** Enter or leaving the field answers. */
function LengthAsked({ words, answer }: LengthAskedProps): ReactElement {
  const id = useId();
  const [text, setText] = useState('');
  const take = (): void => {
    const value = numberIn(text);
    if (value !== null && value > 0) answer(value);
  };
  return (
    <div className="import-line">
      <label htmlFor={id}>{words}</label>
      <input
        id={id}
        inputMode="decimal"
        value={text}
        onChange={({ target }) => setText(target.value)}
        onBlur={take}
        onKeyDown={({ key }) => {
          if (key === 'Enter') take();
        }}
      />
    </div>
  );
}
