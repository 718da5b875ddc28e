import { createStore, type StoreApi } from 'zustand/vanilla';
import type { LibraryEntry } from '../../core/sheet/library-entry.ts';
import {
  inOrder,
  isFound,
  type LibraryColumn,
  type LibraryLine,
  type LibraryOrder,
} from '../../core/sheet/library-order.ts';
import type { FaultSentence } from '../../core/words/word-tables.ts';

/** A bench sheet's file, as the host lists it. */
export interface SheetFile {
  readonly path: string;
  readonly size: number;
  readonly changed: number;
}

/** One line of the library. A sheet that cannot be read stands there with its reason. */
export interface SheetLine extends LibraryLine {
  readonly file: SheetFile;
  readonly entry: LibraryEntry | null;
  /** Why there is no entry; null while unread, too. */
  readonly broken: FaultSentence | null;
}

/** Where the fabrics come from. The demonstration is there while no folder is. */
export type LibraryPlace =
  | { readonly kind: 'unopened' }
  | { readonly kind: 'none'; readonly keepsFolder: boolean }
  | { readonly kind: 'locked'; readonly name: string }
  | { readonly kind: 'missing'; readonly name: string; readonly reason: 'gone' | 'not allowed' }
  | { readonly kind: 'open'; readonly name: string; readonly writes: 'folder' | 'downloads' };

/** Whether a sheet can be saved here; without a folder a browser still gives downloads. */
export const isWritable = (place: LibraryPlace): boolean =>
  place.kind === 'open' || (place.kind === 'none' && !place.keepsFolder);

export type LibraryActivity =
  | { readonly kind: 'idle' }
  | { readonly kind: 'listing' }
  | { readonly kind: 'reading'; readonly done: number; readonly total: number };

export interface LibraryNotice extends FaultSentence {
  readonly tone: 'fault' | 'remark';
}

export interface LibraryState {
  readonly place: LibraryPlace;
  /** As listed: by path. */
  readonly lines: readonly SheetLine[];
  /** Sheets beyond the most that are listed. */
  readonly leftOut: number;
  readonly activity: LibraryActivity;
  readonly search: string;
  readonly order: LibraryOrder;
  readonly onlyBroken: boolean;
  /** The line that keys and deeds are about. */
  readonly current: string | null;
  /** Marked for comparing: A, then B. */
  readonly marked: readonly string[];
  readonly asking: LibraryAsking | null;
  /** A sheet that waits for leave to replace another. */
  readonly question: { readonly path: string; readonly text: string } | null;
  readonly notice: LibraryNotice | null;
}

/** A small form that lies open: it asks for what is still wanted. */
export type LibraryAsking =
  | { readonly kind: 'draft'; readonly fileName: string }
  | { readonly kind: 'duplicate'; readonly path: string; readonly name: string; readonly lot: string };

export type LibraryStore = StoreApi<LibraryState>;

export const createLibraryStore = (): LibraryStore =>
  createStore<LibraryState>(() => ({
    place: { kind: 'unopened' },
    lines: [],
    leftOut: 0,
    activity: { kind: 'idle' },
    search: '',
    order: { by: 'name', falling: false },
    onlyBroken: false,
    current: null,
    marked: [],
    asking: null,
    question: null,
    notice: null,
  }));

/** The lines that search and order leave, as they stand on the page. */
export function shownLines({
  lines,
  search,
  order,
  onlyBroken,
}: Pick<LibraryState, 'lines' | 'search' | 'order' | 'onlyBroken'>): readonly SheetLine[] {
  const wanted = lines.filter(
    (line) => (!onlyBroken || line.broken !== null) && (search.trim() === '' || isFound(line, search)),
  );
  return inOrder(wanted, order);
}

export const unreadCount = (lines: readonly SheetLine[]): number =>
  lines.filter(({ entry, broken }) => entry === null && broken === null).length;

/** What a person does to the page itself: nothing leaves the window. */
export interface LibraryView {
  readonly search: (text: string) => void;
  /** The same column again turns the order round. */
  readonly orderBy: (by: LibraryColumn) => void;
  readonly showOnlyBroken: (only: boolean) => void;
  readonly pick: (path: string) => void;
  /** Marks a fabric for comparing, or takes its mark away; a third takes the place of the second. */
  readonly mark: (path: string) => void;
  /** Opens a form, keeps what was typed in it, or closes it. */
  readonly ask: (asking: LibraryAsking | null) => void;
  readonly putAway: () => void;
}

/** What is looked at from its latest or largest down. */
const FALLS_FIRST: readonly LibraryColumn[] = ['date', 'remarks'];

export const libraryView = (store: LibraryStore): LibraryView => ({
  search: (search) => store.setState({ search }),
  orderBy: (by) =>
    store.setState(({ order }) => ({
      order: { by, falling: order.by === by ? !order.falling : FALLS_FIRST.includes(by) },
    })),
  showOnlyBroken: (onlyBroken) => store.setState({ onlyBroken }),
  pick: (current) => store.setState({ current }),
  mark: (path) =>
    store.setState(({ lines, marked }) => {
      if (marked.includes(path)) return { marked: marked.filter((other) => other !== path) };
      const isSound = lines.some((line) => line.path === path && line.entry !== null);
      return isSound ? { marked: [...marked.slice(0, 1), path] } : {};
    }),
  ask: (asking) => store.setState({ asking }),
  putAway: () => store.setState({ notice: null }),
});
