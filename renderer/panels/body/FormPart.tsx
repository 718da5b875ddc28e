import { useId, type ReactElement, type ReactNode } from 'react';
import type { FitMeasures } from '../../../core/body/fit-measures.ts';
import {
  fitSliders,
  isNeeded,
  withMeasure,
  type FitMeasureName,
  type FitSlider,
} from '../../../core/sheet/fit-sliders.ts';
import { fixed } from '../../../core/sheet/number-format.ts';
import { sizedMeasures, sizeOf } from '../../../core/sheet/size-measures.ts';
import { FORM_WORDS, measureWord } from '../../../core/words/form-words.ts';
import type { TryPace } from '../../store/study-runner.ts';
import { wantedChange, type ShownStudy } from '../../store/study-store.ts';
import { chartFor } from '../../store/body-store.ts';
import { useBody, useStudy, useTable } from '../../table.ts';
import { TryChoice } from '../TryChoice.tsx';
import { TryDeeds } from '../TryLeaf.tsx';
import { ChartName } from './ChartLine.tsx';
import { SizeWords } from './SizeWords.tsx';
import { MeasureRow } from './MeasureRow.tsx';

type Change = (measures: FitMeasures, pace: TryPace) => void;

/** Our own form by its measures: a size picked by name, then girth by girth. */
export function FormPart({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const { tryOut } = useTable();
  const wanted = useStudy(wantedChange);
  const body = useBody((state) => state);
  const opened = shown.asOpened.measures;
  if (opened === null) return <p className="soft">{FORM_WORDS.mesh}</p>;
  const measures = wanted.measures ?? opened;
  const figure = measures.figure ?? 'female';
  const chart = chartFor(body, figure);
  const change: Change = (next, pace) => tryOut({ ...wanted, measures: next }, pace);
  return (
    <>
      <TryChoice
        name={FORM_WORDS.figure}
        options={FORM_WORDS.figures}
        chosen={figure}
        choose={(next) => change(figureChanged(measures, next), 'now')}
      />
      <SizeWords
        chart={chart}
        chosen={sizeOf(chart, measures)}
        choose={(size) => change(sizedMeasures(chart, size, measures), 'now')}
      />
      <ChartName chart={chart} />
      <MeasureGroups measures={measures} opened={opened} change={change} />
      <p className="soft">{FORM_WORDS.girths}</p>
      <TryDeeds wanted={wanted} />
    </>
  );
}

/** The other figure with the same girths; those that were estimated are estimated anew. */
const figureChanged = (measures: FitMeasures, figure: 'female' | 'male'): FitMeasures => ({
  ...measures,
  figure,
});

interface MeasureGroupsProps {
  readonly measures: FitMeasures;
  readonly opened: FitMeasures;
  readonly change: Change;
}

const GROUPS: readonly { readonly title: string; readonly names: readonly FitMeasureName[] }[] = [
  {
    title: FORM_WORDS.groups.trunk,
    names: ['stature', 'neck', 'bust', 'underbust', 'waist', 'topHip', 'hip'],
  },
  {
    title: FORM_WORDS.groups.limbs,
    names: ['thigh', 'midThigh', 'knee', 'calf', 'ankle', 'upperArm', 'elbow', 'wrist'],
  },
];

/** Measures in folds, one open at a time. */
function MeasureGroups({ measures, opened, change }: MeasureGroupsProps): ReactElement {
  const group = useId();
  const sliders = fitSliders(measures);
  const asOpened = new Map(fitSliders(opened).map((slider) => [slider.name, slider]));
  return (
    <>
      {GROUPS.map(({ title, names }, index) => (
        <Fold key={title} title={title} group={group} isOpen={index === 0}>
          {sliders
            .filter(({ name }) => names.includes(name))
            .map((slider) => (
              <FitRow
                key={slider.name}
                slider={slider}
                opened={asOpened.get(slider.name)}
                measures={measures}
                change={change}
              />
            ))}
        </Fold>
      ))}
    </>
  );
}

interface FoldProps {
  readonly title: string;
  readonly group: string;
  readonly isOpen: boolean;
  readonly children: ReactNode;
}

/** A fold of paper; of one group only one lies open. */
const Fold = ({ title, group, isOpen, children }: FoldProps): ReactElement => (
  <details className="fold" name={group} open={isOpen}>
    <summary>{title}</summary>
    {children}
  </details>
);

interface FitRowProps {
  readonly slider: FitSlider;
  readonly opened: FitSlider | undefined;
  readonly measures: FitMeasures;
  readonly change: Change;
}

function FitRow({ slider, opened, measures, change }: FitRowProps): ReactElement {
  const { name, valueMm, isEstimated, lowMm, highMm } = slider;
  const word = measureWord(name, measures.figure ?? 'female');
  const set = (centimetres: number, pace: TryPace): void =>
    change(withMeasure(measures, slider, 10 * centimetres), pace);
  const back = backOf(slider, opened);
  return (
    <MeasureRow
      name={word}
      unit="cm"
      value={valueMm / 10}
      range={{ low: lowMm / 10, high: highMm / 10, step: 0.5 }}
      decimals={1}
      said={isEstimated ? FORM_WORDS.estimated : undefined}
      sheet={opened === undefined ? null : opened.valueMm / 10}
      set={set}
      back={
        back === null
          ? null
          : {
              label: back === 'estimate' ? FORM_WORDS.estimate(word) : FORM_WORDS.back(word, fixed(back, 1)),
              go: () => change(withMeasure(measures, slider, back === 'estimate' ? null : 10 * back), 'now'),
            }
      }
    />
  );
}

/** Where a measure goes back to: what the study gives, cm, or the estimate; null where it stands there. */
function backOf(
  { name, valueMm, isEstimated }: FitSlider,
  opened: FitSlider | undefined,
): number | 'estimate' | null {
  if (opened?.isEstimated !== false) return isEstimated || isNeeded(name) ? null : 'estimate';
  return Math.abs(opened.valueMm - valueMm) < 0.05 ? null : opened.valueMm / 10;
}
