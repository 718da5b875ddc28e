/** How the characters of a table may be written, by the names that decoders know. */
export type TableEncoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

/** So many bytes tell UTF-16 without its mark. */
const SAMPLE = 2000;

/**
 * How a tester's file is written, for the decoder of whoever holds the bytes: UTF-16 by its mark or by its zeros (what
 * spreadsheets call Unicode text), UTF-8 where all bytes fit, else Windows-1252 (older testers of Western Europe).
 *
 * @see RFC 3629, section 3 (UTF-8), the Unicode Standard, section 23.8 (byte order mark).
 */
export function encodingOfTable(bytes: Uint8Array): TableEncoding {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  if (first === 0xfe && second === 0xff) return 'utf-16be';
  return byZeros(bytes.subarray(0, SAMPLE)) ?? (isUtf8(bytes) ? 'utf-8' : 'windows-1252');
}

/** Text of Western languages in UTF-16 has a zero in every other byte. */
function byZeros(sample: Uint8Array): TableEncoding | null {
  const zeros = { even: 0, odd: 0 };
  for (const [i, byte] of sample.entries()) if (byte === 0) zeros[i % 2 === 0 ? 'even' : 'odd']++;
  const many = sample.length / 4;
  if (zeros.odd > many && zeros.even === 0) return 'utf-16le';
  return zeros.even > many && zeros.odd === 0 ? 'utf-16be' : null;
}

function isUtf8(bytes: Uint8Array): boolean {
  let i = 0;
  while (i < bytes.length) {
    const following = followingBytes(bytes[i]!);
    if (following === null) return false;
    for (let k = 1; k <= following; k++) {
      // A file cut within a character is UTF-8 all the same.
      if (i + k < bytes.length && (bytes[i + k]! & 0xc0) !== 0x80) return false;
    }
    i += following + 1;
  }
  return true;
}

/** How many bytes follow a first byte; null where none may start so. */
function followingBytes(first: number): number | null {
  if (first < 0x80) return 0;
  if (first >= 0xc2 && first < 0xe0) return 1;
  if (first >= 0xe0 && first < 0xf0) return 2;
  return first >= 0xf0 && first < 0xf5 ? 3 : null;
}
