import type { LibraryDeeds } from '../../store/library-deeds.ts';
import type { LibraryState } from '../../store/library-store.ts';

/** What the library page and its parts are given. */
export interface LibraryPageProps {
  readonly library: LibraryState;
  readonly deeds: LibraryDeeds;
  /** The fabric that lies on the bench and could be saved here; null where there is none, or it is not whole. */
  readonly draft: { readonly name: string; readonly lot: string } | null;
  /** Hand the draft's text to `deeds.save` under this file name. */
  readonly onSaveDraft: (fileName: string) => void;
  readonly onOpen: (path: string) => void;
  readonly onCompare: (pathA: string, pathB: string) => void;
}
