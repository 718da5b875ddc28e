/**
 * What the window may ask of the shell around it: types only, and no more calls than these.
 * Two shells keep to it: Electron (through `preload.ts`, as `window.snugfield`) and a plain browser page that the
 * loopback host of `npm start` serves.
 */

/** A file by its name and what is in it. The shell moves bytes; the window reads meaning into them. */
export interface NamedFile {
  /** As a person would name it: relative, with forward slashes, `fabrics/charmeuse.json`. */
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** What a person is asked to pick, besides a study. */
export type PickKind = 'bench' | 'body';

/** What the shell's menu can ask of the window; the browser shell has no menu and never asks. */
export type MenuCommand = 'openStudy' | 'bringBody' | 'savePicture' | 'saveNumbers' | 'printSheet' | 'prove';

/** A bench sheet in the library's folder. */
export interface LibraryFile {
  /** From the folder, with forward slashes, at most one folder down: `jersey/tern-210.bench.json`. */
  readonly path: string;
  /** Bytes. */
  readonly size: number;
  /** When it was written last, ms since 1970. */
  readonly changed: number;
}

/** How the library's folder is come by: the one of last time without asking; the same, asking leave; or one picked now. */
export type LibraryWish = 'remembered' | 'allowed' | 'picked';

/** What is found of the library. */
export type Library =
  /** No folder yet. `keepsFolder` is false where this browser lets a page have no folder: sheets come as files and leave as downloads. */
  | { readonly kind: 'none'; readonly keepsFolder: boolean }
  /** The browser wants the person's leave again, on a click: ask for `allowed`. */
  | { readonly kind: 'locked'; readonly name: string }
  /** The folder is not there any more, or may not be read. */
  | { readonly kind: 'missing'; readonly name: string; readonly reason: 'gone' | 'not allowed' }
  | {
      readonly kind: 'open';
      readonly name: string;
      /** Where a sheet that is written goes. */
      readonly writes: 'folder' | 'downloads';
      /** The bench sheets (`*.bench.json`) in the folder and one folder down, by path. */
      readonly files: readonly LibraryFile[];
      /** Sheets beyond the most that are listed. */
      readonly leftOut: number;
    };

/** What became of a sheet that was to be written. */
export type LibraryWriting =
  | { readonly kind: 'written'; readonly file: LibraryFile }
  /** There is one of that name, and nobody said that it may be replaced. */
  | { readonly kind: 'exists'; readonly path: string }
  | { readonly kind: 'refused'; readonly reason: 'not allowed' | 'no room' | 'gone' };

/** The shell as the window sees it. Every promise is refused with an Error whose message can be shown. */
export interface Host {
  readonly kind: 'electron' | 'browser';

  /** Everything in `assets/demo`, paths relative to that folder. */
  readonly readDemo: () => Promise<readonly NamedFile[]>;

  /**
   * Asks for a study file; null when the person thinks better of it.
   * The browser shell lets several files be picked at once: the study and those it names.
   */
  readonly openStudy: () => Promise<NamedFile | null>;

  /**
   * Reads files named by the study opened last, looked for beside it and nowhere above.
   * Files that are not there are left out of the answer; the order is that of `paths`.
   */
  readonly readBeside: (paths: readonly string[]) => Promise<readonly NamedFile[]>;

  /** Asks for one bench sheet or body file; null when the person thinks better of it. */
  readonly openFile: (kind: PickKind) => Promise<NamedFile | null>;

  /** Saves a PNG where the person says; the name it got, or null when they think better of it. */
  readonly savePicture: (png: Uint8Array, suggestedName: string) => Promise<string | null>;

  /** Saves text (CSV, JSON, OBJ) where the person says; the name it got, or null. */
  readonly saveText: (text: string, suggestedName: string) => Promise<string | null>;

  /** Prints the page as it stands with its print styles: to a PDF in Electron, to the print dialog in a browser. */
  readonly printSheet: (suggestedName: string) => Promise<string | null>;

  /**
   * The library: the folder of bench sheets that the person picked, and what is in it. The folder is remembered: in
   * Electron for good, in a browser as long as the page's address (its port) stays the same.
   *
   * @returns null when a person who was asked thinks better of it; the library stays what it was.
   */
  readonly openLibrary: (wish: LibraryWish) => Promise<Library | null>;

  /** Reads sheets of the library by their paths. What is not there, or lies outside the folder, is left out. */
  readonly readLibrary: (paths: readonly string[]) => Promise<readonly NamedFile[]>;

  /**
   * Writes a sheet into the library, whole or not at all; where `writes` is `downloads`, as a download. Characters that
   * some system forbids are taken out of its name: the answer has the path it got. Nothing is ever deleted.
   *
   * @param replace - True where the person said that a sheet of that name may be replaced.
   */
  readonly writeLibrary: (path: string, text: string, replace: boolean) => Promise<LibraryWriting>;

  /** Opens an https address in the person's own browser. */
  readonly openLink: (url: string) => Promise<void>;

  /** Calls `listener` for each menu command, until the returned function is called. */
  readonly onMenu: (listener: (command: MenuCommand) => void) => () => void;
}

/**
 * The browser shell's one file beside the built page: `demo/files.json`, a list of the paths under `demo/`.
 * Every address is relative to the page, whose path carries the host's token: `http://127.0.0.1:<port>/<token>/`.
 */
export type DemoList = readonly string[];
