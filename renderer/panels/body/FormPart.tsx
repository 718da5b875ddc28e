import { useId, type ReactElement, type ReactNode } from 'react';
import type { FitFigureKind } from '../../../core/body/fit-measures.ts';
import type { Landmarks } from '../../../core/body/landmarks.ts';
import {
  fitSliders,
  isNeeded,
  withValue,
  type AskedForm,
  type FitParameterName,
  type FitSlider,
} from '../../../core/sheet/fit-sliders.ts';
import { fixed } from '../../../core/sheet/number-format.ts';
import { sizedMeasures, sizeOf } from '../../../core/sheet/size-measures.ts';
import { FORM_WORDS, parameterWord } from '../../../core/words/form-words.ts';
import type { TryPace } from '../../store/study-runner.ts';
import { wantedChange, type ShownStudy } from '../../store/study-store.ts';
import { chartFor } from '../../store/body-store.ts';
import { useBody, useStudy, useTable } from '../../table.ts';
import { TryChoice } from '../TryChoice.tsx';
import { TryDeeds } from '../TryLeaf.tsx';
import { ChartName } from './ChartLine.tsx';
import { MeasureRow } from './MeasureRow.tsx';
import { SizeWords } from './SizeWords.tsx';

type Change = (form: AskedForm, pace: TryPace) => void;

/** Our own form by its measures: a size picked by name, then girth by girth, then stance and shape. */
export function FormPart({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const { tryOut } = useTable();
  const wanted = useStudy(wantedChange);
  const ownChart = useBody((body) => body.ownChart);
  const { measures, shape } = shown.asOpened;
  if (measures === null) return <p className="soft">{FORM_WORDS.mesh}</p>;
  const opened: AskedForm = { measures, shape };
  const form: AskedForm = { measures: wanted.measures ?? measures, shape: wanted.shape ?? shape };
  const figure = form.measures.figure ?? 'female';
  const chart = chartFor({ ownChart }, figure);
  const change: Change = (next, pace) => tryOut({ ...wanted, ...next }, pace);
  return (
    <>
      <TryChoice
        name={FORM_WORDS.figure}
        options={FORM_WORDS.figures}
        chosen={figure}
        choose={(chosen) => change({ ...form, measures: { ...form.measures, figure: chosen } }, 'now')}
      />
      <SizeWords
        chart={chart}
        chosen={sizeOf(chart, form.measures)}
        choose={(size) => change({ ...form, measures: sizedMeasures(chart, size, form.measures) }, 'now')}
      />
      <ChartName chart={chart} />
      <Groups
        form={form}
        opened={opened}
        standingArms={standingArms(shown.settled.known.landmarks)}
        change={change}
      />
      <p className="soft">{FORM_WORDS.girths}</p>
      <TryDeeds wanted={wanted} />
    </>
  );
}

/** How far the arms of a form stand away from the vertical, degrees; null where they are not known. */
function standingArms({ shoulderLeft, elbowLeft }: Landmarks): number | null {
  if (shoulderLeft === undefined || elbowLeft === undefined) return null;
  const [outward, down] = [
    elbowLeft.point[0] - shoulderLeft.point[0],
    shoulderLeft.point[1] - elbowLeft.point[1],
  ];
  return (Math.atan2(outward, down) * 180) / Math.PI;
}

interface GroupsProps {
  readonly form: AskedForm;
  readonly opened: AskedForm;
  readonly standingArms: number | null;
  readonly change: Change;
}

const LIMBS: ReadonlySet<FitParameterName> = new Set([
  'thigh',
  'midThigh',
  'knee',
  'calf',
  'ankle',
  'upperArm',
  'elbow',
  'wrist',
]);

const GROUPS: readonly { readonly title: string; readonly holds: (slider: FitSlider) => boolean }[] = [
  {
    title: FORM_WORDS.groups.trunk,
    holds: ({ name, kind }) => kind === 'length' || (kind === 'girth' && !LIMBS.has(name)),
  },
  { title: FORM_WORDS.groups.limbs, holds: ({ name }) => LIMBS.has(name) },
  { title: FORM_WORDS.groups.shape, holds: ({ kind }) => kind === 'stance' || kind === 'shape' },
];

/** All that may be asked for, in folds, one open at a time. */
function Groups({ form, opened, standingArms: arms, change }: GroupsProps): ReactElement {
  const group = useId();
  const sliders = fitSliders(form, arms);
  const asOpened = new Map(fitSliders(opened, arms).map((slider) => [slider.name, slider]));
  return (
    <>
      {GROUPS.map(({ title, holds }, index) => (
        <Fold key={title} title={title} group={group} isOpen={index === 0}>
          {sliders.filter(holds).map((slider) => (
            <FitRow
              key={slider.name}
              slider={slider}
              opened={asOpened.get(slider.name)}
              figure={form.measures.figure ?? 'female'}
              ask={(value, pace) => change(withValue(form, slider, value), pace)}
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
  readonly figure: FitFigureKind;
  /** Null leaves it to be estimated. */
  readonly ask: (value: number | null, pace: TryPace) => void;
}

function FitRow({ slider, opened, figure, ask }: FitRowProps): ReactElement {
  const { name, unit, value, isEstimated, low, high, step, decimals } = slider;
  const word = parameterWord(name, figure);
  const back = backOf(slider, opened);
  return (
    <MeasureRow
      name={word}
      unit={unit}
      value={value}
      range={{ low, high, step }}
      decimals={decimals}
      said={isEstimated ? FORM_WORDS.estimated : undefined}
      sheet={opened === undefined ? null : opened.value}
      set={ask}
      back={
        back === null
          ? null
          : {
              label:
                back === 'estimate'
                  ? FORM_WORDS.estimate(word)
                  : FORM_WORDS.back(word, fixed(back, decimals)),
              go: () => ask(back === 'estimate' ? null : back, 'now'),
            }
      }
    />
  );
}

/** Where a value goes back to: what the study gives, or the estimate; null where it stands there. */
function backOf(
  { name, value, isEstimated, step }: FitSlider,
  opened: FitSlider | undefined,
): number | 'estimate' | null {
  if (opened?.isEstimated !== false) return isEstimated || isNeeded(name) ? null : 'estimate';
  return Math.abs(opened.value - value) < step / 100 ? null : opened.value;
}
