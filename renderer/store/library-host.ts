import type { SheetFile } from './library-store.ts';

/** A file by its name and what is in it. */
export interface NamedBytes {
  readonly path: string;
  readonly bytes: Uint8Array;
}

export type LibraryWish = 'remembered' | 'allowed' | 'picked';

/** What of the host the library uses; stores know no shell, so it is told here as it is in the shell's contract. */
export interface LibraryHost {
  readonly readDemo: () => Promise<readonly NamedBytes[]>;
  readonly openLibrary: (wish: LibraryWish) => Promise<
    | { readonly kind: 'none'; readonly keepsFolder: boolean }
    | { readonly kind: 'locked'; readonly name: string }
    | { readonly kind: 'missing'; readonly name: string; readonly reason: 'gone' | 'not allowed' }
    | {
        readonly kind: 'open';
        readonly name: string;
        readonly writes: 'folder' | 'downloads';
        readonly files: readonly SheetFile[];
        readonly leftOut: number;
      }
    | null
  >;
  readonly readLibrary: (paths: readonly string[]) => Promise<readonly NamedBytes[]>;
  readonly writeLibrary: (
    path: string,
    text: string,
    replace: boolean,
  ) => Promise<
    | { readonly kind: 'written'; readonly file: SheetFile }
    | { readonly kind: 'exists'; readonly path: string }
    | { readonly kind: 'refused'; readonly reason: 'not allowed' | 'no room' | 'gone' }
  >;
}
