/** A name that nothing else has: 24 hexadecimal digits from the browser's source of chance. */
export function newId(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(12)), byte =>
    byte.toString(16).padStart(2, '0'),
  ).join('')
}
