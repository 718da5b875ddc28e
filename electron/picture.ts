import { wantName, wantPng } from './arguments.ts';
import { type FileDialogs, saveAs } from './files.ts';

/** What of `electron.WebContents` printing needs. */
export interface Printable {
  readonly printToPDF: (options: {
    printBackground: boolean;
    preferCSSPageSize: boolean;
  }) => Promise<Uint8Array>;
}

/** The calls that put what is seen on paper or in a picture. Each takes what the window sent, unchecked. */
export function makePictureCalls(dialogs: Pick<FileDialogs, 'save'>, page: () => Printable) {
  return {
    savePicture: async (png: unknown, suggested: unknown): Promise<string | null> =>
      saveAs(dialogs, { content: wantPng(png), name: wantName(suggested, ['.png']) }),

    printSheet: async (suggested: unknown): Promise<string | null> => {
      const name = wantName(suggested, ['.pdf']);
      // Made before the dialog opens, so that it shows the page the person asked to print.
      const content = await page().printToPDF({ printBackground: true, preferCSSPageSize: true });
      return saveAs(dialogs, { content, name });
    },
  };
}
