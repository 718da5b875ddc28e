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
export type MenuCommand = 'openStudy' | 'savePicture' | 'saveNumbers' | 'printSheet';

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
