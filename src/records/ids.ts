const BYTES = 12
/** Chance is asked for in portions: an import of thousands of weights would wait on it otherwise. */
const AT_ONCE = 128

const HEX = Array.from({ length: 256 }, (_, byte) => byte.toString(16).padStart(2, '0'))

const drawn = new Uint8Array(BYTES * AT_ONCE)
let used = drawn.length

/** A name that nothing else has: 24 hexadecimal digits from the browser's source of chance. */
export function newId(): string {
  if (used === drawn.length) {
    crypto.getRandomValues(drawn)
    used = 0
  }
  let id = ''
  for (const end = used + BYTES; used < end; used += 1) id += HEX[drawn[used] ?? 0]
  return id
}
