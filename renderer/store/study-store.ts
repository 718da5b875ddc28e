import { createStore, type StoreApi } from 'zustand/vanilla';
import type { StudyChange, StudyProgress } from '../../core/study/study.ts';
import type { FaultSentence } from '../../core/words/word-tables.ts';
import type { SettledStudy, StudySheet, WornCloth } from '../worker/messages.ts';

export type { SettledStudy, StudySheet, WornCloth } from '../worker/messages.ts';

/** A study that lies on the table. */
export interface ShownStudy {
  /** As it is worn now, tries included. */
  readonly sheet: StudySheet;
  readonly settled: SettledStudy;
  /** How long it took, s. */
  readonly seconds: number;
  /** As it was opened. */
  readonly asOpened: StudySheet;
  /** What of it is tried otherwise; nothing of what is as the study has it. */
  readonly tried: StudyChange;
  /** Counts the studies laid on the table: a try keeps it. */
  readonly laid: number;
}

/** What is going on. The study on the table stays there whatever happens. */
export type Activity =
  | { readonly kind: 'idle' }
  | { readonly kind: 'reading'; readonly name: string }
  | { readonly kind: 'settling'; readonly sheet: StudySheet; readonly progress: StudyProgress }
  /** The study on the table settles again; `wanted` is what was asked for last. */
  | { readonly kind: 'trying'; readonly wanted: StudyChange; readonly progress: StudyProgress };

/** Something the reader must be told; it stays until it is put away. */
export interface Notice extends FaultSentence {
  /** File and place it was met in. */
  readonly file: string | null;
  /** A remark (saved, stopped) is said more quietly than a fault. */
  readonly tone: 'fault' | 'remark';
}

/** What was asked of the study on the table and cannot be worn: it stays asked for until something else is. */
export interface Refused {
  readonly wanted: StudyChange;
  readonly notice: Notice;
  /** Which study it was asked of, as {@link ShownStudy.laid} counts. */
  readonly laid: number;
}

export interface StudyState {
  readonly shown: ShownStudy | null;
  readonly refused: Refused | null;
  readonly activity: Activity;
  readonly notice: Notice | null;
}

export type StudyStore = StoreApi<StudyState>;

export const createStudyStore = (): StudyStore =>
  createStore<StudyState>(() => ({ shown: null, refused: null, activity: { kind: 'idle' }, notice: null }));

/** The worn cloth a fabric index stands for; the first where the study has no such fabric. */
export const wornAt = (settled: SettledStudy, index: number): WornCloth =>
  settled.worn[index] ?? settled.worn[0]!;

const NOTHING_TRIED: StudyChange = {};

/** What was asked to be tried last, settled or not. */
export const wantedChange = ({ activity, shown }: StudyState): StudyChange =>
  activity.kind === 'trying' ? activity.wanted : (shown?.tried ?? NOTHING_TRIED);

/** What of the study on the table is refused; null where nothing is. */
export const refusedNow = ({ refused, shown, activity }: StudyState): Refused | null =>
  activity.kind !== 'trying' && refused?.laid === shown?.laid ? refused : null;

/** What was asked for last, even where it cannot be worn. */
export const askedChange = (state: StudyState): StudyChange =>
  refusedNow(state)?.wanted ?? wantedChange(state);
