/** Characters that one call may take. */
const AT_ONCE = 8192;

/** Bytes as text, one character per byte: right for ASCII, and never wrong about where a byte stands. */
export function asciiText(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += AT_ONCE) {
    pieces.push(String.fromCharCode(...bytes.subarray(at, at + AT_ONCE)));
  }
  return pieces.join('');
}
