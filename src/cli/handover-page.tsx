import { readFileSync } from 'node:fs'
import { renderToString } from 'preact-render-to-string'
import type { Handover } from '../../shared/handover.ts'
import { HistoryPage } from '../app/clinic/HistoryPage.tsx'

/** Black on white, as the app prints it; the app's own sheet of colours is not needed on paper. */
const PAPER =
  ':root{--line:#444;--text:#000;--text-soft:#222;--space-1:4px;--space-2:6px;--space-3:9px;--space-4:12px;--type-head:1.15em}' +
  'body{font-family:system-ui,sans-serif;max-width:50rem;margin:1rem auto;padding:0 1rem}'

/** The page as one HTML file without a script. */
export function htmlPage(history: Handover): string {
  const style = readFileSync(new URL('../app/clinic/clinic.css', import.meta.url), 'utf8')
  const body = renderToString(<HistoryPage history={history} />)
  return `<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>A history for the vet</title><style>${PAPER}${style}</style></head><body>${body}</body></html>\n`
}
