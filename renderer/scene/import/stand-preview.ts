import { Matrix4 } from 'three';
import type { ImportChoices } from '../../../core/body/import-choices.ts';
import { turnOf } from '../../store/axis-turns.ts';
import type { MadeBody, OpenedScene } from '../../store/import-store.ts';

/** The longest way through whatever stands on the stage, in the stage's own measure: a unit that is wrong does not make it vanish. */
export const STAGE_HEIGHT = 1.75;

/** How a preview stands on its floor. */
export interface PreviewStand {
  /** From the file's surface, told from its middle, onto the stage. */
  readonly ofFile: Matrix4;
  /** From the body made of it, in m, onto the stage. */
  readonly ofBody: Matrix4;
  /** Of what is drawn as the body, on the stage. */
  readonly height: number;
  readonly width: number;
  /** True where the file reaches so far beyond the body that it is not drawn beside it. */
  readonly isFileFar: boolean;
}

/** Before a body is made, the file's surface stands as the answers turn it; then it lies where the body is. */
export function previewStand(
  opened: OpenedScene,
  choices: ImportChoices,
  made: MadeBody | null,
): PreviewStand {
  return made === null ? standOfFile(opened, choices) : standOfBody(opened, made);
}

function standOfFile({ size }: OpenedScene, choices: ImportChoices): PreviewStand {
  const turn = turnOf(choices);
  const across = (row: number): number =>
    [0, 1, 2].reduce((sum, k) => sum + Math.abs(turn[3 * row + k]!) * size[k]!, 0);
  const scale = scaleFor(Math.max(...size));
  const height = scale * across(1);
  return {
    ofFile: affine(turn, scale, [0, height / 2, 0]),
    ofBody: new Matrix4(),
    height,
    width: scale * across(0),
    isFileFar: false,
  };
}

function standOfBody({ middle, size: fileSize }: OpenedScene, { low, high, report }: MadeBody): PreviewStand {
  const { scale: unit, turn, shift } = report.placing;
  const size = [0, 1, 2].map((k) => high[k]! - low[k]!);
  const scale = scaleFor(Math.max(...size));
  const ofBody = affine([1, 0, 0, 0, 1, 0, 0, 0, 1], scale, [
    (-scale * (low[0] + high[0])) / 2,
    -scale * low[1],
    (-scale * (low[2] + high[2])) / 2,
  ]);
  const moved = [0, 1, 2].map(
    (row) => shift[row]! + unit * [0, 1, 2].reduce((sum, k) => sum + turn[3 * row + k]! * middle[k]!, 0),
  );
  return {
    ofFile: ofBody.clone().multiply(affine(turn, unit, moved)),
    ofBody,
    height: scale * size[1]!,
    width: scale * size[0]!,
    isFileFar: scale * unit * Math.max(...fileSize) > FAR * STAGE_HEIGHT,
  };
}

/** So many bodies long. */
const FAR = 4;

const scaleFor = (longest: number): number => (longest > 0 ? STAGE_HEIGHT / longest : 1);

/** p = scale * turn q + move; `turn` by rows. */
const affine = (turn: readonly number[], scale: number, move: readonly number[]): Matrix4 => {
  const [a, b, c, d, e, f, g, h, i] = turn.map((value) => value * scale);
  return new Matrix4().set(a!, b!, c!, move[0]!, d!, e!, f!, move[1]!, g!, h!, i!, move[2]!, 0, 0, 0, 1);
};
