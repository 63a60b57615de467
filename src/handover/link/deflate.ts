/**
 * Raw deflate (RFC 1951) by the platform: every browser that the build is for has it, it adds no byte to the page, and
 * as a stream it can be stopped before a compression bomb has grown. A library would inflate into one array at once.
 */

/** Deflate grows at most about 1,032 times, so that one slice can never bring more than two megabytes. */
const SLICE_BYTES = 2048

export async function deflate(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array<ArrayBuffer>> {
  const stream = new Blob([bytes]).stream().pipeThrough(new CompressionStream('deflate-raw'))
  return new Uint8Array(await new Response(stream).arrayBuffer())
}

async function feed(writable: WritableStream<BufferSource>, bytes: Uint8Array<ArrayBuffer>): Promise<void> {
  const writer = writable.getWriter()
  for (let at = 0; at < bytes.length; at += SLICE_BYTES) await writer.write(bytes.slice(at, at + SLICE_BYTES))
  await writer.close()
}

/** The inflated bytes; undefined where they are damaged or would be more than `mostBytes`. */
export async function inflate(
  bytes: Uint8Array<ArrayBuffer>,
  mostBytes: number,
): Promise<Uint8Array<ArrayBuffer> | undefined> {
  const { readable, writable } = new DecompressionStream('deflate-raw')
  // Whatever is wrong with the input, the reading side says it too.
  feed(writable, bytes).catch(() => {})
  const reader = readable.getReader()
  const parts: Uint8Array[] = []
  let total = 0
  try {
    for (;;) {
      const { done, value } = await reader.read()
      if (done) break
      total += value.length
      if (total > mostBytes) {
        await reader.cancel()
        return undefined
      }
      parts.push(value)
    }
  } catch {
    return undefined
  }
  const whole = new Uint8Array(total)
  let at = 0
  for (const part of parts) {
    whole.set(part, at)
    at += part.length
  }
  return whole
}
