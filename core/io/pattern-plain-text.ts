/** A text in the 7-bit characters that an exchange file may hold: marks over letters go, all else becomes a question mark. */
export const plainAscii = (text: string): string =>
  text
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '')
    .replaceAll(/[^ -~]/gu, '?');
