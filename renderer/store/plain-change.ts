import type { StudyChange } from '../../core/study/study.ts';
import { plainBlockChange } from '../../core/sheet/spec-sheet.ts';
import type { StudySheet } from './study-store.ts';

/** A change with all its parts; a mesh has no measures, a block no hems that may be laid elsewhere, a tube no sheet of a block. */
export type AsOpened = Required<Omit<StudyChange, 'measures' | 'from' | 'to' | 'block'>> &
  Pick<StudyChange, 'measures' | 'from' | 'to' | 'block'>;

/** What the study was opened with, as a change that changes nothing. */
export const asOpenedChange = ({
  friction,
  frictionFrom,
  flesh,
  branch,
  garment,
  measures,
  shape,
  tape,
  tissue,
}: StudySheet): AsOpened => ({
  friction: { coefficient: friction, from: frictionFrom },
  flesh,
  branch,
  girthScale: 1,
  ...('from' in garment && { from: garment.from, to: garment.to }),
  ...(measures && { measures }),
  shape,
  tape,
  tissue,
});

/** A change without what is as the study was opened; its parts always in the same order. */
export function plainChange(change: StudyChange, opened: StudySheet): StudyChange {
  const asIs = asOpenedChange(opened);
  const { friction, flesh, branch, girthScale, from, to } = { ...asIs, ...change };
  return {
    ...(friction.coefficient !== asIs.friction.coefficient && { friction }),
    ...(fleshKey(flesh) !== fleshKey(asIs.flesh) && { flesh }),
    ...(branch !== asIs.branch && { branch }),
    ...(girthScale !== 1 && { girthScale }),
    ...(from !== undefined && from !== asIs.from && { from }),
    ...(to !== undefined && to !== asIs.to && { to }),
    ...plainBlock(change, opened),
    ...plainBody(change, asIs),
  };
}

/** The same of a block's sheet. */
function plainBlock({ block }: StudyChange, { garment }: StudySheet): Pick<StudyChange, 'block'> {
  if (block === undefined || !('block' in garment)) return {};
  const plain = plainBlockChange(garment, block);
  return plain === null ? {} : { block: plain };
}

/** The same of what belongs to the body. */
function plainBody(change: StudyChange, asIs: AsOpened): StudyChange {
  const { measures, shape, tape, tissue } = { ...asIs, ...change };
  return {
    ...(measures && asIs.measures && isOther(measures, asIs.measures) && { measures }),
    ...(asIs.measures && isOther(shape, asIs.shape) && { shape }),
    ...(isOther(tape, asIs.tape) && { tape }),
    ...(isOther(tissue, asIs.tissue) && { tissue }),
  };
}

const isOther = (one: object, other: object): boolean => sortedKey(one) !== sortedKey(other);

const fleshKey = (flesh: Required<StudyChange>['flesh']): string =>
  flesh.kind === 'foundation' ? flesh.kind : `${flesh.kind} ${flesh.poisson} ${flesh.skin}`;

/** The same for plain data that says the same, in whatever order it was put together. */
const sortedKey = (data: object): string =>
  JSON.stringify(data, (_, value: unknown) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).toSorted(([one], [other]) => (one < other ? -1 : 1)))
      : value,
  );

/** Whether two plain changes say the same. */
export function sameChange(one: StudyChange, other: StudyChange): boolean {
  return keyOf(one) === keyOf(other);
}

/** Whether cloth worn with two plain changes comes out the same: only the tape may lie otherwise. */
export const sameWorn = (one: StudyChange, other: StudyChange): boolean =>
  sortedKey(keyParts(one)) === sortedKey(keyParts(other));

const keyOf = (change: StudyChange): string => sortedKey({ ...keyParts(change), tape: change.tape });

const keyParts = ({ friction, flesh, ...change }: StudyChange): object => ({
  ...change,
  friction: friction?.coefficient,
  flesh: flesh && fleshKey(flesh),
  tape: undefined,
});

export const isNothing = (change: StudyChange): boolean => Object.keys(change).length === 0;
