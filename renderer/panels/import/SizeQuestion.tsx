import { useId, type ReactElement } from 'react';
import {
  IMPORT_STEP_WORDS,
  tallWords,
  UNIT_ORDER,
  UNIT_SIGNS,
} from '../../../core/words/import-step-words.ts';
import { UNIT_WORDS } from '../../../core/words/import-words.ts';
import { heightsMm } from '../../store/import-store.ts';
import { useImport, useTable } from '../../table.ts';
import { Question } from './Question.tsx';

/** Heights of people, small children to the very tall, mm; others are greyed. */
const PEOPLE = [350, 2300] as const;

/** What the file's numbers are, told by how tall the body is with each. */
export function SizeQuestion(): ReactElement {
  const { importDeeds } = useTable();
  const group = useId();
  const state = useImport((all) => all);
  const heights = heightsMm(state);
  return (
    <Question title={IMPORT_STEP_WORDS.size} asks={['unit']}>
      <div className="sizes">
        {UNIT_ORDER.map((unit) => {
          const isChosen = state.choices?.unit === unit;
          const isLikely = heights[unit] >= PEOPLE[0] && heights[unit] <= PEOPLE[1];
          return (
            <label key={unit} className={`size ${isChosen ? 'chosen' : ''} ${isLikely ? '' : 'unlikely'}`}>
              <input
                type="radio"
                className="hidden"
                name={group}
                checked={isChosen}
                aria-label={IMPORT_STEP_WORDS.tallIn(tallWords(heights[unit]), UNIT_WORDS[unit])}
                onChange={() => importDeeds.choose({ unit }, 'unit')}
              />
              <strong>{tallWords(heights[unit])}</strong>
              <span>{IMPORT_STEP_WORDS.ifIn(UNIT_SIGNS[unit])}</span>
            </label>
          );
        })}
      </div>
      {state.opened?.guess.unit.reason.stated != null && (
        <p className="soft">{IMPORT_STEP_WORDS.stated(UNIT_WORDS[state.opened.guess.unit.reason.stated])}</p>
      )}
    </Question>
  );
}
