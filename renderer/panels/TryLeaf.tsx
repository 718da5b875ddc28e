import { useId, useState, type ReactElement } from 'react';
import type { FleshChoice, StudyChange } from '../../core/study/study.ts';
import {
  cutDetail,
  cutText,
  FRICTION_MARKS,
  frictionSource,
  frictionText,
  shiftText,
  TRY_WORDS,
} from '../../core/words/try-words.ts';
import { BENCH_DEEDS } from '../../core/words/bench-place-words.ts';
import { asOpenedChange, isNothing, type AsOpened } from '../store/plain-change.ts';
import type { TryPace } from '../store/study-runner.ts';
import { wantedChange, type ShownStudy, type StudySheet } from '../store/study-store.ts';
import { useHistory, useStudy, useTable } from '../table.ts';
import { Leaf } from './Leaf.tsx';
import { TryChoice } from './TryChoice.tsx';
import { TrySlider } from './TrySlider.tsx';

/** The study tried otherwise: friction, cut, where it is laid, flesh, curve. */
export function TryLeaf({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const { tryOut } = useTable();
  const wanted = useStudy(wantedChange);
  const { asOpened } = shown;
  const now = { ...asOpenedChange(asOpened), ...wanted };
  const change: Set = (part, pace) => tryOut({ ...wanted, ...part }, pace);
  const parts = { opened: asOpened, now, change };
  return (
    <Leaf name="try">
      <div className="try-parts">
        <Friction {...parts} />
        <Cut {...parts} />
        {'from' in asOpened.garment && <Hems {...parts} laid={asOpened.garment} />}
        <Flesh {...parts} />
        <Curve {...parts} />
      </div>
      <TryDeeds wanted={wanted} />
    </Leaf>
  );
}

type Set = (part: StudyChange, pace: TryPace) => void;

interface PartProps {
  readonly opened: StudySheet;
  /** What is tried, and what the sheet says of the rest. */
  readonly now: AsOpened;
  readonly change: Set;
}

/** As far as a study file may go. */
const MOST_FRICTION = 2;

function Friction({ opened, now, change }: PartProps): ReactElement {
  const set = (typed: number, pace: TryPace): void => {
    const coefficient = Math.min(MOST_FRICTION, Math.max(0, typed));
    const from = FRICTION_MARKS.find(({ at }) => at === coefficient)?.from ?? 'typed';
    change({ friction: { coefficient, from } }, pace);
  };
  return (
    <>
      <TrySlider
        name={TRY_WORDS.friction}
        value={now.friction.coefficient}
        asSheet={opened.friction}
        range={{ low: 0, high: 1.2, step: 0.01 }}
        decimals={2}
        text={frictionText(now.friction)}
        marks={FRICTION_MARKS}
        set={set}
      />
      <p className="soft try-source">{frictionSource(now.friction.coefficient, opened.friction)}</p>
    </>
  );
}

/** Of the girths, %. */
const MOST_CUT = 10;

function Cut({ opened, now, change }: PartProps): ReactElement {
  const percent = Math.round(1000 * (now.girthScale - 1)) / 10;
  return (
    <TrySlider
      name={TRY_WORDS.cut}
      said={cutText(now.girthScale)}
      unit={TRY_WORDS.cutUnit}
      value={percent}
      asSheet={0}
      range={{ low: -MOST_CUT, high: MOST_CUT, step: 0.5 }}
      decimals={1}
      text={`${cutText(now.girthScale)}, ${cutDetail(now.girthScale, opened)}`}
      set={(typed, pace) => {
        const within = Math.min(MOST_CUT, Math.max(-MOST_CUT, typed));
        change({ girthScale: Math.round(1000 * (1 + within / 100)) / 1000 }, pace);
      }}
    >
      <span>{cutDetail(now.girthScale, opened)}</span>
    </TrySlider>
  );
}

/** How far a hem may be laid elsewhere, cm. */
const MOST_SHIFT = 6;

const centimetres = (metres: number): number => Math.round(1000 * metres) / 10;

interface HemsProps extends PartProps {
  /** The tube as the sheet lays it. */
  readonly laid: { readonly from: number; readonly to: number };
}

function Hems({ laid, now, change }: HemsProps): ReactElement {
  const [isTogether, setTogether] = useState(true);
  const id = useId();
  const hem = (which: 'from' | 'to', name: string): ReactElement => {
    const at = { ...laid, ...now };
    const sheet = centimetres(laid[which]);
    const other = which === 'from' ? 'to' : 'from';
    return (
      <TrySlider
        name={name}
        unit={TRY_WORDS.cm}
        value={centimetres(at[which])}
        asSheet={sheet}
        range={{ low: sheet - MOST_SHIFT, high: sheet + MOST_SHIFT, step: 0.5 }}
        decimals={1}
        text={`${centimetres(at[which])} ${TRY_WORDS.cm}, ${shiftText(at[which] - laid[which])}`}
        set={(typed, pace) => {
          const wanted = Math.min(sheet + MOST_SHIFT, Math.max(sheet - MOST_SHIFT, typed)) / 100;
          const moved = at[other] + wanted - at[which];
          change({ [which]: wanted, ...(isTogether && { [other]: Math.round(1000 * moved) / 1000 }) }, pace);
        }}
      >
        {at[which] !== laid[which] && <span>{shiftText(at[which] - laid[which])}</span>}
      </TrySlider>
    );
  };
  return (
    <>
      {hem('to', TRY_WORDS.upper)}
      {hem('from', TRY_WORDS.lower)}
      <label className="try-tick" htmlFor={id}>
        <input
          id={id}
          type="checkbox"
          checked={isTogether}
          onChange={({ target }) => setTogether(target.checked)}
        />
        {TRY_WORDS.together}
      </label>
    </>
  );
}

type FleshLayer = Extract<FleshChoice, { kind: 'layer' }>;

/** The bracket of soft tissue, and the end of it that bulges most. */
const POISSON = { low: 0.45, high: 0.49, step: 0.01 } as const;
const USUAL_LAYER: FleshLayer = { kind: 'layer', poisson: 0.49, skin: 'slides' };

function Flesh({ opened, now, change }: PartProps): ReactElement {
  const { flesh } = now;
  const begun = opened.flesh.kind === 'layer' ? opened.flesh : USUAL_LAYER;
  return (
    <>
      <TryChoice
        name={TRY_WORDS.flesh}
        options={{ foundation: TRY_WORDS.foundation, layer: TRY_WORDS.layer }}
        chosen={flesh.kind}
        choose={(kind) => change({ flesh: kind === 'layer' ? begun : { kind } }, 'now')}
      />
      {flesh.kind === 'layer' && <Layer opened={opened} layer={flesh} change={change} />}
    </>
  );
}

interface LayerProps extends Pick<PartProps, 'opened' | 'change'> {
  readonly layer: FleshLayer;
}

const Layer = ({ opened, layer, change }: LayerProps): ReactElement => (
  <>
    <TrySlider
      name={TRY_WORDS.poisson}
      value={layer.poisson}
      asSheet={opened.flesh.kind === 'layer' ? opened.flesh.poisson : null}
      range={POISSON}
      decimals={2}
      text={String(layer.poisson)}
      set={(typed, pace) => {
        const poisson = Math.min(POISSON.high, Math.max(POISSON.low, typed));
        change({ flesh: { ...layer, poisson } }, pace);
      }}
    />
    <TryChoice
      name={TRY_WORDS.skin}
      options={{ slides: TRY_WORDS.slides, held: TRY_WORDS.held }}
      chosen={layer.skin}
      choose={(skin) => change({ flesh: { ...layer, skin } }, 'now')}
    />
  </>
);

const Curve = ({ now, change }: PartProps): ReactElement => (
  <TryChoice
    name={TRY_WORDS.curve}
    options={{ load: TRY_WORDS.load, return: TRY_WORDS.return }}
    chosen={now.branch}
    choose={(branch) => change({ branch }, 'now')}
  />
);

/** Steps back and forth, back to the sheet, and the study as tried to a file. */
export function TryDeeds({ wanted }: { readonly wanted: StudyChange }): ReactElement {
  const { tryOut, saveTried, history } = useTable();
  const canUndo = useHistory(({ past }) => past.length > 0);
  const canRedo = useHistory(({ future }) => future.length > 0);
  const isTried = !isNothing(wanted);
  return (
    <div className="try-deeds">
      <button type="button" className="word" disabled={!canUndo} onClick={history.undo}>
        {BENCH_DEEDS.undo}
      </button>
      <button type="button" className="word" disabled={!canRedo} onClick={history.redo}>
        {BENCH_DEEDS.redo}
      </button>
      <button type="button" className="word" disabled={!isTried} onClick={() => tryOut({}, 'now')}>
        {TRY_WORDS.resetAll}
      </button>
      <button type="button" className="word" disabled={!isTried} onClick={() => void saveTried()}>
        {TRY_WORDS.save}
      </button>
    </div>
  );
}
