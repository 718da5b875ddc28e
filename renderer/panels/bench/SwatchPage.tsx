import { useRef, type ReactElement, type ReactNode } from 'react';
import type { Direction } from '../../../core/fabric/fabric.ts';
import {
  DRAPE_REMARKS,
  drapeWords,
  exaggerationWords,
  overhangWords,
  specimenRemark,
  SWATCH_TEST_LINES,
  SWATCH_TEST_ORDER,
  SWATCH_TEST_WORDS,
  SWATCH_WORDS,
  swatchProgressWords,
  swatchRestWords,
} from '../../../core/words/swatch-words.ts';
import { DIRECTION_WORDS } from '../../../core/words/stage-words.ts';
import type { SwatchDeeds } from '../../store/swatch-runner.ts';
import type { SwatchRun, SwatchState } from '../../store/swatch-store.ts';
import { swatchPicture } from './swatch-picture.ts';

interface SwatchPageProps {
  readonly state: SwatchState;
  readonly deeds: SwatchDeeds;
  /** The drawn swatches; the scene's side puts them in. */
  readonly stage: ReactNode;
  readonly onSavePicture: (png: Uint8Array, name: string) => void;
}

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];
const FACTORS = [1, 2, 4, 8, 16] as const;

/** Why bending and thickness matter: the fabric over a round table and over an edge. */
export function SwatchPage({ state, deeds, stage, onSavePicture }: SwatchPageProps): ReactElement {
  const { test, direction, runs, thicknessFactor, bendingFactor } = state;
  const drawn = useRef<HTMLDivElement>(null);
  const mark = exaggerationWords(thicknessFactor, bendingFactor);
  if (runs.length === 0) return <p className="swatch-none soft">{SWATCH_WORDS.none}</p>;
  const savePicture = async (): Promise<void> => {
    const canvas = drawn.current?.querySelector('canvas');
    if (!canvas) return;
    const captions = runs.map((run) => [heading(run), ...resultLines(run, direction)]);
    const png = await swatchPicture({ canvas, title: SWATCH_TEST_WORDS[test], captions, mark });
    onSavePicture(png, `swatch-${test}.png`);
  };
  return (
    <section className="swatch-page" aria-label="Swatch">
      <div className="swatch-wishes">
        <Choice
          legend="Lay it"
          chosen={test}
          options={SWATCH_TEST_ORDER}
          words={SWATCH_TEST_WORDS}
          choose={deeds.chooseTest}
        />
        {test === 'cantilever' && (
          <Choice
            legend={SWATCH_WORDS.along}
            chosen={direction}
            options={DIRECTIONS}
            words={DIRECTION_WORDS}
            choose={deeds.chooseDirection}
          />
        )}
        <p className="soft">{SWATCH_TEST_LINES[test]}</p>
        {test === 'drape' &&
          DRAPE_REMARKS.map((remark) => (
            <p key={remark} className="soft">
              {remark}
            </p>
          ))}
        <Factor label={SWATCH_WORDS.thickness} factor={thicknessFactor} set={deeds.exaggerateThickness} />
        <Factor label={SWATCH_WORDS.bending} factor={bendingFactor} set={deeds.exaggerateBending} />
        <p className="swatch-deeds">
          <span className="soft">{SWATCH_WORDS.drag}</span>
          <button className="plain" type="button" onClick={deeds.turnBack}>
            {SWATCH_WORDS.straight}
          </button>
          <button className="plain" type="button" onClick={() => void savePicture()}>
            {SWATCH_WORDS.picture}
          </button>
        </p>
      </div>
      <div className="swatch-stage" ref={drawn}>
        {stage}
        {mark !== null && (
          <p className="swatch-mark" role="status">
            {mark}
          </p>
        )}
        <div className="swatch-captions">
          {runs.map((run) => (
            <Caption key={run.subject.letter} run={run} direction={direction} deeds={deeds} />
          ))}
        </div>
      </div>
    </section>
  );
}

const heading = ({ subject }: SwatchRun): string => `${subject.letter} · ${subject.name}`;

/** What came out, one line each. */
function resultLines({ settled }: SwatchRun, direction: Direction): string[] {
  if (settled === null) return [];
  const { atRest, residual } = settled.rest;
  const result =
    settled.test === 'drape'
      ? drapeWords(settled.rest.drapeCoefficient, settled.rest.foldCount)
      : overhangWords(settled.rest.overhang, settled.benchOverhang, direction);
  const remark = settled.test === 'drape' ? specimenRemark(settled.rest.drapeCoefficient) : null;
  return [result, swatchRestWords(atRest, residual), ...(remark === null ? [] : [remark])];
}

interface CaptionProps {
  readonly run: SwatchRun;
  readonly direction: Direction;
  readonly deeds: SwatchDeeds;
}

function Caption({ run, direction, deeds }: CaptionProps): ReactElement {
  const { progress, stale, notice } = run;
  return (
    <div className="swatch-caption" aria-live="polite">
      <h3>{heading(run)}</h3>
      {progress !== null ? (
        <p>
          {swatchProgressWords(progress)}{' '}
          <button className="plain" type="button" onClick={deeds.stop}>
            {SWATCH_WORDS.stop}
          </button>
        </p>
      ) : (
        resultLines(run, direction).map((line) => <p key={line}>{line}</p>)
      )}
      {progress === null && stale && notice === null && (
        <p>
          {SWATCH_WORDS.stopped}{' '}
          <button className="plain" type="button" onClick={deeds.goOn}>
            {SWATCH_WORDS.goOn}
          </button>
        </p>
      )}
      {notice !== null && (
        <p role="alert">
          {notice.what} <span className="soft">{notice.remedy}</span>
        </p>
      )}
    </div>
  );
}

interface ChoiceProps<Option extends string> {
  readonly legend: string;
  readonly chosen: Option;
  readonly options: readonly Option[];
  readonly words: Readonly<Record<Option, string>>;
  readonly choose: (option: Option) => void;
}

function Choice<Option extends string>(props: ChoiceProps<Option>): ReactElement {
  const { legend, chosen, options, words, choose } = props;
  return (
    <div className="swatch-choice" role="group" aria-label={legend}>
      <span className="soft">{legend}</span>
      {options.map((option) => (
        <button
          key={option}
          className="word"
          type="button"
          aria-pressed={option === chosen}
          onClick={() => choose(option)}
        >
          {words[option]}
        </button>
      ))}
    </div>
  );
}

interface FactorProps {
  readonly label: string;
  readonly factor: number;
  readonly set: (factor: number) => void;
}

/** A slider over doublings; anything but the first stop is marked exaggerated. */
function Factor({ label, factor, set }: FactorProps): ReactElement {
  const text =
    factor === 1 ? SWATCH_WORDS.asMeasured : `${SWATCH_WORDS.times(factor)}, ${SWATCH_WORDS.exaggeratedMark}`;
  return (
    <label className="swatch-factor">
      <span>{label}</span>
      <input
        type="range"
        min={0}
        max={FACTORS.length - 1}
        step={1}
        value={FACTORS.findIndex((one) => one === factor)}
        aria-valuetext={text}
        onChange={({ target }) => set(FACTORS[target.valueAsNumber] ?? 1)}
      />
      <span className="soft">{text}</span>
    </label>
  );
}
