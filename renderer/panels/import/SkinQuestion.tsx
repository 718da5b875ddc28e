import { useId, type ReactElement } from 'react';
import { DROPPED_WORDS, grouped, IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import { currentBody, type MadeBody, type OpenedScene } from '../../store/import-store.ts';
import { useImport, useTable } from '../../table.ts';
import { Question } from './Question.tsx';

/** Rows shown; nobody chooses among more. */
const MOST_ROWS = 200;

/** Which of the file's parts is the skin, and what becomes of the others. */
export function SkinQuestion(): ReactElement | null {
  const { importDeeds } = useTable();
  const group = useId();
  const opened = useImport((state) => state.opened);
  const chosen = useImport(({ choices }) => choices?.part);
  const made = useImport(currentBody);
  if (opened === null || chosen === undefined) return null;
  const { parts } = opened;
  const fates = fatesOf(opened, made);
  const row = (part: number | 'largest', name: string, count: number | null): ReactElement => {
    const fate = part === 'largest' ? '' : fates[part];
    return (
      <label
        key={part}
        className={`part ${chosen === part ? 'chosen' : ''} ${fate === '' || fate === IMPORT_STEP_WORDS.isSkin ? '' : 'out'}`}
      >
        <input
          type="radio"
          className="hidden"
          name={group}
          checked={chosen === part}
          onChange={() => importDeeds.choose({ part }, 'part')}
        />
        <span className="part-name">{name}</span>
        <span className="part-count">{count === null ? '' : grouped(count)}</span>
        <span className="part-fate">{fate}</span>
      </label>
    );
  };
  return (
    <Question title={IMPORT_STEP_WORDS.skin} asks={['part']}>
      {parts.length === 1 ? (
        <p className="soft">{IMPORT_STEP_WORDS.onePart(parts[0]!.name, parts[0]!.triangleCount)}</p>
      ) : (
        <div className="parts">
          {row('largest', IMPORT_STEP_WORDS.largest, null)}
          {largestFirst(opened)
            .slice(0, MOST_ROWS)
            .map((part) => row(part, parts[part]!.name, parts[part]!.triangleCount))}
          {parts.length > MOST_ROWS && (
            <p className="soft">{IMPORT_STEP_WORDS.moreParts(parts.length - MOST_ROWS)}</p>
          )}
        </div>
      )}
    </Question>
  );
}

/** Numbers of the parts, that with most triangles first. */
const largestFirst = ({ parts }: OpenedScene): readonly number[] =>
  parts.map((_, part) => part).sort((one, other) => parts[other]!.triangleCount - parts[one]!.triangleCount);

/** What became of each part: the skin, or why not; nothing while nobody knows. */
function fatesOf({ parts }: OpenedScene, made: MadeBody | null): readonly string[] {
  const fates = new Map<string, string>();
  for (const step of made?.report.steps ?? []) {
    if (step.kind === 'part-dropped') fates.set(step.facts.name, DROPPED_WORDS[step.facts.why]);
  }
  // A part of which pieces were left out may still hold the skin.
  for (const step of made?.report.steps ?? []) {
    if (step.kind !== 'skin-chosen') continue;
    for (const name of step.facts.names) fates.set(name, IMPORT_STEP_WORDS.isSkin);
  }
  return parts.map(({ name }) => fates.get(name) ?? '');
}
