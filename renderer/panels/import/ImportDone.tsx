import type { ReactElement } from 'react';
import type { ImportStep } from '../../../core/body/import-report.ts';
import { IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import { levelWords } from '../../../core/words/judgement-words.ts';
import { sayImportStep } from '../../../core/words/import-words.ts';
import {
  bodyHeightMm,
  currentBody,
  isWearable,
  openQuestions,
  type ImportState,
} from '../../store/import-store.ts';
import { useImport, useStudy, useTable } from '../../table.ts';

/** Everything that was done to the mesh, and the one button that wears the garment on it. */
export function ImportDone(): ReactElement {
  const made = useImport(currentBody);
  const fault = useImport((state) => state.fault);
  return (
    <section className="leaf import-leaf done" aria-label={IMPORT_STEP_WORDS.done}>
      <header className="leaf-head">
        <h2>{IMPORT_STEP_WORDS.done}</h2>
      </header>
      <p className="made soft figures" role="status">
        {made !== null && IMPORT_STEP_WORDS.made(bodyHeightMm(made), made.surface.triangles.length / 3)}
      </p>
      <TapeLine />
      <div className="leaf-body" tabIndex={0} role="group" aria-label={IMPORT_STEP_WORDS.done}>
        {fault !== null ? (
          <div className="import-fault" role="alert">
            <strong>{fault.what}</strong>
            <p>{fault.remedy}</p>
          </div>
        ) : made === null ? (
          <p className="soft">{IMPORT_STEP_WORDS.soFar}</p>
        ) : (
          <ol className="steps">
            {inReadingOrder(made.report.steps).map((step, index) => (
              <li key={index} className={isHeeded(step) ? 'heed' : ''}>
                {sayImportStep(step)}
              </li>
            ))}
          </ol>
        )}
      </div>
      <WearDeeds />
    </section>
  );
}

/** Levels told, as far as they are found. */
const TOLD: readonly string[] = ['bust', 'waist', 'hip'];

/** What a tape reads on it: whether the unit is right shows here first. */
function TapeLine(): ReactElement | null {
  const made = useImport(currentBody);
  const levels = useImport((state) => state.levels);
  const isAtRest = useImport(({ work }) => work === null);
  if (made === null || !isAtRest || !made.report.closed) return null;
  const girths = levels?.flatMap(({ name, girthMm }) =>
    TOLD.includes(name) ? [[levelWords(name), girthMm] as const] : [],
  );
  return (
    <p className="made tape-line figures">
      {girths === undefined
        ? IMPORT_STEP_WORDS.tooFine
        : girths.length === 0
          ? IMPORT_STEP_WORDS.noPerson
          : IMPORT_STEP_WORDS.tape(girths)}
    </p>
  );
}

/** What a person should look at stands first; the rest as it was done. */
const inReadingOrder = (steps: readonly ImportStep[]): readonly ImportStep[] =>
  steps.toSorted((one, other) => Number(isHeeded(other)) - Number(isHeeded(one)));

const LEAST_SHARE = 0.25;

/** What was found but not mended. */
function isHeeded(step: ImportStep): boolean {
  if (step.kind === 'hole') return step.facts.done !== 'closed';
  if (step.kind === 'self-intersections') return step.facts.pairCount > 0 || !step.facts.complete;
  // A skin that is a small piece of what the file holds is hardly the body.
  if (step.kind === 'skin-chosen') return step.facts.areaShare < LEAST_SHARE;
  return step.kind === 'refined' && step.facts.cutShort;
}

function WearDeeds(): ReactElement {
  const { importDeeds } = useTable();
  const hasStudy = useStudy(({ shown }) => shown !== null);
  const name = useImport(({ file }) => file?.name ?? '');
  const isReady = useImport(isWearable) && hasStudy;
  const why = useImport(whyNot);
  return (
    <footer className="wear-deeds">
      <p className="soft">
        {hasStudy ? (why ?? (isReady ? IMPORT_STEP_WORDS.kept(name) : '')) : IMPORT_STEP_WORDS.noStudy}
      </p>
      <div>
        <button className="wear" type="button" disabled={!isReady} onClick={importDeeds.wear}>
          {IMPORT_STEP_WORDS.wear}
        </button>
        <button
          className="word"
          type="button"
          disabled={!isReady}
          onClick={() => void importDeeds.saveStudy()}
        >
          {IMPORT_STEP_WORDS.save}
        </button>
      </div>
    </footer>
  );
}

/** Why the body cannot be worn yet; null where it can, or nothing is known of it. */
function whyNot(state: ImportState): string | null {
  const made = currentBody(state);
  const questions = openQuestions(state);
  if (questions.length > 0) return IMPORT_STEP_WORDS.askedFirst(questions);
  if (made === null || made.report.closed) return null;
  const isWide = made.report.steps.some(
    ({ kind, facts }) => kind === 'hole' && 'done' in facts && facts.done === 'too wide',
  );
  return isWide ? IMPORT_STEP_WORDS.leftOpen : IMPORT_STEP_WORDS.notClosed;
}
