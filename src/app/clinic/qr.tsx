/** A QR code as one SVG path, black on white with the quiet zone of four modules that its standard asks for. */
import { generate } from 'lean-qr'
import type { VNode } from 'preact'

const QUIET = 4

/** The modules that are black as a path of unit squares, and how many modules a side has. */
export function qrPath(text: string): { readonly path: string; readonly size: number } | undefined {
  try {
    const code = generate(text)
    let path = ''
    for (let y = 0; y < code.size; y += 1)
      for (let x = 0; x < code.size; x += 1) if (code.get(x, y)) path += `M${x} ${y}h1v1h-1z`
    return { path, size: code.size }
  } catch {
    // Too much for one code.
    return undefined
  }
}

export function QrCode({ text, label }: { readonly text: string; readonly label: string }): VNode | null {
  const code = qrPath(text)
  if (!code) return null
  const side = code.size + 2 * QUIET
  return (
    <svg class="qr" viewBox={`${-QUIET} ${-QUIET} ${side} ${side}`} role="img" aria-label={label}>
      <rect x={-QUIET} y={-QUIET} width={side} height={side} fill="#fff" />
      <path d={code.path} fill="#000" shape-rendering="crispEdges" />
    </svg>
  )
}
