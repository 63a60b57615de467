const CHUNK = 0x2000

/** Bytes in the alphabet that is safe in an address, without padding (RFC 4648, section 5). */
export function toBase64url(bytes: Uint8Array): string {
  let text = ''
  for (let at = 0; at < bytes.length; at += CHUNK)
    text += String.fromCharCode(...bytes.subarray(at, at + CHUNK))
  return btoa(text).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '')
}

/**
 * The bytes behind a text in that alphabet; undefined for any other sign, padding included, for a length that no bytes
 * have, and for bits left over that are not zero (RFC 4648, sections 3.2, 3.3 and 3.5).
 */
export function fromBase64url(text: string): Uint8Array | undefined {
  if (!/^[A-Za-z0-9_-]*$/.test(text) || text.length % 4 === 1) return undefined
  const signs = atob(text.replaceAll('-', '+').replaceAll('_', '/'))
  const bytes = Uint8Array.from(signs, sign => sign.charCodeAt(0))
  return toBase64url(bytes) === text ? bytes : undefined
}
