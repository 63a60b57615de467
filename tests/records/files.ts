import type { GivenFile } from '../../src/records/file-text.ts'

/** A file as a browser gives it. */
export function fileOf(content: string | Uint8Array<ArrayBuffer>, name = 'notebook.csv'): GivenFile {
  return new File([content], name)
}

/** A file of which only the size is known; reading it fails the test. */
export function hugeFile(size: number, name = 'huge.csv'): GivenFile {
  return {
    name,
    size,
    arrayBuffer: () => Promise.reject(new Error('a file this large must not be read')),
  }
}

/** The first bytes of a PNG picture (PNG specification, section 5.2: the signature), and a header after them. */
export const PICTURE = new Uint8Array([
  0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0x00, 0x00, 0x00, 0x0d, 0x49, 0x48, 0x44, 0x52,
])
