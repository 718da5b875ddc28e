import type { FitFigureKind } from '../body/fit-measures.ts';
import { FIT_PARAMETERS } from '../body/fit-parameters.ts';
import { valuesOfSize } from '../body/fit-size.ts';
import { fitFromValues } from '../body/fit-values.ts';
import { INVENTED_CHARTS } from '../body/size-chart-invented.ts';
import type { SizeChart } from '../body/size-chart.ts';
import { inFile } from '../fault/fault.ts';
import { readSizeChart } from '../io/read-size-chart.ts';
import type { StudyFile } from '../io/study-file.ts';
import type { FilesBeside } from './open-study.ts';
import type { BodyChoice } from './study.ts';

type FitFile = Extract<StudyFile['body'], { fitBody: unknown }>['fitBody'];

/**
 * Our own form as a study asks for it: what stands in the study, laid over the size that it names, if it names one.
 *
 * @throws {Fault} `fit/size-unknown`, `fit/size-incomplete`; those of a size chart beside the study.
 */
export async function fitChoice(file: FitFile, files: Pick<FilesBeside, 'text'>): Promise<BodyChoice> {
  const { size, sizeChart, figure = 'female', ...numbers } = file;
  const given: Record<string, number | undefined> = numbers;
  const over = Object.fromEntries(
    FIT_PARAMETERS.flatMap(({ name, key }) => (given[key] === undefined ? [] : [[name, given[key]]])),
  );
  const { statureMm, bustMm, underbustMm, waistMm, hipMm } = file;
  // Without a size the study file has these five: it is not read otherwise.
  const values =
    size === undefined
      ? {
          ...over,
          stature: statureMm!,
          bust: bustMm!,
          underbust: underbustMm!,
          waist: waistMm!,
          hip: hipMm!,
        }
      : valuesOfSize(await sizesOf(sizeChart, figure, files), size, { figure, over });
  const { measures, shape } = fitFromValues(values, figure);
  return { kind: 'fitBody', measures, ...(Object.keys(shape).length > 0 && { shape }) };
}

/** The size chart beside the study, or the invented one. */
async function sizesOf(
  path: string | undefined,
  figure: FitFigureKind,
  files: Pick<FilesBeside, 'text'>,
): Promise<SizeChart> {
  if (path === undefined) return INVENTED_CHARTS[figure === 'male' ? 'men' : 'women'];
  const text = await files.text(path);
  return inFile(path, () => readSizeChart(text, path));
}
