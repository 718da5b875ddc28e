import type { Page } from 'playwright-core';

/** Drops files on the table as a person does. */
export const dropFiles = (
  page: Page,
  files: readonly { readonly name: string; readonly bytes: Uint8Array | string }[],
): Promise<void> =>
  page.evaluate(
    (given) => {
      const dataTransfer = new DataTransfer();
      for (const { name, binary } of given) {
        const bytes = Uint8Array.from(binary, (character) => character.codePointAt(0)!);
        dataTransfer.items.add(new File([bytes], name));
      }
      document
        .querySelector('.table')!
        .dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
    },
    files.map(({ name, bytes }) => ({ name, binary: Buffer.from(bytes).toString('latin1') })),
  );
