import type { StudyChange } from '../../core/study/study.ts';
import type { StudySheet } from './study-store.ts';

/** What the study was opened with, as a change that changes nothing. */
export const asOpenedChange = ({
  friction,
  frictionFrom,
  flesh,
  branch,
  garment,
}: StudySheet): Required<StudyChange> => ({
  friction: { coefficient: friction, from: frictionFrom },
  flesh,
  branch,
  girthScale: 1,
  from: garment.from,
  to: garment.to,
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
    ...(from !== asIs.from && { from }),
    ...(to !== asIs.to && { to }),
  };
}

const fleshKey = (flesh: Required<StudyChange>['flesh']): string =>
  flesh.kind === 'foundation' ? flesh.kind : `${flesh.kind} ${flesh.poisson} ${flesh.skin}`;

/** Whether two plain changes say the same. */
export function sameChange(one: StudyChange, other: StudyChange): boolean {
  return keyOf(one) === keyOf(other);
}

const keyOf = ({ friction, flesh, branch, girthScale, from, to }: StudyChange): string =>
  JSON.stringify([friction?.coefficient, flesh && fleshKey(flesh), branch, girthScale, from, to]);

export const isNothing = (change: StudyChange): boolean => Object.keys(change).length === 0;
