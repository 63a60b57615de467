const POLYNOMIAL = 0xedb88320

/** The checksum of a gzip member (RFC 1952, section 8). A digit of a telephone number that changed on the way shows. */
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff
  for (const byte of bytes) {
    crc ^= byte
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (crc & 1 ? POLYNOMIAL : 0)
  }
  return (crc ^ 0xffffffff) >>> 0
}
