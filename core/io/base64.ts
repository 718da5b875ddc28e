const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/**
 * The bytes of a base64 text; null where it is none.
 *
 * @see RFC 4648, section 4.
 */
export function bytesOfBase64(text: string): Uint8Array | null {
  const end = text.endsWith('==') ? text.length - 2 : text.endsWith('=') ? text.length - 1 : text.length;
  if (end % 4 === 1 || (end < text.length && text.length % 4 !== 0)) return null;
  const values = new Int16Array(128).fill(-1);
  for (let i = 0; i < DIGITS.length; i++) values[DIGITS.charCodeAt(i)] = i;
  const bytes = new Uint8Array(Math.floor((end * 3) / 4));
  let held = 0;
  let bits = 0;
  let at = 0;
  for (let i = 0; i < end; i++) {
    const value = values[text.charCodeAt(i)] ?? -1;
    if (value < 0) return null;
    held = ((held << 6) | value) & 0xffffff;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes[at++] = (held >> bits) & 0xff;
  }
  return bytes;
}
