import { fileURLToPath } from 'node:url'
import { type Plugin, runnerImport } from 'vite'
import type { Frame } from '../../../shared/compiled.ts'
import { compileContent } from './protocol-plugin.ts'

const START = fileURLToPath(new URL('../prerender.tsx', import.meta.url))
const PLACE = '<div id="app"></div>'

/** Puts the start screen into the page, so that it is there before any script has run; the script reads it. */
export function prerenderPlugin(): Plugin {
  return {
    name: 'duskcheck-prerender',
    transformIndexHtml: {
      order: 'pre',
      handler: async html => {
        if (!html.includes(PLACE)) throw new Error(`index.html has no ${PLACE} for the start screen.`)
        const { module } = await runnerImport<{ renderStart: (frame: Frame) => string }>(START, {
          configFile: false,
          logLevel: 'error',
          oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
        })
        const start = module.renderStart(compileContent().frame)
        return html.replace(PLACE, () => PLACE.replace('><', () => `>${start}<`))
      },
    },
  }
}
