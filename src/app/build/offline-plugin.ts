import { createHash } from 'node:crypto'
import { fileURLToPath } from 'node:url'
import type { Plugin } from 'vite'

const NAME = 'service-worker'
const FILE = `${NAME}.js`

/** Builds src/app/service-worker.ts and tells it the files of the build, in one fixed order. */
export function offlinePlugin(): Plugin {
  return {
    name: 'duskcheck-offline',
    apply: 'build',
    buildStart() {
      this.emitFile({
        type: 'chunk',
        id: fileURLToPath(new URL('../service-worker.ts', import.meta.url)),
        fileName: FILE,
      })
    },
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const worker = bundle[FILE]
        if (worker?.type !== 'chunk') this.error(`The build made no ${FILE}.`)
        const hash = createHash('sha256').update(worker.code)
        const files: string[] = []
        for (const [name, file] of Object.entries(bundle).sort(([one], [other]) => (one < other ? -1 : 1))) {
          if (name === FILE) continue
          files.push(name === 'index.html' ? './' : name)
          hash.update(name).update(file.type === 'chunk' ? file.code : file.source)
        }
        const version = hash.digest('hex').slice(0, 16)
        worker.code = `const BUILD_FILES=${JSON.stringify(files)},BUILD_VERSION=${JSON.stringify(version)};\n${worker.code}`
      },
    },
  }
}
